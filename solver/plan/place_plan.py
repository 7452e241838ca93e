"""What a place leaves for a case, with each deduction."""

from __future__ import annotations

from solver.quantities import Length, Model


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
