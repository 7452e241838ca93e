"""Whether pieces that lie on a sheet can be cut free by edge-to-edge cuts.

Rectangles are (x0, y0, x1, y1); axis 0 is x, divided by crosscuts, and axis 1 is y,
divided by rips. Dividing as finely as possible never spoils what follows, since any
part of a pattern that can be cut can itself be cut.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from solver.units import Ticks

Rect: TypeAlias = tuple[Ticks, Ticks, Ticks, Ticks]
X, Y = 0, 1


def divide(rects: Sequence[Rect], axis: int, kerf: Ticks) -> list[list[Rect]]:
    """Divide rectangles along an axis wherever a saw cut of `kerf` [tick] passes between them."""
    ordered = sorted(rects, key=lambda rect: rect[axis])
    groups: list[list[Rect]] = []
    end = 0
    for rect in ordered:
        if groups and rect[axis] - end < kerf:
            groups[-1].append(rect)
            end = max(end, rect[axis + 2])
        else:
            groups.append([rect])
            end = rect[axis + 2]
    return groups


def can_be_cut(rects: Sequence[Rect], kerf: Ticks) -> bool:
    """True where edge-to-edge cuts, in any number of stages, free every rectangle."""
    waiting = [list(rects)]
    while waiting:
        group = waiting.pop()
        if len(group) < 2:
            continue
        parts = divide(group, X, kerf)
        if len(parts) == 1:
            parts = divide(group, Y, kerf)
        if len(parts) == 1:
            return False
        waiting.extend(parts)
    return True


def in_stages(
    rects: Sequence[Rect], kerf: Ticks, panel: Rect, first: int, stages: int, trim: bool
) -> bool:
    """True where so many stages of cuts, the first along axis `first`, free every rectangle.

    With `trim`, one more cut may follow on each piece that lies along an edge of what
    the last stage left.
    """
    groups = [(list(rects), panel)]
    for stage in range(stages):
        axis = (first + stage) % 2
        groups = [
            (part, _framed(frame, part, axis))
            for group, frame in groups
            for part in divide(group, axis, kerf)
        ]
    return all(len(group) == 1 and _free(group[0], frame, trim) for group, frame in groups)


def _framed(frame: Rect, group: Sequence[Rect], axis: int) -> Rect:
    low, high = min(r[axis] for r in group), max(r[axis + 2] for r in group)
    return (low, frame[1], high, frame[3]) if axis == X else (frame[0], low, frame[2], high)


def _free(rect: Rect, frame: Rect, trim: bool) -> bool:
    return sum(r != f for r, f in zip(rect, frame, strict=True)) <= (1 if trim else 0)
