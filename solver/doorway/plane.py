"""Shapes in plan, and turning them about the pin.

The pin is the origin. `x` runs along the wall from the hinge side to the latch side, `y` out of
the wall to the side that the case swings to. Opening turns the case from x towards y. Corners
are whole ticks at rest; turned, they are floats, and whoever uses them rounds to the safe side.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, sin

from solver.units import Ticks

Corner = tuple[Ticks, Ticks]
Point = tuple[float, float]


@dataclass(frozen=True)
class Shape:
    """A convex outline.

    Attributes
    ----------
    name
        What it is, for people.
    corners
        In order round it, either way; relative to the pin at rest [tick].
    """

    name: str
    corners: tuple[Corner, ...]

    @property
    def edges(self) -> Iterator[tuple[Corner, Corner]]:
        """Its edges, each from corner to corner [tick]."""
        return zip(self.corners, (*self.corners[1:], self.corners[0]), strict=True)


def rectangle(name: str, x: tuple[Ticks, Ticks], y: tuple[Ticks, Ticks]) -> Shape:
    """Return the rectangle between two x and two y [tick]."""
    return Shape(name, ((x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1])))


def turned(point: Point, angle: float) -> Point:
    """Return the point [tick] after the case has opened by `angle` [rad]."""
    c, s = cos(angle), sin(angle)
    return point[0] * c - point[1] * s, point[0] * s + point[1] * c


def overlap(one: list[Point], other: list[Point]) -> float:
    """How deep two convex outlines stand in each other, 0 or less where they do not [tick]."""
    return min(_shared(one, other), _shared(other, one))


def _shared(one: list[Point], other: list[Point]) -> float:
    """Least overlap along the normals of the edges of `one` [tick]."""
    least = float("inf")
    for (ax, ay), (bx, by) in zip(one, one[1:] + one[:1], strict=True):
        nx, ny = ay - by, bx - ax
        length = (nx * nx + ny * ny) ** 0.5
        if length == 0:
            continue
        mine = [(x * nx + y * ny) / length for x, y in one]
        others = [(x * nx + y * ny) / length for x, y in other]
        least = min(least, min(max(mine), max(others)) - max(min(mine), min(others)))
    return least
