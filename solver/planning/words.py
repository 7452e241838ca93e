"""Changes of a job in the words of the trade."""

from __future__ import annotations

from collections.abc import Sequence

from solver.job import Job
from solver.planning.situation import look_now
from solver.remarks import Altered
from solver.units import with_unit


def change_text(job: Job, changes: Sequence[Altered]) -> str:
    """Say what to change: `3/8 in more height of each case`, two changes joined by `and`."""
    return " and ".join(_text(job, change) for change in changes)


def _text(job: Job, change: Altered) -> str:
    if change.what in ("depth", "width", "height"):
        return _size(job, change)
    if change.what == "shelves":
        return _shelves(job, change)
    if change.item is not None:
        return _form(change)
    now = with_unit(look_now(job, change), job.unit)
    return f"{change.what} {with_unit(change.to or 0, job.unit)} instead of {now}"


def _size(job: Job, change: Altered) -> str:
    word = "less" if change.less else "more"
    text = f"{with_unit(change.by or 0, job.unit)} {word} {change.what}{_whose(job, change)}"
    if change.to is not None:
        text += f", {with_unit(change.to, job.unit)}"
    return f"{text} ({change.note})" if change.note else text


def _whose(job: Job, change: Altered) -> str:
    if len(job.cases) == 1:
        return ""
    return " of each case" if change.case is None else f" of {change.case}"


def _shelves(job: Job, change: Altered) -> str:
    number = change.number or 0
    each = " in each bay" if _bays(job, change.case) > 1 else ""
    word = "more" if number > 0 else "fewer"
    what = f"{abs(number)} {'shelf' if abs(number) == 1 else 'shelves'} {word}{each}"
    return what if change.case is None else f"{what} of {change.case}"


def _bays(job: Job, name: str | None) -> int:
    return sum(case.bay_count for case in job.cases if name in (None, case.name))


def _form(change: Altered) -> str:
    if change.what == "lying":
        return f"{change.item} may lie down"
    if change.what == "stacking":
        return f"{change.item} stacked {change.number} high"
    return f"{change.item} {change.number} rows deep"
