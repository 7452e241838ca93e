"""Estimate against actual: hours and amounts entered after the work beside those reckoned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from solver.errors import InputError
from solver.job.labour_table import unknown_name
from solver.plan.estimated import Difference, Estimate


@dataclass(frozen=True)
class Entry:
    """Hours and amount entered for one line of the estimate, or for a group of lines.

    Attributes
    ----------
    what
        A task, an extra, a thing bought, a phase of the work, a place of buying, or materials,
        labour or extras as a whole.
    hours
        Hours worked; None: not entered [h].
    amount
        Paid, or worth; None: not entered.
    """

    what: str
    hours: Decimal | None
    amount: Decimal | None


@dataclass(frozen=True)
class _Line:
    """A line of the estimate: the names it goes by, and what was reckoned."""

    names: tuple[str, ...]
    minutes: Decimal | None
    amount: Decimal | None


def compare(planned: Estimate, entries: Sequence[Entry]) -> tuple[Difference, ...]:
    """Return each entry beside what was reckoned, and all entries together last.

    Raises
    ------
    InputError
        Where a name is not one of the estimate, or two entries count the same line.
    """
    lines = _lines(planned)
    known = dict.fromkeys(name for line in lines for name in line.names)
    taken: dict[int, str] = {}
    rows = []
    for entry in entries:
        name = _known_name(entry.what, known)
        counted = [at for at, line in enumerate(lines) if name in line.names]
        twice = next((at for at in counted if at in taken), None)
        if twice is not None:
            msg = (
                f"{entry.what!r} and {taken[twice]!r} both count {lines[twice].names[0]!r}; "
                "enter it once"
            )
            raise InputError(msg)
        taken |= dict.fromkeys(counted, entry.what)
        rows.append(_compared(name, [lines[at] for at in counted], entry))
    return (*rows, _total(rows)) if rows else ()


def _known_name(given: str, known: dict[str, None]) -> str:
    plain = " ".join(given.split()).casefold()
    match = next((name for name in known if name.casefold() == plain), None)
    if match is None:
        raise InputError(unknown_name("line of the estimate", given, known))
    return match


def _lines(planned: Estimate) -> list[_Line]:
    lines = [
        _Line((line.named, line.place, "materials"), None, line.amount)
        for line in planned.buying.lines
    ]
    lines += [
        _Line((line.task, line.phase, "labour"), line.minutes, line.amount)
        for line in planned.labour
    ]
    lines += [_Line((line.what, "extras"), line.minutes, line.amount) for line in planned.extras]
    return lines


def _compared(name: str, mine: list[_Line], entry: Entry) -> Difference:
    minutes = [line.minutes for line in mine if line.minutes is not None]
    hours = _hours(sum(minutes, Decimal(0))) if minutes else None
    amounts = [line.amount for line in mine]
    amount = None if None in amounts else sum((one for one in amounts if one), Decimal("0.00"))
    return Difference(
        what=name,
        hours=hours,
        hours_actual=entry.hours,
        amount=amount,
        amount_actual=entry.amount,
        more=_difference_of(entry.amount, amount),
        more_hours=_difference_of(entry.hours, hours),
    )


def _hours(minutes: Decimal) -> Decimal:
    return (minutes / 60).quantize(Decimal("0.01"))


def _difference_of(actual: Decimal | None, planned: Decimal | None) -> Decimal | None:
    return None if actual is None or planned is None else actual - planned


def _total(rows: Sequence[Difference]) -> Difference:
    """Sum the rows that have both figures, so that the difference compares like with like."""
    hours = [row for row in rows if row.more_hours is not None]
    amounts = [row for row in rows if row.more is not None]
    return Difference(
        what="together",
        hours=_sum([row.hours for row in hours]),
        hours_actual=_sum([row.hours_actual for row in hours]),
        amount=_sum([row.amount for row in amounts]),
        amount_actual=_sum([row.amount_actual for row in amounts]),
        more=_sum([row.more for row in amounts]),
        more_hours=_sum([row.more_hours for row in hours]),
    )


def _sum(values: Sequence[Decimal | None]) -> Decimal | None:
    return sum((value for value in values if value is not None), Decimal(0)) if values else None
