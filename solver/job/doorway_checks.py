"""Measurements of a doorway that cannot be: each is refused with both numbers and what would do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import isqrt

from solver.units import TICKS_PER_INCH, Ticks, format_length

NARROWEST, WIDEST = 8 * TICKS_PER_INCH, 20 * 12 * TICKS_PER_INCH
"""No opening for a case is narrower or wider: 8 in and 20 ft. Common practice, no source; it
only tells inches from millimetres."""
LOWEST, HIGHEST = 10 * TICKS_PER_INCH, 16 * 12 * TICKS_PER_INCH
JAMB_MOST = 36 * TICKS_PER_INCH
STOP_MOST, LEAF_MOST, FLOOR_MOST = (inch * TICKS_PER_INCH for inch in (2, 12, 12))
"""No stop stands farther from the jamb, no hinge leaf is higher and no floor or pile in the swing
stands higher than this: common practice, no source; it only tells slips [tick]."""
LEAF_LEAST = TICKS_PER_INCH
PIN_MOST = 12 * TICKS_PER_INCH
"""No hinge carries its pin farther from the case than this: common practice, no source (wide-throw
hinges reach 4 in); it only tells slips [tick]."""
APART = 8
"""Widths, or heights, that differ by more than an eighth are no one opening: a published extreme
is a ceiling 2-3/4 in out of level (woodweb.com Out of Whack Room) [-]."""
LEAN_MOST = 12
"""A jamb that leans by more than a twelfth of the length is no jamb [-]."""
INCH_STEP = TICKS_PER_INCH // 64
MM_PER_INCH = 25.4


def both_units(length: Ticks) -> str:
    """Write a length [tick] in inches and millimetres: a slip of unit shows at once."""
    return f"{format_length(length, 'in')} in ({format_length(length, 'mm')} mm)"


def impossible(
    widths: Sequence[Ticks],
    heights: Sequence[Ticks],
    diagonals: Sequence[Ticks] | None,
    jamb_depth: Ticks | None,
) -> str | None:
    """Say what cannot be among the measurements of an opening [tick]; None where all can."""
    faults = [
        *(size_wrong("width", one, NARROWEST, WIDEST) for one in widths),
        *(size_wrong("height", one, LOWEST, HIGHEST) for one in heights),
        *(_diagonal(one, widths, heights) for one in diagonals or ()),
        size_wrong("jamb depth", jamb_depth, 0, JAMB_MOST) if jamb_depth else None,
    ]
    return next((one for one in faults if one), None)


def size_wrong(what: str, given: Ticks, least: Ticks, most: Ticks) -> str | None:
    """Say what is wrong with a size read in the wrong unit, or that no opening has."""
    if least <= given <= most:
        return None
    in_inches = given % INCH_STEP == 0  # the number was written in inches, else in millimetres
    for unit, other, fits in (
        ("mm", given / MM_PER_INCH, in_inches),
        ("in", given * MM_PER_INCH, not in_inches),
    ):
        if fits and least <= other <= most:
            number = _number(given, unit)
            return (
                f"{what} {both_units(given)} cannot be (from {both_units(least)} to "
                f'{both_units(most)}); is it "{number} {unit}", which is '
                f"{both_units(round(other))}? write the unit with it"
            )
    return (
        f"{what} {both_units(given)} cannot be; from {both_units(least)} to {both_units(most)} "
        f"would make sense; measure again"
    )


def _number(given: Ticks, unit: str) -> str:
    """The number as it was given, for the unit that was meant."""
    return format_length(given, "in" if unit == "mm" else "mm")


def _diagonal(diagonal: Ticks, widths: Sequence[Ticks], heights: Sequence[Ticks]) -> str | None:
    """A diagonal is longer than either side, and shorter than both together."""
    wide, high = min(widths), min(heights)
    square = isqrt(wide * wide + high * high)
    name, side = ("height", high) if high >= wide else ("width", wide)
    if diagonal <= side:
        return (
            f"diagonal {both_units(diagonal)} is not longer than the {name}, {both_units(side)}; "
            f"about {both_units(square)} would make sense; measure both again"
        )
    if diagonal >= max(widths) + max(heights):
        return (
            f"diagonal {both_units(diagonal)} is longer than width and height together, "
            f"{both_units(max(widths) + max(heights))}; about {both_units(square)} would make "
            f"sense; measure again"
        )
    return None


def apart_wrong(what: str, given: Sequence[Ticks]) -> str | None:
    """Say that measurements are too far apart to be of one opening; None where they can be."""
    low, high = min(given), max(given)
    if high - low <= low // APART:
        return None
    return (
        f"{what} {both_units(low)} and {both_units(high)} are not of one opening; up to "
        f"{both_units(low // APART)} between them would make sense; measure both again"
    )


def lean_wrong(name: str, off: Ticks, over: Ticks) -> str | None:
    """Say how far a jamb cannot lean; None where it can."""
    most = over // LEAN_MOST
    if off <= most:
        return None
    return (
        f"{name} {both_units(off)} over {both_units(over)} cannot be; up to "
        f"{both_units(most)} would make sense: it is how far the top leans, not a height"
    )


def mortises_wrong(marks: Sequence[Ticks], height: Ticks, leaf: Ticks) -> Iterator[str]:
    """Below the floor, or nearer to each other than a leaf is high."""
    for above, below in pairwise(marks):
        if below - above < leaf:
            yield (
                f"old mortises {both_units(above)} and {both_units(below)} down are nearer to each "
                f"other than a leaf is high, {both_units(leaf)}; measure both again, each from the "
                "head down to its top"
            )
    if marks and marks[-1] >= height:
        yield (
            f"old mortise {both_units(marks[-1])} down lies below the floor, {both_units(height)} "
            "down; marks are taken from the head jamb; measure again"
        )
