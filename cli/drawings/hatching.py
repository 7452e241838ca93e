"""Line styles and hatching, in one place for every format.

Lines are 0.5 mm wide and 0.25 mm narrow, the ratio 2 to 1 of ISO 128-2; hatching is narrower still,
so that it stays behind. Kinds of things are told apart by eight hatchings, cut off at their
rectangle: everything is black or grey, and nothing is told by colour alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from cli.drawings.shapes import Layer, Point, Strokes

PATTERNS = 8
"""How many ways there are: none, rising, falling, level, upright, and three of them crossed."""
PITCH = 2.0
"""Between two lines of a hatch [mm] on paper."""
CUT_PITCH = 1.2
"""The same for what is cut through [mm] on paper."""

Stroke = tuple[Point, Point]

DIRECTIONS: tuple[tuple[Point, ...], ...] = (
    (),
    ((1, 1),),
    ((1, -1),),
    ((1, 0),),
    ((0, 1),),
    ((1, 1), (1, -1)),
    ((1, 0), (0, 1)),
    ((1, 0), (1, 1)),
)
"""Of each pattern, the ways in which its lines run, y up."""


def hatched(
    x: tuple[float, float],
    y: tuple[float, float],
    pattern: int,
    scale: int,
    pitch: float = PITCH,
) -> Strokes | None:
    """Return pattern `pattern` [-] in a rectangle [mm]; None where it has no lines there.

    `pitch` is between two lines [mm] on paper.
    """
    strokes = [
        stroke
        for direction in DIRECTIONS[pattern % PATTERNS]
        for stroke in _lines(x, y, direction, pitch * scale)
    ]
    return Strokes(tuple(strokes)) if strokes else None


def _lines(
    x: tuple[float, float], y: tuple[float, float], way: Point, pitch: float
) -> list[Stroke]:
    """Lines of one direction across a rectangle, counted from its lower left corner."""
    across = (-way[1], way[0])  # the normal; a line has all points with one product with it
    length = (across[0] ** 2 + across[1] ** 2) ** 0.5
    corners = [(cx, cy) for cx in x for cy in y]
    reach = [((cx - x[0]) * across[0] + (cy - y[0]) * across[1]) / length for cx, cy in corners]
    first, last = ceil(min(reach) / pitch), floor(max(reach) / pitch)
    strokes = []
    for number in range(first, last + 1):
        off = number * pitch / length
        start = (x[0] + across[0] * off, y[0] + across[1] * off)
        stroke = _clipped(start, way, x, y)
        if stroke is not None:
            strokes.append(stroke)
    return strokes


def _clipped(
    start: Point, way: Point, x: tuple[float, float], y: tuple[float, float]
) -> Stroke | None:
    """The part of a line in a rectangle, edges excluded (Liang and Barsky 1984)."""
    low, high = float("-inf"), float("inf")
    for at, step, (least, most) in ((start[0], way[0], x), (start[1], way[1], y)):
        if step == 0:
            if not least < at < most:
                return None
            continue
        one, other = (least - at) / step, (most - at) / step
        low, high = max(low, min(one, other)), min(high, max(one, other))
    if high - low <= 1e-9:
        return None
    return (
        (start[0] + way[0] * low, start[1] + way[1] * low),
        (start[0] + way[0] * high, start[1] + way[1] * high),
    )


WIDE, NARROW, FINE = 0.5, 0.25, 0.13
"""Line widths of ISO 128-2 [mm]."""

DASHED = (12 * NARROW, 3 * NARROW)
CHAIN = (24 * NARROW, 3 * NARROW, 0.5 * NARROW, 3 * NARROW)
CUT_CHAIN = (12 * NARROW, 3 * NARROW, 0.5 * NARROW, 3 * NARROW)
DOUBLE = (24 * NARROW, 3 * NARROW, 0.5 * NARROW, 3 * NARROW, 0.5 * NARROW, 3 * NARROW)
"""Dashes and gaps [mm]: lines 02, 04 and 05 of ISO 128-2, for a width of 0.25 mm."""


@dataclass(frozen=True)
class LineStyle:
    """Look of one kind of line.

    Attributes
    ----------
    width
        [mm] on paper.
    dashes
        Lengths of dashes and gaps [mm]; empty: continuous.
    colour
        As SVG has it.
    dxf_colour
        Number of a colour in a DXF document, 7 being black or white.
    """

    width: float
    dashes: tuple[float, ...] = ()
    colour: str = "black"
    dxf_colour: int = 7


STYLES: dict[Layer, LineStyle] = {
    "outline": LineStyle(WIDE),
    "board": LineStyle(WIDE),
    "thin": LineStyle(NARROW),
    "hidden": LineStyle(NARROW, DASHED),
    "centre": LineStyle(NARROW, CHAIN),
    "item": LineStyle(NARROW, dxf_colour=5),
    "hatch": LineStyle(FINE, colour="#555", dxf_colour=8),
    "dimension": LineStyle(NARROW, dxf_colour=3),
    "text": LineStyle(NARROW),
    "part": LineStyle(WIDE),
    "cut": LineStyle(NARROW, CUT_CHAIN, dxf_colour=1),
    "offcut": LineStyle(NARROW, DASHED, dxf_colour=8),
    "trim": LineStyle(WIDE, dxf_colour=6),
    "fixing": LineStyle(NARROW, CHAIN, dxf_colour=1),
    "swing": LineStyle(NARROW, DOUBLE, dxf_colour=4),
    "place": LineStyle(NARROW, dxf_colour=8),
    "mark": LineStyle(WIDE),
}
