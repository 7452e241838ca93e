"""Measurements that cannot be: each told with both numbers and what would make sense."""

from __future__ import annotations

from collections.abc import Sequence
from math import isqrt

from solver.units import TICKS_PER_INCH, Ticks, format_length

NARROWEST, WIDEST = 8 * TICKS_PER_INCH, 20 * 12 * TICKS_PER_INCH
"""No opening for a case is narrower or wider: 8 in and 20 ft. Common practice, no source; it
only tells inches from millimetres."""
LOWEST, HIGHEST = 10 * TICKS_PER_INCH, 16 * 12 * TICKS_PER_INCH
JAMB_MOST = 36 * TICKS_PER_INCH
INCH_STEP = TICKS_PER_INCH // 64
STEP = 25.4


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
    found = [
        *(_size("width", one, NARROWEST, WIDEST) for one in widths),
        *(_size("height", one, LOWEST, HIGHEST) for one in heights),
        *(_diagonal(one, widths, heights) for one in diagonals or ()),
        _size("jamb depth", jamb_depth, 0, JAMB_MOST) if jamb_depth else None,
    ]
    return next((one for one in found if one), None)


def _size(what: str, given: Ticks, least: Ticks, most: Ticks) -> str | None:
    """Tell a size that was read in the wrong unit, or that no opening has."""
    if least <= given <= most:
        return None
    in_inches = given % INCH_STEP == 0  # the number was written in inches, else in millimetres
    for unit, other, fits in (("mm", given / STEP, in_inches), ("in", given * STEP, not in_inches)):
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
