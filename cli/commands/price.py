"""`casewright price`: what a job costs, every line of it."""

from __future__ import annotations

from decimal import Decimal
from textwrap import fill
from typing import Annotated

import typer

from cli.commands.options import Force, JobOrPlan, JsonBeside, MakeOption, Prices, TimeLimit
from cli.files.export import table_text
from cli.files.price_file import read_actuals, read_prices
from cli.run.plan_of import OptionRequest
from cli.screen import price_tables as tables
from cli.screen.console import console
from cli.screen.wording import plain_name
from solver.costing.actuals import compare
from solver.costing.estimate import estimate
from solver.errors import InputError
from solver.plan.estimated import Difference, Estimate
from solver.plan.plan import Plan


def price(
    job: JobOrPlan,
    prices: Prices = None,
    option: MakeOption = None,
    actual: Annotated[
        str | None,
        typer.Option(
            "--actual",
            metavar="FILE.csv",
            help="Hours and amounts as they came to be (what,hours,amount), beside the estimate.",
        ),
    ] = None,
    json: JsonBeside = None,
    csv: Annotated[
        str | None,
        typer.Option(
            "--csv", metavar="FILE", help="Write the lines as CSV, to be filled in for --actual."
        ),
    ] = None,
    force: Force = False,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Price materials, labour by task, what is often left out, overhead, tax and payments.

    [price] in the job file says what an hour costs and how it is paid. What has no price is
    named, and the total then says that it is incomplete.

    Example: casewright price pantry.toml --prices prices.csv
    """
    request = OptionRequest(job, option, time_limit, json, csv, force=force)
    known = read_prices(prices)
    plan, chosen = request.read(known)
    others = [one for one in plan.options if one.cases and one.name != chosen.name]
    estimates = [estimate(plan.job, one, known) for one in (chosen, *others)]
    rows = _compared(estimates[0], actual)
    request.deliver(
        "price",
        plan,
        lambda: _data(estimates, rows),
        lambda: _show(plan, estimates, rows),
        lambda: table_text(("what", "hours", "amount", "note"), _blank_rows(estimates[0])),
    )


def _compared(made: Estimate, actual: str | None) -> tuple[Difference, ...]:
    if actual is None:
        return ()

    try:
        return compare(made, read_actuals(actual))
    except InputError as error:
        if error.where is not None or actual in str(error):
            raise
        raise InputError(error.message, actual) from None


def _data(estimates: list[Estimate], rows: tuple[Difference, ...]) -> dict[str, object]:
    return {
        "options": [
            {
                **one.model_dump(mode="json"),
                "total": f"{one.total:.2f}",
                "complete": one.complete,
            }
            for one in estimates
        ],
        "actual": [row.model_dump(mode="json") for row in rows],
    }


def _blank_rows(made: Estimate) -> list[list[str | None]]:
    """Every line of the estimate with empty cells for what comes of it."""
    currency = made.currency
    rows: list[list[str | None]] = [
        [line.named, None, None, f"estimated {line.amount or 'no price'} {currency}"]
        for line in made.buying.lines
    ]
    rows += [_blank_row(line.task, line.minutes, line.amount, currency) for line in made.labour]
    rows += [_blank_row(line.what, line.minutes, line.amount, currency) for line in made.extras]
    return rows


def _blank_row(
    what: str, minutes: Decimal, amount: Decimal | None, currency: str
) -> list[str | None]:
    priced = "no price" if amount is None else f"{amount} {currency}"
    return [what, None, None, f"estimated {minutes / 60:.2f} h, {priced}"]


def _show(plan: Plan, made: list[Estimate], rows: tuple[Difference, ...]) -> None:
    out, first = console(), made[0]
    out.print(f"{plain_name(plan.job.head.title)}: price of {plain_name(first.option)}")
    shown = [
        tables.material_table(first),
        tables.labour_table(first),
        tables.extras_table(first),
        tables.sums_table(first),
    ]
    shown += [tables.options_table(made)] if len(made) > 1 else []
    shown += [tables.difference_table(rows, first.currency)] if rows else []
    for titled in shown:
        out.print(f"\n{titled.title}")
        out.print(titled.table)
    out.print()
    for line in tables.price_lines(first):
        out.print(fill(line, out.width))
