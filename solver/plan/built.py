"""Cases as planned: sizes, bays, shelves, openings, every thing where it stands, sag of shelves.

Sags are rounded up and what is allowed is rounded down.
"""

from __future__ import annotations

from typing import Literal, TypeAlias

from pydantic import Field

from solver.plan.swinging import Swinging
from solver.quantities import Length, Mass, Model


class Size(Model):
    """Width, height and depth."""

    width: Length
    height: Length
    depth: Length


class Placement(Model):
    """One physical thing where it stands."""

    item: str
    """Name of the kind."""
    number: int
    """Which of the kind, from 1, over the whole option."""
    x: Length
    """From the inside face of the bay's left side."""
    y: Length
    """Up from the opening's floor: a riser, or the things below in a stack."""
    z: Length
    """From the front of the shelf back."""
    row: int
    """1 is the front row."""
    on: int | None
    """Number of the thing of the same kind that it stands on."""
    lying: bool
    width: Length
    """As it stands, allowance for a guessed size included."""
    height: Length
    depth: Length
    headroom: Length
    """Opening's clear height less y and height."""
    mass: Mass
    """[g]"""
    mass_assumed: bool = False
    """True where no weight was given and the standard shelf load on its footprint counts."""


class Opening(Model):
    """The clear space on shelf `index`; 0 is on the lowest board."""

    index: int
    floor: Length
    height: Length
    """Clear height."""
    lip_above_floor: Length
    """How far the lip of its own shelf stands up into it."""
    lip_below_ceiling: Length
    """How far the lip of the shelf above hangs down into it."""
    items: tuple[Placement, ...]
    fill: float
    """Share of the clear width taken by things, front row [-]."""
    load: Mass
    """[g]"""
    load_limit: Mass
    """[g]"""


class Shelf(Model):
    """A board between the lowest board and the top."""

    index: int
    underside: Length
    """The mark, from the bottom end of the side."""
    top: Length
    thickness: Length
    depth: Length
    part: str
    """Id of its part."""


class Bay(Model):
    """The space between two uprights."""

    number: int
    x: Length
    """Its left inside face from the case's left outside face."""
    inside: Size
    openings: tuple[Opening, ...]
    shelves: tuple[Shelf, ...]


class CasePlan(Model):
    """A case as planned."""

    name: str
    kind: str
    above_floor: Length
    outside: Size
    bays: tuple[Bay, ...]
    swing: Swinging | None = Field(default=None, exclude_if=lambda swing: swing is None)
    """How it swings, where it hangs in a doorway; left off for any other case."""


BayName: TypeAlias = tuple[str, int]
"""A bay by the name of its case and its number, from 1 at the left."""


class SharedLines(Model):
    """Bays whose shelves lie on common lines; a bay with fewer shelves uses some of them."""

    bays: tuple[BayName, ...]
    heights: tuple[Length, ...]
    """Upper faces of the shelves above the room's floor, from the lowest up."""


class LinesApart(Model):
    """Bays that the job asks to share shelf lines, and that cannot."""

    bays: tuple[BayName, ...]
    because: Literal["marks", "fit"]
    """"marks": the marks of these bays never meet those of the bays beside them.
    "fit": no common lines of these bays let everything fit."""


Limit = Literal["display-first", "display-long", "industry"]


class Mend(Model):
    """One change by which a shelf would keep the display limits, everything else as it is."""

    what: Literal["lip", "thickness", "upright", "less load"]
    text: str
    length: Length | None = None
    """Least height of the lip, or least thickness of the board."""
    mass: Mass | None = None
    """Most load, spread evenly [g]."""


class ShelfStrength(Model):
    """One board that spans, and how far it sags."""

    case: str
    bay: int
    """From 1."""
    index: int
    """0 is the bottom board, where nothing supports it between the sides."""
    span: Length
    """Clear span."""
    load: Mass
    """What stands on it [g]."""
    sag_first: Length
    """First day, under what stands on it where it stands, and its own weight."""
    sag_long: Length
    """The same after years."""
    sag_standard: Length
    """First day, under the standard load spread evenly, and its own weight."""
    ratio: int
    """N of span / n for `sag_first`, rounded down [-]."""
    allowed_first: Length
    """Display, first day."""
    allowed_long: Length
    """Display, long-term."""
    allowed_industry: Length
    """Industry's maximum, first day."""
    sag_load: Mass | None
    """Most load spread evenly that the limit held in the layout allows [g]; None: none is held."""
    display_load: Mass
    """Most load spread evenly that both display limits allow [g]."""
    longest: Length
    """Longest span at both display limits, with so much on each length as stands there now."""
    over: tuple[Limit, ...] = ()
    """The limits that it is over, as loaded."""
    mends: tuple[Mend, ...] = ()


class Strength(Model):
    """All boards of an option that span, and what their figures rest on."""

    held: Literal["industry", "display", "none"]
    """The limit that the layout is held to."""
    shelves: tuple[ShelfStrength, ...]
    worst: int | None = None
    """Which of `shelves` sags most for its span, from 0."""
    assumed: tuple[str, ...] = ()
