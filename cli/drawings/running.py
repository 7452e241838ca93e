"""Running dimensions with their lettering moved apart."""

from __future__ import annotations

from collections.abc import Sequence

from cli.drawings.fonts import text_width
from cli.drawings.scene import SMALL, Axis, Point, Running, RunningMark
from cli.drawings.spread import spread
from solver.units import Ticks, Unit, format_length, to_mm

PITCH = 1.5 * SMALL
"""Least distance of two lines of lettering [mm] on paper."""


def running(
    origin: Point,
    axis: Axis,
    across: float,
    values: Sequence[Ticks],
    unit: Unit,
    scale: int,
    heading: str = "",
) -> Running:
    """Return the running dimensions of `values` [tick], 0 and the last among them.

    Parameters
    ----------
    origin
        Where the values are 0 [mm].
    axis
        Along which they run.
    across
        Where the dimension line is, across the axis [mm].
    values
        Ascending; equal ones are told once [tick].
    unit, scale
        Of the lettering, and of the drawing [-].
    heading
        What stands over it.
    """
    each = sorted(set(values))
    texts = [format_length(value, unit) for value in each]
    zero, start = origin if axis == "x" else (origin[1], origin[0])
    apart = PITCH
    if axis == "x":
        apart = 1.5 + max(text_width(text, SMALL) for text in texts)
    places = spread([zero + to_mm(value) for value in each], apart * scale)
    marks = tuple(
        RunningMark(value, text, place, start)
        for value, text, place in zip(each, texts, places, strict=True)
    )
    return Running(origin, axis, across, marks, heading)
