"""From sizes that will do towards those wished for, as far as they will do."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from solver.planning.axes import Point, moved

PARTS = 64
"""Steps between the sizes there are and the wished ones, all moved at once [-]."""


def towards(start: Point, wish: Point, good: Callable[[Point], bool]) -> Point:
    """Return sizes nearer to the wish that are good: all sizes moved at once, then each.

    `start` is good. Sizes that depend on each other, such as the depths of a pair that share a
    sheet, so give way alike. By halving: no size on its own can be moved further where what is
    good stays so on the way back, else it is any point that is good.
    """
    point = _furthest([_between(start, wish, part) for part in range(PARTS + 1)], good)
    for axis in sorted(range(len(point)), key=lambda n: (-abs(wish[n] - point[n]), n)):
        step = 1 if wish[axis] >= point[axis] else -1
        steps = [moved(point, axis, at) for at in range(point[axis], wish[axis] + step, step)]
        point = _furthest(steps, good)
    return point


def _between(start: Point, end: Point, part: int) -> Point:
    return tuple(a + (b - a) * part // PARTS for a, b in zip(start, end, strict=True))


def _furthest(points: Sequence[Point], good: Callable[[Point], bool]) -> Point:
    """Return the last of the points that is good, by halving; the first one is."""
    least, most = 0, len(points)
    while most - least > 1:
        middle = (least + most) // 2
        if good(points[middle]):
            least = middle
        else:
            most = middle
    return points[least]
