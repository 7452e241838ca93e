"""[[have]]: what is there already when a job is planned again in the shop."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import Field, model_validator

from solver.job.inventory import Positive
from solver.job.materials import Name
from solver.quantities import Model
from solver.units import TICKS_PER_MM, Ticks, inches

HaveKind = Literal["cut", "short", "spoiled", "offcut", "sheet", "fixed"]
"""A part that is cut, found too short, or spoiled; a leftover; a sheet that is opened; a shelf
that is fixed in its place."""
PART_KINDS: tuple[HaveKind, ...] = ("cut", "short", "spoiled", "fixed")
"""Those that are, or were to be, parts of the job."""

SIZE_TOLERANCE: Ticks = max(inches("1/64"), TICKS_PER_MM // 2)
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

    what: HaveKind
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
        if self.what in PART_KINDS and self.name is None:
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
        return self.what in PART_KINDS if self.clean is None else self.clean

    @property
    def part_case(self) -> str:
        """Case of the part that it names; empty where it names none."""
        part = _PART.fullmatch(self.name or "") if self.what in PART_KINDS else None
        return part["case"] if part else ""

    @property
    def part_kind(self) -> str:
        """Kind of the part that it names, such as side, shelf or lip."""
        part = _PART.fullmatch(self.name or "") if self.what in PART_KINDS else None
        return _plain_kind(part["kind"]) if part else ""


def _plain_kind(kind: str) -> str:
    """Return shelf of bay-1-shelf-2, side of side-left."""
    plain = re.sub(r"^bay-\d+-", "", kind)
    return plain.split("-")[0]


def stock_name(have: Have, number: int) -> str:
    """Return what a piece is called where something is cut from it; `number` from 1."""
    of = "" if have.name is None else f" {have.name}"
    return f"have {number}: {have.what}{of}"


def shelf_of(have: Have) -> tuple[int | None, int] | None:
    """Return (bay, number) of the shelf that it names, bay None where there is one only."""
    match = re.fullmatch(r".+/(?:bay-(\d+)-)?shelf-(\d+)", have.name or "")
    return (int(match[1]) if match[1] else None, int(match[2])) if match else None
