"""Estimate against actual: hours and amounts entered after the work beside those reckoned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from solver.errors import InputError
from solver.job.labour_table import unknown_name
from solver.plan.estimated import Difference, Estimate

GROUPS = ("materials", "labour", "extras")


@dataclass(frozen=True)
class Entry:
    """What came of one line, or of a group of lines.

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


def compare(made: Estimate, entries: Sequence[Entry]) -> tuple[Difference, ...]:
    """Return each entry beside what was reckoned, and all entries together last.

    Raises
    ------
    InputError
        Where a name is not one of the estimate, or two entries count the same line.
    """
    lines = _lines(made)
    known = dict.fromkeys(name for line in lines for name in line.names)
    taken: dict[int, str] = {}
    rows = []
    for entry in entries:
        name = _named(entry.what, known)
        mine = [at for at, line in enumerate(lines) if name in line.names]
        twice = next((at for at in mine if at in taken), None)
        if twice is not None:
            msg = (
                f"{entry.what!r} and {taken[twice]!r} both count {lines[twice].names[0]!r}; "
                "enter it once"
            )
            raise InputError(msg)
        taken |= dict.fromkeys(mine, entry.what)
        rows.append(_difference(name, [lines[at] for at in mine], entry))
    return (*rows, _together(rows)) if rows else ()


def names(made: Estimate) -> tuple[str, ...]:
    """Return every name that an entry may have."""
    return tuple(dict.fromkeys(name for line in _lines(made) for name in line.names))


def _named(given: str, known: dict[str, None]) -> str:
    plain = " ".join(given.split()).casefold()
    found = next((name for name in known if name.casefold() == plain), None)
    if found is None:
        raise InputError(unknown_name("line of the estimate", given, known))
    return found


def _lines(made: Estimate) -> list[_Line]:
    lines = [
        _Line((line.named, line.place, "materials"), None, line.amount)
        for line in made.buying.lines
    ]
    lines += [
        _Line((line.task, line.phase, "labour"), line.minutes, line.amount) for line in made.labour
    ]
    lines += [_Line((line.what, "extras"), line.minutes, line.amount) for line in made.extras]
    return lines


def _difference(name: str, mine: list[_Line], entry: Entry) -> Difference:
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
        more=_less(entry.amount, amount),
        more_hours=_less(entry.hours, hours),
    )


def _hours(minutes: Decimal) -> Decimal:
    return (minutes / 60).quantize(Decimal("0.01"))


def _less(actual: Decimal | None, planned: Decimal | None) -> Decimal | None:
    return None if actual is None or planned is None else actual - planned


def _together(rows: Sequence[Difference]) -> Difference:
    """Sum what has both figures, so that the difference is of like and like."""
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


def _sum(found: Sequence[Decimal | None]) -> Decimal | None:
    return sum((one for one in found if one is not None), Decimal(0)) if found else None
