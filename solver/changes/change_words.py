"""Changes in the words of the trade: those of a job, and those that save stock."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from solver.changes.candidates import JOINT, half, measure
from solver.changes.change_models import Change, What
from solver.changes.situation import look_now
from solver.job.job import Job
from solver.plan.slack_and_advice import Alteration
from solver.plan.stocked import Part
from solver.units import Unit, with_unit


def change_text(job: Job, changes: Sequence[Alteration]) -> str:
    """Say what to change: `3/8 in more height of each case`, two changes joined by `and`."""
    return " and ".join(_text(job, change) for change in changes)


def _text(job: Job, change: Alteration) -> str:
    if change.what in ("depth", "width", "height"):
        return _size(job, change)
    if change.what == "shelves":
        return _shelves(job, change)
    if change.what in ("lip", "thickness", "uprights"):
        return _stronger(job, change)
    if change.item is not None:
        return _form(change)
    now = with_unit(look_now(job, change), job.unit)
    return f"{change.what} {with_unit(change.to or 0, job.unit)} instead of {now}"


def _size(job: Job, change: Alteration) -> str:
    word = "less" if change.less else "more"
    text = f"{with_unit(change.by or 0, job.unit)} {word} {change.what}{_whose(job, change)}"
    if change.to is not None:
        text += f", {with_unit(change.to, job.unit)}"
    return f"{text} ({change.note})" if change.note else text


def _whose(job: Job, change: Alteration) -> str:
    if len(job.cases) == 1:
        return ""
    return " of each case" if change.case is None else f" of {change.case}"


def _shelves(job: Job, change: Alteration) -> str:
    number = change.number or 0
    each = " in each bay" if _bays(job, change.case) > 1 else ""
    word = "more" if number > 0 else "fewer"
    what = f"{abs(number)} {'shelf' if abs(number) == 1 else 'shelves'} {word}{each}"
    return what if change.case is None else f"{what} of {change.case}"


def _stronger(job: Job, change: Alteration) -> str:
    size = with_unit(change.to or 0, job.unit)
    if change.what == "thickness":
        return f"boards of {size} in place of {change.item}"
    if change.what == "uprights":
        return f"an upright more, each bay narrower{_whose(job, change)}"
    cases = [case for case in job.cases if change.case in (None, case.name)]
    word = "a higher lip" if any(case.lip for case in cases) else "a lip"
    return f"{word} along each shelf, {size} high in all, glued to its front{_whose(job, change)}"


def _bays(job: Job, name: str | None) -> int:
    return sum(case.bay_count for case in job.cases if name in (None, case.name))


def _form(change: Alteration) -> str:
    if change.what == "lying":
        return f"{change.item} may lie down"
    if change.what == "stacking":
        return f"{change.item} stacked {change.number} high"
    return f"{change.item} {change.number} rows deep"


KINDS: dict[What, str] = {
    "shorter": "shorter parts",
    "narrower": "narrower parts",
    "kerf": "a thinner blade",
    "edge trim": "less edge trim",
    "grain": "turned grain",
    "two pieces": "parts in two pieces",
    "more of a size": "more of a scarce size",
}
"""Kinds of change as a list names them."""


def listed(words: Sequence[str]) -> str:
    """Return `a`, `a and b`, `a, b and c`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def counted(parts: Sequence[Part]) -> str:
    """Name parts with how many there are: `4 x shelf and 2 x side`, their case before them."""
    names: dict[str, int] = {}
    for part in parts:
        name = f"{part.case}: {part.name}" if part.case else part.name
        names[name] = names.get(name, 0) + 1
    return listed([f"{number} x {name}" for name, number in names.items()])


def text_of(change: Change, amount: int, parts: Mapping[str, Part], unit: Unit) -> str:
    """Say what to change, by how much, and the resulting size."""
    some = [parts[ident] for ident in change.parts]
    if change.what == "kerf":
        return f"kerf {with_unit(amount, unit)} instead of {with_unit(change.now, unit)}"
    if change.what == "edge trim":
        less = f"trim {with_unit(amount, unit)}" if amount else "no trim"
        return f"{less} instead of {with_unit(change.now, unit)} off each factory edge"
    if change.what == "more of a size":
        return f"{amount} of {change.stock}, where {change.now} at most could be bought"
    if change.what == "grain":
        return f"turn the grain of {counted(some)}; where it shows, ask the client"
    if change.what == "two pieces":
        return _in_two(change, some, unit)
    size = with_unit(measure(some[0], change.side) - amount, unit)
    cut = " as cut" if some[0].allowances else ""
    return f"{counted(some)}: {with_unit(amount, unit)} {change.what}, {size} {_side(change)}{cut}"


def _side(change: Change) -> str:
    return "long" if change.side == "length" else "wide"


def _in_two(change: Change, some: Sequence[Part], unit: Unit) -> str:
    size = with_unit(half(measure(some[0], change.side), change.side, unit), unit)
    joint = with_unit(JOINT[unit][change.side], unit)
    how = f"a lap of {joint}" if change.side == "length" else f"{joint} to true the glued edges"
    return f"{counted(some)} in two pieces, each {size} {_side(change)} with {how}"


def no_saving_text(
    proven: Sequence[What], searched: Sequence[What], stock: str, *, over: bool
) -> str:
    """Say that no change was found, for which kinds that is proven and for which it is not."""
    text = f"no small change found that saves a {stock}"
    if over:
        text += " by the limit"
    if proven:
        text += f"; proven for {listed([KINDS[what] for what in proven])}"
    if searched:
        text += f"; not proven for {listed([KINDS[what] for what in searched])}"
    return text
