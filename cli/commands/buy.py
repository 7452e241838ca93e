"""`casewright buy`: everything to buy, errand by errand."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from cli.options import Force, MakeOption, Prices, TimeLimit

if TYPE_CHECKING:
    from solver.bought import BuyList
    from solver.plan import Plan


def buy(
    job: Annotated[
        str, typer.Argument(metavar="JOB", help="A job file (.toml), or a plan (.json) of one.")
    ],
    prices: Prices = None,
    option: MakeOption = None,
    json: Annotated[
        str | None,
        typer.Option("--json", metavar="FILE", help="Write it as JSON; - for standard output."),
    ] = None,
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
    from cli.output import STDOUT, check_target
    from cli.plan_of import option_named, plan_of
    from cli.price_file import read_prices
    from solver.buying.buy_list import buy_list

    for path in (json, csv):
        if path is not None:
            check_target(path, force=force)
    known = read_prices(prices)
    plan = plan_of(job, time_limit)
    bought = buy_list(plan.job, option_named(plan, option), known)
    _write(plan, bought, json, csv, force=force)
    if STDOUT not in (json, csv):
        _show(plan, bought)


def _write(plan: Plan, bought: BuyList, json: str | None, csv: str | None, *, force: bool) -> None:
    import json as json_module

    from cli.export import table_text
    from cli.output import write_text

    if json is not None:
        data = {
            "schema": "casewright/buy/1",
            "unit": plan.unit,
            "job_hash": plan.job_hash,
            **bought.model_dump(mode="json"),
            "missing": bought.missing,
        }
        write_text(json, json_module.dumps(data, ensure_ascii=False, indent=1) + "\n", force=force)
    if csv is not None:
        columns = ("place", "what", "size", "need", "spare", "on_hand", "pack", "packs")
        rows = [
            [*(getattr(line, one) for one in columns), line.each, line.amount, "; ".join(line.why)]
            for line in bought.lines
        ]
        write_text(csv, table_text([*columns, "each", "amount", "for"], rows), force=force)


def _show(plan: Plan, bought: BuyList) -> None:
    from textwrap import fill

    from cli.console import console
    from cli.tables.buying import buy_lines, buy_tables, use_lines
    from cli.tables.words import plain_name

    out = console()
    out.print(f"{plain_name(plan.job.head.title)}: to buy for {plain_name(bought.option)}")
    for titled in buy_tables(bought, plan.job):
        out.print(f"\n{titled.title}")
        out.print(titled.table)
    out.print()
    for line in (*use_lines(bought), *buy_lines(bought)):
        out.print(fill(line, out.width))
