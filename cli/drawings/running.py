"""Running dimensions with their lettering moved apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from cli.drawings.fonts import text_width
from cli.drawings.scene import SMALL, Axis, Point, Running, RunningMark
from cli.drawings.spread import spread
from solver.units import Ticks, Unit, format_length

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
    way: Literal[1, -1] = 1,
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
    way
        Whether values grow with the axis, or against it.
    """
    each = sorted(set(values))
    texts = [format_length(value, unit) for value in each]
    start = origin[1] if axis == "x" else origin[0]
    apart = PITCH
    if axis == "x":
        apart = 1.5 + max(text_width(text, SMALL) for text in texts)
    empty = Running(origin, axis, across, (), heading, way)
    wished = [way * empty.along(value) for value in each]
    places = [way * place for place in spread(wished, apart * scale)]
    marks = tuple(
        RunningMark(value, text, place, start)
        for value, text, place in zip(each, texts, places, strict=True)
    )
    return replace(empty, marks=marks)
