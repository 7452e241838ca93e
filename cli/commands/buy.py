"""`casewright buy`: everything to buy, errand by errand."""

from __future__ import annotations

from textwrap import fill
from typing import Annotated

import typer

from cli.answer_file import write_answer
from cli.console import console
from cli.export import table_text
from cli.options import Force, JobOrPlan, JsonBeside, MakeOption, Prices, TimeLimit
from cli.output import STDOUT, check_target, write_text
from cli.plan_of import option_named, plan_of
from cli.price_file import read_prices
from cli.tables.buying import buy_lines, buy_tables, use_lines
from cli.tables.words import plain_name
from solver.bought import BuyList
from solver.buying.buy_list import buy_list
from solver.plan import Plan


def buy(
    job: JobOrPlan,
    prices: Prices = None,
    option: MakeOption = None,
    json: JsonBeside = None,
    csv: Annotated[
        str | None,
        typer.Option("--csv", metavar="FILE", help="Write it as CSV; - for standard output."),
    ] = None,
    force: Force = False,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Show what to buy, where, what for, and what it costs as far as prices are known.

    What is on hand is taken off.

    Example: casewright buy pantry.toml --prices prices.csv --csv buy.csv
    """
    for path in (json, csv):
        if path is not None:
            check_target(path, force=force)
    known = read_prices(prices)
    plan = plan_of(job, time_limit, known)
    bought = buy_list(plan.job, option_named(plan, option), known)
    _write(plan, bought, json, csv, force=force)
    if STDOUT not in (json, csv):
        _show(plan, bought)


def _write(plan: Plan, bought: BuyList, json: str | None, csv: str | None, *, force: bool) -> None:
    if json is not None:
        data = {
            **bought.model_dump(mode="json"),
            "missing": bought.missing,
        }
        write_answer(json, "buy", plan, data, force=force)
    if csv is not None:
        columns = ("place", "what", "size", "need", "spare", "on_hand", "pack", "packs")
        rows = [
            [*(getattr(line, one) for one in columns), line.each, line.amount, "; ".join(line.why)]
            for line in bought.lines
        ]
        write_text(csv, table_text([*columns, "each", "amount", "for"], rows), force=force)


def _show(plan: Plan, bought: BuyList) -> None:
    out = console()
    out.print(f"{plain_name(plan.job.head.title)}: to buy for {plain_name(bought.option)}")
    for titled in buy_tables(bought, plan.job):
        out.print(f"\n{titled.title}")
        out.print(titled.table)
    out.print()
    for line in (*use_lines(bought), *buy_lines(bought)):
        out.print(fill(line, out.width))
