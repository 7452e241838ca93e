"""A drawing as a list of shapes at one scale, and how large it is on paper.

A scene is made for one scale, since the distances of dimension lines and lettering from the thing
are those of the paper.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil, cos, radians, sin

from cli.drawings.dimensioned import dimension_shapes
from cli.drawings.fonts import text_width
from cli.drawings.shapes import (
    Arc,
    Dimension,
    Path,
    Picture,
    Point,
    Running,
    Shape,
    Strokes,
    Text,
    moved,
)

EDGE = 1.0
"""Room kept round a drawing [mm] on paper."""
STEP = 0.1
"""Sizes of drawings are whole steps [mm] on paper: one dot at 254 dots to the inch, so that a
picture of the page need not shift the drawing by parts of a dot."""


@dataclass(frozen=True)
class Scene:
    """One drawing."""

    name: str
    """For files: letters, digits and hyphens."""
    title: str
    scale: int
    """Millimetres of the thing to one on paper [-]."""
    shapes: tuple[Shape, ...]
    note: str = ""
    """One line below the drawing."""
    to_scale: bool = True
    """Whether it shows a thing; a list does not."""

    def moved(self, x: float, y: float) -> Scene:
        """Return the same scene, moved by `x` and `y` [mm]."""
        return replace(self, shapes=tuple(moved(shape, x, y) for shape in self.shapes))

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top of all there is to see [mm]."""
        points = [point for shape in self.shapes for point in _extent(shape, self.scale)]
        if not points:
            return 0.0, 0.0, 0.0, 0.0
        xs, ys = zip(*points, strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def paper_size(self) -> Point:
        """Width and height on paper [mm], at least `EDGE` kept free all round; whole steps."""
        left, bottom, right, top = self.bounds
        wide, high = (right - left) / self.scale, (top - bottom) / self.scale
        return _whole(wide + 2 * EDGE), _whole(high + 2 * EDGE)


def _whole(length: float) -> float:
    return round(ceil(length / STEP - 1e-6) * STEP, 1)


def _extent(shape: Shape, scale: int) -> Iterator[Point]:
    """Points between which a shape lies [mm]."""
    match shape:
        case Path():
            yield from shape.points
        case Arc():
            (x, y), r = shape.centre, shape.radius
            quarters = [a for a in range(-720, 1081, 90) if shape.start < a < shape.end]
            for angle in (shape.start, *quarters, shape.end):
                yield x + r * cos(radians(angle)), y + r * sin(radians(angle))
        case Strokes() if shape.layer != "hatch":  # a hatch lies in an outline
            yield from (point for stroke in shape.strokes for point in stroke)
        case Text():
            wide = text_width(shape.text, shape.height, bold=shape.bold) * scale
            left = shape.at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[shape.align]
            high = shape.height * scale
            yield from ((left, shape.at[1] - high * 0.3), (left + wide, shape.at[1] + high))
        case Picture():
            yield shape.at
            yield shape.at[0] + shape.width, shape.at[1] + shape.height
        case Dimension() | Running():
            for part in dimension_shapes(shape, scale):
                yield from _extent(part, scale)
