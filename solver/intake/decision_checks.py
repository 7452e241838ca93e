"""Checks of held decisions and of pieces on hand: names, numbers and marks must go with the job."""

from __future__ import annotations

from collections.abc import Sequence

from solver.job.case import Case
from solver.job.have import PART_FORMS, PART_KINDS, Have, shelf_of, stock_name
from solver.job.holds import Hold
from solver.job.job import Job
from solver.plan.on_hand import is_moulding, material_of
from solver.units import Ticks, with_unit


def check_holds(job: Job) -> None:
    """Raise ValueError where a hold names what is not in the job, or a mark between two steps."""
    for hold in job.holds:
        case = None if hold.case is None else _case_of_hold(job, hold)
        if hold.item is not None:
            _check_item(job, hold, case)
        elif case is not None and hold.empty:
            _check_empty(hold, case)
        elif case is not None:
            _check_shelf(job, hold, case)
    subjects = [hold.subject for hold in job.holds]
    for hold, subject in zip(job.holds, subjects, strict=True):
        if subjects.count(subject) > 1:
            msg = f"hold {hold.text(job.unit)}: held twice; keep one of them"
            raise ValueError(msg)
    _check_places(job)


def _check_places(job: Job) -> None:
    """Raise ValueError where two kinds are held to one place."""
    taken: dict[tuple[object, ...], Hold] = {}
    for hold in job.holds:
        if hold.place is not None:
            spot = (hold.case, hold.bay, hold.opening, hold.place)
            other = taken.setdefault(spot, hold)
            if other is not hold:
                unit = job.unit
                msg = f"hold {hold.text(unit)}: {other.item} is held there; give another place"
                raise ValueError(msg)


def _case_of_hold(job: Job, hold: Hold) -> Case:
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
    _check_opening(hold, [case] if case else job.cases)
    count = job.item(str(hold.item)).count
    if hold.count is not None and hold.count > count:
        msg = f"hold count = {hold.count}: there are {count} of {hold.item!r}; give at most that"
        raise ValueError(msg)


def _check_opening(hold: Hold, cases: Sequence[Case]) -> None:
    most = max(max(one.shelf_counts) for one in cases)
    if hold.opening is not None and hold.opening > most:
        msg = f"hold opening = {hold.opening}: the highest there can be is opening {most}"
        raise ValueError(msg)


def _check_empty(hold: Hold, case: Case) -> None:
    _check_opening(hold, [case])
    _check_bay(hold, case, f"opening {hold.opening}")


def _check_bay(hold: Hold, case: Case, what: str) -> None:
    """Raise ValueError where a case may have several bays and none is named."""
    if case.bay_counts[-1] > 1 and hold.bay is None:
        msg = f"hold {what} of case {case.name!r}: say in which of its bays, such as {case.name}/1"
        raise ValueError(msg)


def _check_shelf(job: Job, hold: Hold, case: Case) -> None:
    most = max(case.shelf_counts)
    if hold.shelf is not None and hold.shelf > most:
        msg = f"hold shelf = {hold.shelf}: case {case.name!r} has at most {most} shelves"
        raise ValueError(msg)
    _check_bay(hold, case, f"shelf {hold.shelf}")
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


def check_have(job: Job) -> None:
    """Raise ValueError where a piece on hand does not go with the job."""
    messages = [message for _, message in have_faults(job)]
    if messages:
        raise ValueError("; ".join(messages))


def have_faults(job: Job) -> list[tuple[int, str]]:
    """Return each [[have]] that does not go with the job by its number, from 1, and why."""
    faults = []
    taken = {sheet.name for sheet in job.sheets}
    for number, have in enumerate(job.have, start=1):
        called = f"have {number} ({have.what}{f' {have.name}' if have.name else ''})"
        try:
            _check_piece(job, have)
        except ValueError as error:
            faults.append((number, f"{called}: {error}"))
        if stock_name(have, number) in taken:
            faults.append((number, f"{called}: a [[sheet]] is called so; call that otherwise"))
    return faults


def _check_piece(job: Job, have: Have) -> None:
    if have.what in PART_KINDS:
        _check_part(job, have)
    elif have.what == "sheet" and have.name is not None and have.length is None:
        _check_known("name", have.name, [sheet.name for sheet in job.sheets])
    materials = [*dict.fromkeys(s.material for s in job.sheets), *(m.name for m in job.mouldings)]
    if have.material is not None:
        _check_known("material", have.material, materials)
    elif (
        have.what in ("offcut", "sheet") and have.length is not None and _has_several_materials(job)
    ):
        named = [sheet.name for sheet in job.sheets]
        if have.name not in named:
            msg = f"say of which material: {', '.join(map(repr, materials))}"
            raise ValueError(msg)
    if (
        have.length is not None
        and have.width is None
        and not is_moulding(job, material_of(job, have))
    ):
        msg = "give the width too"
        raise ValueError(msg)


def _has_several_materials(job: Job) -> bool:
    return len({sheet.material for sheet in job.sheets}) + len(job.mouldings) > 1


def _check_part(job: Job, have: Have) -> None:
    if not have.part_case:
        msg = f"{have.name!r} is no part; such as {PART_FORMS}"
        raise ValueError(msg)
    _check_known("case", have.part_case, [case.name for case in job.cases])
    case = job.case(have.part_case)
    if have.part_kind == "lip" and case.lip is None:
        msg = f"case {case.name!r} has no lips"
        raise ValueError(msg)
    if have.part_kind == "back" and case.back == "none":
        msg = f"case {case.name!r} has no back"
        raise ValueError(msg)
    if have.what == "fixed":
        _check_fixed(job, have)


def _check_fixed(job: Job, have: Have) -> None:
    case = job.case(have.part_case)
    if shelf_of(have) is None:
        msg = "a shelf that is fixed is named with its number, such as alcove/shelf-2"
        raise ValueError(msg)
    if have.mark is None:
        return
    low, high = marks_beside(job, case, have.mark)
    if low != high:
        near = " or ".join(with_unit(mark, job.unit) for mark in (low, high) if mark > 0)
        msg = f"mark {with_unit(have.mark, job.unit)} is between two marks; give {near}"
        raise ValueError(msg)


def _check_known(what: str, name: str, known: list[str]) -> None:
    if name not in known:
        msg = f"{what} {name!r} is not in the job; allowed: {', '.join(map(repr, known))}"
        raise ValueError(msg)
