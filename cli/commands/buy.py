"""`casewright buy`: everything to buy, errand by errand."""

from __future__ import annotations

from textwrap import fill
from typing import Annotated

import typer

from cli.commands.options import Force, JobOrPlan, JsonBeside, MakeOption, Prices, TimeLimit
from cli.files.export import table_text
from cli.files.price_file import read_prices
from cli.run.plan_of import OptionRequest
from cli.screen import buying_tables
from cli.screen.buying_tables import buy_lines, buy_tables, use_lines
from cli.screen.console import console, points
from cli.screen.wording import plain_name
from solver.costing.buy_list import buy_list
from solver.costing.hardware import hardware_list, shelf_pin_holes
from solver.plan.bought import BuyList
from solver.plan.plan import Option, Plan


def buy(
    job: JobOrPlan,
    prices: Prices = None,
    option: MakeOption = None,
    json: JsonBeside = None,
    csv: Annotated[
        str | None,
        typer.Option("--csv", metavar="FILE", help="Write it as CSV; - for standard output."),
    ] = None,
    explain: Annotated[
        bool,
        typer.Option(
            "--explain",
            help="Hinges, screws with their holes, pins, glue, finish and the like as well, each"
            " with its arithmetic and source, and the holes for shelf pins.",
        ),
    ] = False,
    force: Force = False,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Show what to buy, where, what for, and what it costs as far as prices are known.

    All in whole packs; what is on hand is taken off.

    Example: casewright buy pantry.toml --prices prices.csv --explain
    """
    request = OptionRequest(job, option, time_limit, json, csv, force=force)
    known = read_prices(prices)
    plan, chosen = request.read(known)
    bought = buy_list(plan.job, chosen, known)

    def show() -> None:
        _show(plan, bought)
        if explain:
            _explain(plan, chosen)

    request.deliver("buy", plan, lambda: _data(plan, chosen, bought), show, lambda: _table(bought))


def _data(plan: Plan, option: Option, bought: BuyList) -> dict[str, object]:
    lines, pins = hardware_list(plan.job, option), shelf_pin_holes(plan.job, option)
    return {
        **bought.model_dump(mode="json"),
        "missing": bought.missing,
        "hardware": {
            "lines": [line.model_dump(mode="json") for line in lines],
            "pin_holes": [one.model_dump(mode="json") for one in pins],
        },
    }


def _table(bought: BuyList) -> str:
    columns = ("place", "what", "size", "need", "spare", "on_hand", "pack", "packs")
    rows = [
        [*(getattr(line, one) for one in columns), line.each, line.amount, "; ".join(line.why)]
        for line in bought.lines
    ]
    return table_text([*columns, "each", "amount", "for"], rows)


def _show(plan: Plan, bought: BuyList) -> None:
    out = console()
    out.print(f"{plain_name(plan.job.head.title)}: to buy for {plain_name(bought.option)}")
    for titled in buy_tables(bought, plan.job):
        out.print(f"\n{titled.title}")
        out.print(titled.table)
    out.print()
    for line in (*use_lines(bought), *buy_lines(bought)):
        out.print(fill(line, out.width))


def _explain(plan: Plan, option: Option) -> None:
    """Print the hardware and consumables, how many and why, and where the pins go."""
    out, unit = console(), plan.unit
    lines = hardware_list(plan.job, option)
    out.print(f"\nHardware for {plain_name(option.name)}")
    for titled in buying_tables.tables(lines, unit):
        out.print(f"\n{titled.title}")
        out.print(titled.table)
    points(
        out,
        buying_tables.hole_lines(shelf_pin_holes(plan.job, option), unit),
        "Holes for shelf pins",
    )
    points(out, buying_tables.explained_lines(lines, unit), "Where the numbers come from")
