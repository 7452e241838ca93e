"""What cannot be held: names that are not in the job, and marks between two steps."""

from __future__ import annotations

from solver.case import Case
from solver.holds import Hold
from solver.job import Job
from solver.units import Ticks, with_unit


def check_holds(job: Job) -> None:
    """Raise ValueError where a hold names what is not in the job, or a mark between two steps."""
    for hold in job.holds:
        case = None if hold.case is None else _case(job, hold)
        if hold.item is not None:
            _check_item(job, hold, case)
        elif case is not None:
            _check_shelf(job, hold, case)
    subjects = [hold.subject for hold in job.holds]
    for hold, subject in zip(job.holds, subjects, strict=True):
        if subjects.count(subject) > 1:
            msg = f"hold {hold.text(job.unit)}: held twice; keep one of them"
            raise ValueError(msg)


def _case(job: Job, hold: Hold) -> Case:
    names = [case.name for case in job.cases]
    if hold.case not in names:
        msg = f"hold case = {hold.case!r} is not in the job; allowed: {_listed(names)}"
        raise ValueError(msg)
    case = job.case(str(hold.case))
    bays = max(case.bay_counts)
    if hold.bay is not None and hold.bay > bays:
        msg = f"hold bay = {hold.bay}: case {case.name!r} has bays 1 to {bays}; name one of them"
        raise ValueError(msg)
    return case


def _listed(names: list[str]) -> str:
    return ", ".join(map(repr, names))


def _check_item(job: Job, hold: Hold, case: Case | None) -> None:
    names = [item.name for item in job.items]
    if hold.item not in names:
        msg = f"hold item = {hold.item!r} is not in the job; allowed: {_listed(names)}"
        raise ValueError(msg)
    most = max(max(one.shelf_counts) for one in ([case] if case else job.cases))
    if hold.opening is not None and hold.opening > most:
        msg = f"hold opening = {hold.opening}: the highest there can be is opening {most}"
        raise ValueError(msg)
    count = job.item(str(hold.item)).count
    if hold.count is not None and hold.count > count:
        msg = f"hold count = {hold.count}: there are {count} of {hold.item!r}; give at most that"
        raise ValueError(msg)


def _check_shelf(job: Job, hold: Hold, case: Case) -> None:
    most = max(case.shelf_counts)
    if hold.shelf is not None and hold.shelf > most:
        msg = f"hold shelf = {hold.shelf}: case {case.name!r} has at most {most} shelves"
        raise ValueError(msg)
    if case.bay_counts[-1] > 1 and hold.bay is None:
        msg = (
            f"hold shelf {hold.shelf} of case {case.name!r}: say in which of its "
            f"bays, such as {case.name}/1"
        )
        raise ValueError(msg)
    assert hold.mark is not None
    low, high = marks_beside(job, case, hold.mark)
    if low != high:
        unit = job.unit
        near = [with_unit(mark, unit) for mark in (low, high) if mark >= 0]
        msg = (
            f"hold shelf {hold.shelf} at {with_unit(hold.mark, unit)}: "
            f"{_marks_are(job, case)}; the nearest are {' and '.join(near)}"
        )
        raise ValueError(msg)


def _marks_are(job: Job, case: Case) -> str:
    if case.fixing == "pins":
        return f"the pin holes are {with_unit(case.pin_pitch, job.unit)} apart"
    return f"marks are whole multiples of {with_unit(job.head.marking_step, job.unit)}"


def marks_beside(job: Job, case: Case, mark: Ticks) -> tuple[Ticks, Ticks]:
    """The allowed marks at or below and at or above a height; equal where it is one [tick]."""
    pins = case.fixing == "pins"
    start, step = (case.first_hole, case.pin_pitch) if pins else (0, job.head.marking_step)
    low = start + (mark - start) // step * step
    return low, low if low == mark else low + step
