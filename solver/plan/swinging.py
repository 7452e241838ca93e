"""How a hung case swings in its doorway, and the sizes that a place leaves for a case."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from solver.quantities import Length, Model


class TrimChoice(Model):
    """Whether one strip of trim travels with the case or stays on the wall."""

    name: str
    travels: bool
    binds_at: float | None
    """Where even the better of the two binds, how far the case is open then [degrees]."""
    why: str


class WayOut(Model):
    """One way to let a case swing, with its numbers; the others stay as they are."""

    what: Literal[
        "less depth", "narrower", "bevel", "step", "pin", "proud", "other way", "wider opening"
    ]
    swings: bool
    """Whether the case then opens as far as asked, everything else in the swing considered."""
    text: str
    by: Length | None = None
    """How much less, how much off, or how far set in."""
    to: Length | None = None
    """The size that it comes to."""


class PairSwing(Model):
    """Two cases in one doorway, both opened at once."""

    gap: Length
    """Between the two, shut."""
    gap_together: Length
    """The least such gap for opening both at once, running clearance included."""
    opens_together: bool


class Swinging(Model):
    """The swing of one hung case."""

    opens_to: int
    """How far it must open [degrees]."""
    swings: bool
    """Whether it does, with running clearance at the latch."""
    latch_gap: Length
    """Between the case and the latch jamb at rest."""
    latch_gap_needed: Length
    """The least such gap, running clearance included."""
    tightest: Length
    """Least room at the latch jamb on the way; 0 where it binds."""
    tightest_at: float
    """How far it is open then [degrees]."""
    hinge_gap: Length
    hinge_gap_needed: Length
    widest: Length | None
    """The widest case of this depth that the opening lets swing."""
    deepest: Length | None
    """The deepest case of this width."""
    binds_at: float | None
    """How far it is open when it first runs into something [degrees]; None: it does not."""
    binds: str | None
    """What runs into what."""
    opens_fully: float
    """How far it opens at all [degrees]."""
    stopped_by: str | None
    """What stops it then; None at half a turn."""
    passage_90: Length
    """Clear way beside it at 90 degrees, or fully open where that is less."""
    passage_full: Length
    """Clear way beside it, fully open."""
    radius: Length
    """From the pin to the farthest corner."""
    trim: tuple[TrimChoice, ...] = ()
    ways_out: tuple[WayOut, ...] = ()
    """Where it does not swing: what would let it."""
    pair: PairSwing | None = Field(default=None, exclude_if=lambda pair: pair is None)
    """With the other case of the doorway, where there are two."""
    notes: tuple[str, ...] = ()


class Deduction(Model):
    """Something taken off a measured size."""

    what: str
    length: Length
    why: str
    source: str
    """Of the reason and of the usual figure."""


class PlaceSize(Model):
    """One outside size: what was measured, what comes off, what is left."""

    what: str
    """Which measurement counts."""
    measured: Length
    why: str
    """Why that one counts."""
    deductions: tuple[Deduction, ...]
    size: Length
    """Down to the cutting step."""


class PlaceSizes(Model):
    """The outside sizes at most."""

    kind: str
    width: PlaceSize
    height: PlaceSize
    above_floor: Length
    notes: tuple[str, ...] = ()
