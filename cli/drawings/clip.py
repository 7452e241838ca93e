"""What of a convex outline lies in a window (Sutherland and Hodgman 1974)."""

from __future__ import annotations

from collections.abc import Sequence

from cli.drawings.primitives import Point

Area = tuple[float, float, float, float]
"""Left, bottom, right, top."""


def clipped(points: Sequence[Point], window: Area) -> list[Point]:
    """Return the corners of the part of an outline in a window; none where nothing is."""
    found = list(points)
    for axis, limit, keeps_less in (
        (0, window[0], False),
        (1, window[1], False),
        (0, window[2], True),
        (1, window[3], True),
    ):
        found = _half(found, axis, limit, keeps_less)
    return found


def _half(points: list[Point], axis: int, limit: float, keeps_less: bool) -> list[Point]:
    """Keep what lies on one side of a line across an axis."""

    def inside(point: Point) -> bool:
        return point[axis] <= limit if keeps_less else point[axis] >= limit

    kept: list[Point] = []
    for before, point in zip(points[-1:] + points[:-1], points, strict=True):
        if inside(before) != inside(point):
            share = (limit - before[axis]) / (point[axis] - before[axis])
            kept.append(
                (
                    before[0] + (point[0] - before[0]) * share,
                    before[1] + (point[1] - before[1]) * share,
                )
            )
        if inside(point):
            kept.append(point)
    return kept
