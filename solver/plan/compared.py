"""A plan beside the one it starts from, and decisions that cannot be held."""

from __future__ import annotations

from pydantic import Field

from solver.quantities import Length, Model, Money


class OpeningPlace(Model):
    """An opening."""

    case: str
    bay: int
    """From 1 at the left."""
    opening: int


class MarkMoved(Model):
    """A shelf whose mark is another than before."""

    case: str
    bay: int
    shelf: int
    before: Length
    """Underside from the bottom end of the side."""
    after: Length


class ThingsMoved(Model):
    """Things of one kind that stand in another opening than before."""

    item: str
    count: int
    from_: OpeningPlace | None = Field(default=None, alias="from")
    """None: they are new, or were left out."""
    to: OpeningPlace | None = None
    """None: they are gone, or are left out."""


class PartChanged(Model):
    """A part that is cut to another size than before; sizes it did not have are None."""

    part: str
    length_before: Length | None
    length: Length | None
    width_before: Length | None
    width: Length | None


class Measured(Model):
    """A thickness that is another than before."""

    material: str
    before: Length
    after: Length


class ComparedFigures(Model):
    """What is compared in figures."""

    price: Money | None
    sheets: int
    places_parted: int | None
    steps_range: Length | None
    headroom_least: Length | None
    headroom_spread: Length | None
    left_out: int


class Comparison(Model):
    """What has changed since the plan before."""

    job_hash: str
    """Of the plan before."""
    option: str
    """Name of its option that was started from."""
    marks: tuple[MarkMoved, ...]
    marks_kept: int
    things: tuple[ThingsMoved, ...]
    things_kept: int
    parts: tuple[PartChanged, ...] = ()
    measured: tuple[Measured, ...] = ()
    before: ComparedFigures
    after: ComparedFigures


class Collision(Model):
    """A held decision that cannot be kept, what it collides with, and what works instead."""

    hold: str
    """The decision in words."""
    collides: tuple[str, ...]
    """What it collides with, in words: without any one of these it could be held."""
    least: bool
    """Whether that is proven of each of them."""
    below: Length | None = None
    """Nearest mark below that works; None where there is none, or for things."""
    above: Length | None = None
    """Nearest mark above that works."""
    openings: tuple[OpeningPlace, ...] = ()
    """For things: the openings that work."""
    proven: bool
    """Whether nothing nearer works, on the marking step."""
    text: str
