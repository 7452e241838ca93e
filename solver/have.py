"""What is there already when a job is planned again in the shop, and what a plan makes of it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Annotated, Literal

from pydantic import Field, model_validator

from solver.holds import marks_beside
from solver.inventory import Positive
from solver.materials import Name
from solver.quantities import Length, Model
from solver.units import TICKS_PER_MM, Ticks, inches, with_unit

if TYPE_CHECKING:
    from solver.job import Job

What = Literal["cut", "short", "spoiled", "offcut", "sheet", "fixed"]
"""A part that is cut, found too short, or spoiled; a leftover; a sheet that is opened; a shelf
that is fixed in its place."""
PARTS: tuple[What, ...] = ("cut", "short", "spoiled", "fixed")
"""Those that are, or were to be, parts of the job."""

RIGHT: Ticks = max(inches("1/64"), TICKS_PER_MM // 2)
"""A part within this of its size is right: half of what a tape is read to [tick]."""

_PART = re.compile(
    r"(?P<case>.+)/(?P<kind>side(?:-left|-right)?|top|bottom|upright(?:-\d+)?|toe|back(?:-\d+)?"
    r"|(?:bay-\d+-)?shelf(?:-\d+)?|lip(?:-\d+|-bay-\d+-shelf-\d+)?)"
)
PART_FORMS = (
    "alcove/shelf-2, alcove/bay-1-shelf-2, alcove/side-left, alcove/top, alcove/upright-1, "
    "alcove/toe, alcove/back, alcove/lip-2; or alcove/shelf for any shelf of the alcove"
)


class Have(Model):
    """[[have]]: something that is there already, to be planned around."""

    what: What
    name: Name | None = None
    """Of a part: its id, or its case and kind for any of the kind. Of a sheet: its stock."""
    material: Name | None = None
    """Material, or moulding; left out: that of the part, or the only one there is."""
    length: Positive | None = None
    """Along the grain, as measured [tick]; left out: a part is as planned, a sheet whole."""
    width: Positive | None = None
    """Across the grain, as measured [tick]."""
    count: Annotated[int, Field(ge=1, le=1000)] = 1
    """How many alike [-]."""
    mark: Positive | None = None
    """Underside of a shelf that is fixed, from the bottom end of the case's side [tick]."""
    clean: bool | None = None
    """Whether the edges need no trimming; left out: those of parts are clean, others not."""
    note: str | None = None

    @model_validator(mode="after")
    def _whole(self) -> Have:
        if self.what in PARTS and self.name is None:
            msg = f"{self.what}: say which part, such as {PART_FORMS}"
            raise ValueError(msg)
        if self.what == "fixed" and self.count > 1:
            msg = "fixed: one shelf at a time"
            raise ValueError(msg)
        if self.mark is not None and self.what != "fixed":
            msg = "a mark goes with what is fixed"
            raise ValueError(msg)
        if self.width is not None and self.length is None:
            msg = "a width without a length; give both"
            raise ValueError(msg)
        if self.what in ("short", "offcut") and self.length is None:
            msg = f"{self.what}: give the length and width that are there"
            raise ValueError(msg)
        if self.what == "sheet" and self.name is None and self.length is None:
            msg = "sheet: give the name of a [[sheet]], or the length and width that are left of it"
            raise ValueError(msg)
        return self

    @property
    def is_clean(self) -> bool:
        """Whether its edges need no trimming."""
        return self.what in PARTS if self.clean is None else self.clean

    @property
    def part_case(self) -> str:
        """Case of the part that it names; empty where it names none."""
        found = _PART.fullmatch(self.name or "") if self.what in PARTS else None
        return found["case"] if found else ""

    @property
    def part_kind(self) -> str:
        """Kind of the part that it names, such as side, shelf or lip."""
        found = _PART.fullmatch(self.name or "") if self.what in PARTS else None
        return _plain_kind(found["kind"]) if found else ""


def _plain_kind(kind: str) -> str:
    """Return shelf of bay-1-shelf-2, side of side-left."""
    plain = re.sub(r"^bay-\d+-", "", kind)
    return plain.split("-")[0]


def stock_name(have: Have, number: int) -> str:
    """Return what a piece is called where something is cut from it; `number` from 1."""
    of = "" if have.name is None else f" {have.name}"
    return f"have {number}: {have.what}{of}"


def material_of(job: Job, have: Have) -> str:
    """Return the material, or moulding, of something that is there."""
    if have.material is not None:
        return have.material
    if have.what in PARTS:
        case = job.case(have.part_case)
        if have.part_kind == "lip":
            return case.lip.moulding if case.lip else ""
        return case.back if have.part_kind == "back" else case.material
    named = [sheet.material for sheet in job.sheets if sheet.name == have.name]
    return (named or [sheet.material for sheet in job.sheets])[0]


def size_of(job: Job, have: Have) -> tuple[Ticks, Ticks] | None:
    """Return length and width [tick]; width 0 for mouldings, None: not measured."""
    if have.length is not None:
        return have.length, have.width or 0
    if have.what == "sheet":
        stock = next(sheet for sheet in job.sheets if sheet.name == have.name)
        return stock.length, stock.width
    return None


def is_moulding(job: Job, material: str) -> bool:
    """Whether a material is a moulding of the job."""
    return any(moulding.name == material for moulding in job.mouldings)


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


def shelf_of(have: Have) -> tuple[int | None, int] | None:
    """Return (bay, number) of the shelf that it names, bay None where there is one only."""
    found = re.fullmatch(r".+/(?:bay-(\d+)-)?shelf-(\d+)", have.name or "")
    return (int(found[1]) if found[1] else None, int(found[2])) if found else None


def _known(what: str, name: str, known: list[str]) -> None:
    if name not in known:
        msg = f"{what} {name!r} is not in the job; allowed: {', '.join(map(repr, known))}"
        raise ValueError(msg)


class Rest(Model):
    """What is left of a piece that is cut down."""

    length: Length
    width: Length


class Used(Model):
    """A part that is there already, or comes from one piece that is."""

    have: int
    """Number of the [[have]], from 1."""
    part: str
    """Id of the part that it becomes."""
    how: Literal["as it is", "cut down", "fixed"]
    rests: tuple[Rest, ...] = ()
    """What is left where it is cut down: by a crosscut, then a rip, or the other way round."""


class Left(Model):
    """Pieces that are there and not used."""

    have: int
    count: int
    why: str | None = None
    """Why it serves for nothing, where that is not for want of parts that fit."""


class HaveOutcome(Model):
    """What of that which is there is used for what, and what is left."""

    used: tuple[Used, ...]
    left: tuple[Left, ...]
    again: tuple[str, ...] = ()
    """Parts that were spoiled or found short, and are cut again."""
    kept: tuple[str, ...] = ()
    """What is held because parts are cut to it, in words."""
