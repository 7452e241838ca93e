"""The estimate: materials, labour, what is often left out, sums, payments, options compared."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from cli.screen.console import Titled, plain_table
from cli.screen.wording import NONE, amount, plain_name
from solver.job.defaults_trim_finish import CP
from solver.job.labour_table import Phase
from solver.plan.estimated import Difference, Estimate, ExtraLine, LabourLine

PHASES: dict[Phase, str] = {
    "before": "before the work",
    "cutting": "cutting",
    "making": "making",
    "finish": "finish",
    "site": "on site",
}
_PER = {"m2": "m2 (10.8 ft2)"}
"""Areas are counted in square metres in every job; what that is in feet."""
TICK, ZERO = "✓", "0"


def hours_text(minutes: Decimal) -> str:
    """Minutes as hours, to a tenth."""
    return f"{minutes / 60:.1f}"


def _money(value: Decimal | None, currency: str) -> str:
    return NONE if value is None else amount(value, currency)


def material_table(made: Estimate) -> Titled:
    """Materials in short; casewright buy has them by errand."""
    table = plain_table("buy", "what", "each", "amount", right=("buy", "each", "amount"))
    for line in made.buying.lines:
        table.add_row(
            str(line.packs),
            plain_name(line.named),
            _money(line.each, made.currency),
            "no price" if line.missing else _money(line.amount, made.currency),
        )
    return Titled("Materials", table)


def labour_table(made: Estimate) -> Titled:
    """Labour, task by task under its phase."""
    columns = ("count", "min each", "hours", "amount")
    table = plain_table("task", *columns, right=columns)
    for phase, heading in PHASES.items():
        mine = [line for line in made.labour if line.phase == phase]
        if not mine:
            continue
        whole = sum((line.minutes for line in mine), Decimal(0))
        table.add_row(heading, "", "", hours_text(whole), _sum(made, mine), style="bold")
        for line in mine:
            mark = "" if line.source == CP else " *"
            table.add_row(
                f"  {line.task}, {_PER.get(line.per, line.per)}{mark}",
                f"{line.count:f}",
                f"{line.each:f}",
                hours_text(line.minutes),
                _money(line.amount, made.currency),
            )
    return Titled("Labour", table)


def _sum(made: Estimate, lines: Sequence[LabourLine]) -> str:
    amounts = [line.amount for line in lines if line.amount is not None]
    if len(amounts) < len(lines):
        return NONE
    return amount(sum(amounts, Decimal(0)), made.currency)


def extras_table(made: Estimate) -> Titled:
    """What is often left out: each with a tick or a zero."""
    table = plain_table("", "what", "why", "hours", "amount", right=("hours", "amount"))
    for line in made.extras:
        table.add_row(
            ZERO if line.state == "none" else TICK,
            line.what,
            line.why,
            _hours(line),
            _money(line.amount, made.currency),
        )
    return Titled("What is often left out", table)


def _hours(line: ExtraLine) -> str:
    return hours_text(line.minutes) if line.minutes else NONE


def sums_table(made: Estimate) -> Titled:
    """The summing up, and what is due when."""
    table = plain_table("", "amount", right=("amount",))
    for line in made.sums:
        table.add_row(line.what, amount(line.amount, made.currency))
    for payment in made.payments:
        table.add_row(
            f"due {payment.when}, {payment.share:f} %", amount(payment.amount, made.currency)
        )
    return Titled("Summing up", table)


def price_lines(made: Estimate) -> list[str]:
    """Say what the total rests on, and what is missing from it."""
    lines = []
    if made.missing:
        names = "; ".join(map(plain_name, made.missing))
        lines.append(f"Incomplete: the total is too low by what has no price: {names}.")
        lines += [f"{plain_name(one)}?" for one in made.buying.near]
    if made.shelf is not None:
        money = made.shelf.amount
        priced = "" if money is None else f", {amount(money, made.currency)}"
        lines.append(
            f"One shelf is {made.shelf.minutes:f} min of labour{priced}, with what is counted by "
            "the shelf, its joints and its lip."
        )
    lines.append(f"The price holds {made.valid_days} days.")
    lines.append(
        "Times are common practice, no source, but for those marked *, which the job sets; "
        "[price] labour changes any of them. Every line is rounded half up to the cent; sums are "
        "of rounded lines."
    )
    if made.buying.note:
        lines.append(f"Price list: {plain_name(made.buying.note.rstrip('.'))}.")
    return lines


def options_table(options: Sequence[Estimate]) -> Titled:
    """Every option beside the others, one a line."""
    columns = ("materials", "labour", "extras", "total", "more", "hours")
    table = plain_table("option", *columns, right=columns)
    first = options[0]
    for one in options:
        sums = {line.kind: line.amount for line in one.sums}
        table.add_row(
            plain_name(one.option) + ("" if one.complete else " *"),
            amount(sums["materials"], one.currency),
            amount(sums["labour"], one.currency),
            amount(sums["extras"], one.currency),
            amount(one.total, one.currency),
            _more(one, first),
            hours_text(one.minutes),
        )
    return Titled("Options side by side (* incomplete)", table)


def _more(one: Estimate, first: Estimate) -> str:
    more = one.total - first.total
    sign = "−" if more < 0 else "+"
    return NONE if one is first else f"{sign}{amount(abs(more), one.currency)}"


def difference_table(rows: Sequence[Difference], currency: str) -> Titled:
    """Estimate against actual."""
    columns = ("hours", "actual h", "more h", "amount", "actual", "more")
    table = plain_table("what", *columns, right=columns)
    for row in rows:
        table.add_row(
            plain_name(row.what),
            *(_plain(one) for one in (row.hours, row.hours_actual, row.more_hours)),
            *(_signed(one, currency) for one in (row.amount, row.amount_actual, row.more)),
        )
    return Titled("Estimate against actual", table)


def _plain(value: Decimal | None) -> str:
    return NONE if value is None else f"{value:.2f}".replace("-", "−")


def _signed(value: Decimal | None, currency: str) -> str:
    if value is None:
        return NONE
    return f"{'−' if value < 0 else ''}{amount(abs(value), currency)}"
