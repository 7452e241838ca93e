"""Hatching: kinds of things are told apart by eight of them, cut off at their rectangle.

Everything is black or grey, and nothing is told by colour alone.
"""

from __future__ import annotations

from math import ceil, floor

from cli.drawings.shapes import Point, Strokes

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
