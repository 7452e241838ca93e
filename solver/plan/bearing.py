"""What a plan says about strength: the sag of each shelf, and what would mend it.

Sags are rounded up and what is allowed is rounded down.
"""

from __future__ import annotations

from typing import Literal

from solver.quantities import Length, Mass, Model

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
