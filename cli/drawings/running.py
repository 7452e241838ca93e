"""Running dimensions with their lettering moved apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from cli.drawings.fonts import text_width
from cli.drawings.label_placement import spread
from cli.drawings.scene import Scene
from cli.drawings.shapes import FIGURES, SMALL, Axis, Dimension, Point, Running, RunningMark
from solver.units import Ticks, Unit, format_length

PITCH = 1.5
"""Least distance of two lines of lettering over their height [-]."""


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
    start = origin[1] if axis == "x" else origin[0]
    marks = tuple(
        RunningMark(value, format_length(value, unit), 0.0, start) for value in sorted(set(values))
    )
    return spread_out(Running(origin, axis, across, marks, heading, way), scale, FIGURES)


def spread_out(shape: Running, scale: int, height: float) -> Running:
    """Return it with figures of a `height` [mm] on paper, moved apart as far as these ask for."""
    apart = PITCH * height
    if shape.axis == "x":
        apart = 1.5 + max(text_width(mark.text, height) for mark in shape.marks)
    wished = [shape.way * shape.along(mark.value) for mark in shape.marks]
    places = [shape.way * place for place in spread(wished, apart * scale)]
    marks = (replace(mark, text_at=place) for mark, place in zip(shape.marks, places, strict=True))
    return replace(shape, marks=tuple(marks), height=height)


def small_figures(scene: Scene) -> Scene:
    """Return the scene with its dimensions in small figures."""
    shapes = (
        spread_out(shape, scene.scale, SMALL)
        if isinstance(shape, Running)
        else replace(shape, height=SMALL)
        if isinstance(shape, Dimension)
        else shape
        for shape in scene.shapes
    )
    return replace(scene, shapes=tuple(shapes))
