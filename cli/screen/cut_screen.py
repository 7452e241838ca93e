"""A cut plan on the console: each sheet or stick, what it costs, what is proven."""

from __future__ import annotations

from rich.console import Console
from rich.text import Text

from cli.screen.advice_tables import advice_line, advice_table, slack_lines, slack_table
from cli.screen.console import points
from cli.screen.cutting_tables import (
    mouldings_table,
    parts_table,
    set_lines,
    sheet_tables,
    stops_table,
)
from cli.screen.sawing_tables import sawing_notes
from cli.screen.style import Titled
from cli.screen.wording import amount, count
from solver.outcome import Status
from solver.plan.plan import CutPlan
from solver.plan.stocked import Sheet

SHEETS_SHOWN = 60
"""Most sheets whose tables are printed; a list for so many is read from its files [-]."""


def print_cut_plan(console: Console, plan: CutPlan) -> None:
    """Print the parts, every sheet or stick, and the summary."""
    tables = [] if plan.mouldings is not None else [parts_table(plan.parts, plan.unit)]
    tables += _stock_tables(plan, console.width)
    sheets, sticks = plan.sheets or (), plan.mouldings or ()
    tables.append(slack_table(sheets[:SHEETS_SHOWN], sticks, plan.unit))
    if plan.advice:
        tables.append(advice_table(plan.advice, plan.unit, plan.cost.currency))
    for titled in tables:
        console.print(Text(titled.title, style="bold"))
        console.print(titled.table)
        console.print()
    points(console, sawing_notes(plan.sheets or ()))
    for line in [*not_shown(plan), *summary(plan)]:
        console.print(line)


def _stock_tables(plan: CutPlan, width: int) -> list[Titled]:
    if plan.mouldings is not None:
        return [
            mouldings_table(plan.mouldings, plan.unit),
            stops_table(plan.mouldings, plan.unit),
        ]
    sheets = plan.sheets or ()
    whole = len(sheets) <= SHEETS_SHOWN
    return sheet_tables(sheets[:SHEETS_SHOWN], plan.unit, width, plan.settings if whole else ())


def not_shown(plan: CutPlan) -> list[str]:
    """Say where the tables are that are too many to print."""
    last = len(plan.sheets or ())
    if last <= SHEETS_SHOWN:
        return []
    return [
        f"Sheets {SHEETS_SHOWN + 1} to {last}, and the settings of the saws over all sheets, are "
        "not printed: --json FILE and --csv FOLDER have them."
    ]


def summary(plan: CutPlan) -> list[str]:
    """Return what is bought, what it costs, how much becomes parts, and what is proven."""
    bought = count(plan.sheet_count, _one(plan))
    lines = [f"To buy: {bought}; fewer than {plan.sheet_bound} cannot do."]
    if plan.cost.complete:
        total, bound = (
            amount(m, plan.cost.currency) for m in (plan.cost.total, plan.cost.stock_bound)
        )
        lines.append(f"Price: {total}; less than {bound} cannot do.")
    else:
        lines.append("Price: not known, since prices are missing.")
    if plan.sheets:
        lines.append(f"Board used: {used_share(plan.sheets) * 100:.0f} % of the sheets.")
    lines += set_lines(plan.sets, plan.cost.currency)
    lines += slack_lines(plan.sheets or (), plan.mouldings or (), plan.unit)
    return [*lines, *advice_line(plan.advice_note), status_line(plan)]


def _one(plan: CutPlan) -> str:
    return "stick" if plan.mouldings is not None else "sheet"


def used_share(sheets: tuple[Sheet, ...]) -> float:
    """Return the share of all sheets that becomes parts [-]."""
    area = sum(piece.length * piece.width for sheet in sheets for piece in sheet.pieces)
    return area / sum(sheet.length * sheet.width for sheet in sheets)


def status_line(plan: CutPlan) -> str:
    """Say in plain words what is proven."""
    best = "cheapest" if plan.cost.complete and plan.cost.total else "least stock"
    if plan.status is Status.OPTIMAL:
        return f"Proven: this is the {best} that can do."
    return f"Best found: whether it is the {best} that can do is not proven."
