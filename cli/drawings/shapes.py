"""The shapes that drawings are made of, whatever they are written as.

Coordinates are millimetres of the thing itself, `x` to the right and `y` up, `float`s that are
the nearest to whole ticks. Lettering and line widths are millimetres on paper.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from solver.units import Ticks, to_mm

Point = tuple[float, float]


Axis = Literal["x", "y"]


Align = Literal["start", "middle", "end"]


Layer = Literal[
    "outline", "board", "thin", "hidden", "centre", "item", "hatch", "dimension", "text",
    "part", "cut", "offcut", "trim", "fixing", "swing", "place", "mark",
]  # fmt: skip
"""Kinds of line. outline: visible edges of the case; board: cut through in a section; part, cut,
offcut: on a sheet; place: what the case is fitted to; mark: lines to be marked out."""


SMALL, MIDDLE, LARGE = 2.5, 3.5, 5.0
"""Heights of capitals [mm] on paper, of the row of ISO 3098-1."""


FIGURES = MIDDLE
"""Height of the figures of dimensions [mm] on paper: they are read at the saw, at arm's length."""


@dataclass(frozen=True)
class Path:
    """A line of straight pieces, or the outline of an area."""

    points: tuple[Point, ...]
    layer: Layer
    closed: bool = False
    filled: bool = False
    """Whether what lies behind it is hidden."""


@dataclass(frozen=True)
class Arc:
    """An arc, counter-clockwise from `start` to `end` [degrees]; from 0 to 360 a circle."""

    centre: Point
    radius: float
    layer: Layer
    start: float = 0.0
    end: float = 360.0
    filled: bool = False


@dataclass(frozen=True)
class Strokes:
    """Many separate straight strokes, such as hatching."""

    strokes: tuple[tuple[Point, Point], ...]
    layer: Layer = "hatch"


@dataclass(frozen=True)
class Text:
    """One line of lettering; `at` lies on its baseline."""

    at: Point
    text: str
    layer: Layer = "text"
    height: float = SMALL
    """Of a capital [mm] on paper."""
    align: Align = "start"
    bold: bool = False
    halo: bool = False
    """Whether lines under it are kept off."""


@dataclass(frozen=True)
class Dimension:
    """The distance of two points along an axis, on a dimension line at `across`."""

    start: Point
    end: Point
    axis: Axis
    across: float
    """Of an x dimension the y of its line, of a y dimension the x."""
    value: Ticks
    text: str
    """As printed: rounded, with + or − where the true value is a little more or less."""
    text_at: float | None = None
    """Along the axis, where the lettering goes; None: in the middle."""
    height: float = FIGURES
    """Of the figures [mm] on paper."""


@dataclass(frozen=True)
class RunningMark:
    """One mark of a running dimension."""

    value: Ticks
    text: str
    text_at: float
    """Along the axis, where the middle of the lettering goes."""
    start: float
    """Across the axis, where its extension line starts."""


@dataclass(frozen=True)
class Running:
    """Dimensions from one origin along an axis, on one line (ISO 129-1, running dimensioning)."""

    origin: Point
    """On the thing, where the values are 0."""
    axis: Axis
    across: float
    """Where the dimension line is."""
    marks: tuple[RunningMark, ...]
    """In order."""
    heading: str = ""
    way: Literal[1, -1] = 1
    """Whether values grow with the axis, or against it."""
    height: float = FIGURES
    """Of the figures [mm] on paper."""

    def along(self, value: Ticks) -> float:
        """Return where a value [tick] is along the axis [mm]."""
        zero = self.origin[0] if self.axis == "x" else self.origin[1]
        return zero + self.way * to_mm(value)


@dataclass(frozen=True)
class Picture:
    """A picture, its lower left corner at `at`."""

    at: Point
    width: float
    height: float
    data: bytes
    kind: Literal["png", "jpeg"]
    says: str
    """What it shows, for people who do not see it."""


Shape = Path | Arc | Strokes | Text | Dimension | Running | Picture


def rectangle(
    x: tuple[float, float], y: tuple[float, float], layer: Layer, *, filled: bool = False
) -> Path:
    """Return the outline of a rectangle from `x` to `x` and `y` to `y` [mm]."""
    corners = (x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1])
    return Path(corners, layer, closed=True, filled=filled)


def line(start: Point, end: Point, layer: Layer) -> Path:
    """Return a straight line."""
    return Path((start, end), layer)


def moved(shape: Shape, x: float, y: float) -> Shape:
    """Return a shape moved by `x` and `y` [mm]."""

    def at(point: Point) -> Point:
        return point[0] + x, point[1] + y

    match shape:
        case Path():
            return replace(shape, points=tuple(at(point) for point in shape.points))
        case Arc():
            return replace(shape, centre=at(shape.centre))
        case Strokes():
            return replace(shape, strokes=tuple((at(a), at(b)) for a, b in shape.strokes))
        case Text() | Picture():
            return replace(shape, at=at(shape.at))
        case Dimension():
            along, across = (x, y) if shape.axis == "x" else (y, x)
            return replace(
                shape,
                start=at(shape.start),
                end=at(shape.end),
                across=shape.across + across,
                text_at=None if shape.text_at is None else shape.text_at + along,
            )
        case Running():
            along, across = (x, y) if shape.axis == "x" else (y, x)
            marks = tuple(
                replace(mark, text_at=mark.text_at + along, start=mark.start + across)
                for mark in shape.marks
            )
            return replace(
                shape, origin=at(shape.origin), across=shape.across + across, marks=marks
            )
