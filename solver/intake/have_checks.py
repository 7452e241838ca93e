"""What is said to be there already and does not go with the job."""

from __future__ import annotations

from solver.have import PART_FORMS, PARTS, Have, shelf_of, stock_name
from solver.intake.hold_checks import marks_beside
from solver.job import Job
from solver.on_hand import is_moulding, material_of
from solver.units import with_unit


def check_have(job: Job) -> None:
    """Raise ValueError where something that is there names what is not in the job."""
    told = [message for _, message in faults(job)]
    if told:
        raise ValueError("; ".join(told))


def faults(job: Job) -> list[tuple[int, str]]:
    """Return what does not go with the job: the number of each [[have]] from 1, and why."""
    found = []
    taken = {sheet.name for sheet in job.sheets}
    for number, have in enumerate(job.have, start=1):
        called = f"have {number} ({have.what}{f' {have.name}' if have.name else ''})"
        try:
            _check(job, have)
        except ValueError as error:
            found.append((number, f"{called}: {error}"))
        if stock_name(have, number) in taken:
            found.append((number, f"{called}: a [[sheet]] is called so; call that otherwise"))
    return found


def _check(job: Job, have: Have) -> None:
    if have.what in PARTS:
        _check_part(job, have)
    elif have.what == "sheet" and have.name is not None and have.length is None:
        _known("name", have.name, [sheet.name for sheet in job.sheets])
    materials = [*dict.fromkeys(s.material for s in job.sheets), *(m.name for m in job.mouldings)]
    if have.material is not None:
        _known("material", have.material, materials)
    elif have.what in ("offcut", "sheet") and have.length is not None and _several(job):
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


def _several(job: Job) -> bool:
    return len({sheet.material for sheet in job.sheets}) + len(job.mouldings) > 1


def _check_part(job: Job, have: Have) -> None:
    if not have.part_case:
        msg = f"{have.name!r} is no part; such as {PART_FORMS}"
        raise ValueError(msg)
    _known("case", have.part_case, [case.name for case in job.cases])
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


def _known(what: str, name: str, known: list[str]) -> None:
    if name not in known:
        msg = f"{what} {name!r} is not in the job; allowed: {', '.join(map(repr, known))}"
        raise ValueError(msg)
