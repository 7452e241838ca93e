"""Rules on the load of a shelf: no more stands on it than its limit, and both are shown as they
are.

The limit is that of the job, else of the standard. What a shelf bears before it sags too far is
held in `sag`.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from solver.checking.findings import Code, Finding, finding
from solver.checking.views import OpeningView, same
from solver.job.defaults import SHELF_LOAD_MOST_POUNDS, SHELF_LOAD_POUNDS_PER_SQUARE_FOOT
from solver.units import GRAMS_PER_POUND, TICKS_PER_INCH, Grams, format_mass

SQUARE_FOOT = (12 * TICKS_PER_INCH) ** 2
"""Square ticks in a square foot."""


def load(view: OpeningView) -> Iterator[Finding]:
    """No shelf carries more than its limit."""
    has, limit = sum(t.mass for t in view.opening.items), standard_limit(view)
    if has > limit:
        unit = view.unit
        yield finding(
            Code.ITEMS_LOAD,
            view.where,
            "load",
            f"at most {format_mass(limit, unit)} ({limit} g)",
            f"{format_mass(has, unit)} ({has} g)",
        )


def standard_limit(view: OpeningView) -> Grams:
    """Limit of the job, else that of the standard: 40 lb/ft2, 200 lb at most [g]."""
    if view.job.look.shelf_load is not None:
        return view.job.look.shelf_load
    inside = view.bay.bay.inside
    pounds = SHELF_LOAD_POUNDS_PER_SQUARE_FOOT * Fraction(inside.width * inside.depth, SQUARE_FOOT)
    return int(min(pounds, Fraction(SHELF_LOAD_MOST_POUNDS)) * GRAMS_PER_POUND)


def load_shown(view: OpeningView) -> Iterator[Finding]:
    """The load shown is that of the things standing there."""
    has = sum(thing.mass for thing in view.opening.items)
    yield from same(Code.ITEMS_LOAD_SHOWN, view.where, "load [g]", has, view.opening.load)


def load_limit(view: OpeningView) -> Iterator[Finding]:
    """The load limit shown is that of the job, or of the standard."""
    yield from same(
        Code.ITEMS_LOAD_LIMIT,
        view.where,
        "load limit [g]",
        standard_limit(view),
        view.opening.load_limit,
    )
