"""Running dimensions, their lettering moved apart; and the first free place for other lettering."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from cli.drawings.fonts import text_width
from cli.drawings.scene import Scene
from cli.drawings.shapes import FIGURES, SMALL, Axis, Dimension, Point, Running, RunningMark
from solver.units import Ticks, Unit, format_length

Area = tuple[float, float, float, float]
"""Left, bottom, right, top."""


@dataclass
class OccupiedAreas:
    """The areas that are taken already."""

    areas: list[Area] = field(default_factory=list)

    def is_free(self, area: Area) -> bool:
        """Whether nothing taken overlaps an area; touching is no overlap."""
        left, bottom, right, top = area
        return not any(
            left < other[2] and other[0] < right and bottom < other[3] and other[1] < top
            for other in self.areas
        )

    def take(self, area: Area) -> None:
        """Take an area."""
        self.areas.append(area)

    def best(self, places: Iterable[Point], half: Point) -> Point:
        """Take the first free place for something `half` wide and high each way from there.

        Where none is free the first place is taken all the same.
        """
        first: Point | None = None
        for x, y in places:
            first = first or (x, y)
            area = (x - half[0], y - half[1], x + half[0], y + half[1])
            if self.is_free(area):
                self.take(area)
                return x, y
        if first is None:
            msg = "there is no place to try"
            raise ValueError(msg)
        self.take((first[0] - half[0], first[1] - half[1], first[0] + half[0], first[1] + half[1]))
        return first


def spread(wished: Sequence[float], apart: float) -> list[float]:
    """Return places at least `apart` from one another, as near to the wished as can be.

    Parameters
    ----------
    wished
        Places in ascending order [mm].
    apart
        Least distance of two neighbours [mm].

    Returns
    -------
    list of float
        Places in the same order: of all such, those with the least sum of squares of how far
        they are moved (neighbours that must touch are pooled and take their common mean) [mm].
    """
    pools: list[tuple[float, int]] = []  # sum of what is wished of its first place, how many
    for at, place in enumerate(wished):
        total, count = place - at * apart, 1
        while pools and pools[-1][0] / pools[-1][1] > total / count:
            before, number = pools.pop()
            total, count = total + before, count + number
        pools.append((total, count))
    firsts = [total / count for total, count in pools for _ in range(count)]
    return [first + at * apart for at, first in enumerate(firsts)]


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
