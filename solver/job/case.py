"""A case as ordered."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from solver.job.case_fittings import Glass, Light, TrimOrder
from solver.job.inventory import NotNegative, Positive
from solver.job.materials import Name
from solver.quantities import Model

SHELVES_MOST = 30
"""Most shelves of one bay."""
UPRIGHTS_MOST = 19
"""Most uprights of one case."""

Count = Annotated[int, Field(ge=0, le=SHELVES_MOST)]
Uprights = Annotated[int, Field(ge=0, le=UPRIGHTS_MOST)]


class SizeRange(Model):
    """A size that is left open."""

    least: Positive
    """[tick]"""
    most: Positive
    """[tick]"""
    wish: Positive | None = None
    """The size wished for [tick]; left out, the most."""

    @model_validator(mode="after")
    def _ordered(self) -> SizeRange:
        if not self.least <= self.wished <= self.most:
            msg = "least <= wish <= most is wanted"
            raise ValueError(msg)
        return self

    @property
    def wished(self) -> int:
        """The size wished for [tick]."""
        return self.most if self.wish is None else self.wish


def settled(size: int | SizeRange) -> int:
    """Return a size that is decided [tick]; ValueError where it is still open."""
    if isinstance(size, SizeRange):
        msg = "the size is still open; settle the job first (solver.carcass.settled_job)"
        raise ValueError(msg)
    return size


def least_size(size: int | SizeRange) -> int:
    """Return the least that a size may be [tick]."""
    return size.least if isinstance(size, SizeRange) else size


def most_size(size: int | SizeRange) -> int:
    """Return the most that a size may be [tick]."""
    return size.most if isinstance(size, SizeRange) else size


class CountRange(Model):
    """A range of shelf counts, or of uprights."""

    least: Count
    most: Count

    @model_validator(mode="after")
    def _ordered(self) -> CountRange:
        if self.least > self.most:
            msg = "least <= most is wanted"
            raise ValueError(msg)
        return self


class Lip(Model):
    """A strip on the front edge of each shelf, cut from a moulding."""

    moulding: Name
    """Name of a [[moulding]]: its thickness is front to back, its width up and down."""
    above: NotNegative
    """How far it stands above the shelf's upper face [tick]; the rest hangs below."""


class Case(Model):
    """One case: a shelved box.

    The plain case has the top and bottom between the sides, butt joints glued and
    screwed, a planted back, no toe and fixed shelves of the full inside depth.
    """

    name: Name
    """Unique."""
    kind: Literal["hung", "standing", "built-in", "wall"]
    doorway: str | None = None
    """Name of the [[doorway]] it goes into."""
    sizes: Literal["outside", "inside"]
    """Whether width, height and depth are outside or clear inside sizes."""
    width: Positive | SizeRange
    """[tick]; a range is decided with the sheets."""
    height: Positive | SizeRange
    """[tick]; a range is decided with the sheets."""
    depth: Positive | SizeRange | None = None
    """[tick]; a range is decided with the sheets; left out: deepest thing and front margin."""
    uprights: Uprights | Annotated[tuple[Uprights, ...], Field(min_length=1)] | CountRange
    """Boards that divide it into bays of equal width: one number, several, or a range [-]."""
    shelves: Count | Annotated[tuple[Count, ...], Field(min_length=1)] | CountRange
    """Boards between the lowest board and the top, in each bay: one number, several, or a range."""
    above_floor: NotNegative
    """Bottom end of the sides above the room's floor [tick]."""
    raised_bottom: NotNegative
    """Lower face of the bottom board above the bottom end of the sides [tick]; 0: no toe."""
    fixing: Literal["fixed", "pins"]
    """Fixed shelves, or shelves on pins."""
    pin_pitch: Positive
    """Pitch of the pin holes [tick]."""
    first_hole: NotNegative
    """Underside of a shelf on the lowest pins, above the bottom end of the sides [tick]."""
    pin_clearance: NotNegative
    """How much shorter than its opening a shelf on pins is, both ends together [tick]."""
    joint: Literal["butt", "dado"]
    """How fixed shelves, top and bottom meet the sides."""
    dado: NotNegative
    """Depth of each dado [tick]; only with joint = "dado". Shelves housed from both sides of an
    upright leave a third of it."""
    material: Name
    """Material of sides, top, bottom, uprights and shelves."""
    back: Name
    """Material of the planted back, or "none"."""
    back_inset: NotNegative
    """How much smaller than the outside the back is, each way, both edges together [tick]."""
    lip: Lip | None = None
    matched: bool
    """Whether all its shelves are wished from one sheet, in sequence."""
    beside: str | None = None
    """Name of the neighbouring case whose shelf lines it shares."""
    trim: TrimOrder | None = Field(default=None, exclude_if=lambda trim: trim is None)
    """[case.trim]; left out: no trim but the lips."""
    light: Light | None = Field(default=None, exclude_if=lambda light: light is None)
    """[case.light]; left out: none."""
    glass: Glass | None = Field(default=None, exclude_if=lambda glass: glass is None)
    """[case.glass]; left out: none."""

    @model_validator(mode="after")
    def _within_limits(self) -> Case:
        if isinstance(self.uprights, CountRange) and self.uprights.most > UPRIGHTS_MOST:
            msg = f"uprights: at most {UPRIGHTS_MOST}"
            raise ValueError(msg)
        if self.kind == "hung" and self.open_outline:
            msg = (
                "width and height of a hung case follow its doorway; give one length each "
                '(ranges are for kind = "standing", "built-in" and "wall")'
            )
            raise ValueError(msg)
        return self

    @property
    def open_outline(self) -> bool:
        """True where its width or height is left open."""
        return isinstance(self.width, SizeRange) or isinstance(self.height, SizeRange)

    @property
    def bay_counts(self) -> tuple[int, ...]:
        """The numbers of bays that are allowed, ascending [-]."""
        return tuple(n + 1 for n in _counts(self.uprights))

    @property
    def bay_count(self) -> int:
        """Number of bays [-]; ValueError where it is still open."""
        if len(self.bay_counts) > 1:
            msg = "the number of bays is still open; settle the job first"
            raise ValueError(msg)
        return self.bay_counts[0]

    @property
    def shelf_counts(self) -> tuple[int, ...]:
        """The shelf counts that are allowed in each bay, ascending [-]."""
        return _counts(self.shelves)

    @property
    def dado_depth(self) -> int:
        """Depth of each dado, 0 with butt joints [tick]."""
        return self.dado if self.joint == "dado" else 0


def _counts(wanted: int | tuple[int, ...] | CountRange) -> tuple[int, ...]:
    """Return the numbers allowed by one number, several, or a range, ascending [-]."""
    if isinstance(wanted, CountRange):
        return tuple(range(wanted.least, wanted.most + 1))
    return (wanted,) if isinstance(wanted, int) else tuple(sorted(set(wanted)))
