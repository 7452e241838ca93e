"""The open sizes at which every part comes out of some sheet, as few boxes of sizes.

Larger sizes of the same parts never come out where smaller ones do not. Only a back that is cut
in pieces, because it is too large for a sheet, makes larger sizes possible again.
"""

from __future__ import annotations

from itertools import product

from solver.geometry import fits_a_sheet
from solver.planning.axes import Grid, Point, moved
from solver.planning.fitting import enumerated
from solver.planning.pricing import Pricing
from solver.planning.stock import sheet_parts

Box = tuple[Point, Point]


def cuttable(grid: Grid, pricing: Pricing) -> list[Box]:
    """Return boxes that together hold every choice of sizes whose parts are not too large.

    Where none is, the box of the least sizes alone is returned, so that the cutting says why.
    """
    found: list[Box] = []
    waiting = _starts(grid)
    while waiting:
        low, high = waiting.pop()
        if _comes_out(grid, high) and _comes_out(grid, low):
            found.append((low, high))
        elif low != high and not (pricing.alike(low, high) and not _comes_out(grid, low)):
            waiting += _halves(grid, low, high)
    return _joined(found, enumerated(grid)) or [(grid.low, grid.low)]


def _starts(grid: Grid) -> list[Box]:
    """Return all sizes as one box, or one for each value of the axes that are enumerated."""
    apart = enumerated(grid)
    found: list[Box] = []
    for values in product(*(range(len(grid.axes[n].values)) for n in apart)):
        low, high = grid.low, grid.high
        for n, value in zip(apart, values, strict=True):
            low, high = moved(low, n, value), moved(high, n, value)
        found.append((low, high))
    return found


def _comes_out(grid: Grid, point: Point) -> bool:
    job, depths = grid.settled(point)
    return all(
        fits_a_sheet(job, part.material, part.length, part.width)
        for part in sheet_parts(job, grid.counts, depths)
    )


def _halves(grid: Grid, low: Point, high: Point) -> list[Box]:
    """Split a box on the axis that decides, where it stops to come out, else on the longest."""
    for axis in range(len(low)):
        there = moved(low, axis, high[axis])
        if low[axis] < high[axis] and _comes_out(grid, low) and not _comes_out(grid, there):
            good, bad = low[axis], high[axis]
            while bad - good > 1:
                middle = (good + bad) // 2
                if _comes_out(grid, moved(low, axis, middle)):
                    good = middle
                else:
                    bad = middle
            return [(low, moved(high, axis, good)), (moved(low, axis, bad), high)]
    axis = max(range(len(low)), key=lambda n: (high[n] - low[n], -n))
    middle = (low[axis] + high[axis]) // 2
    return [(low, moved(high, axis, middle)), (moved(low, axis, middle + 1), high)]


def _joined(boxes: list[Box], apart: tuple[int, ...]) -> list[Box]:
    """Join boxes that differ on one axis only and meet there, but not on those kept apart."""
    for n, one in enumerate(boxes):
        for other in boxes[n + 1 :]:
            both = _joint(one, other, apart)
            if both is not None:
                rest = [box for box in boxes if box not in (one, other)]
                return _joined([*rest, both], apart)
    return boxes


def _joint(one: Box, other: Box, apart: tuple[int, ...]) -> Box | None:
    differ = [n for n in range(len(one[0])) if (one[0][n], one[1][n]) != (other[0][n], other[1][n])]
    if len(differ) != 1 or differ[0] in apart:
        return None
    n = differ[0]
    if one[1][n] + 1 == other[0][n]:
        return one[0], other[1]
    return (other[0], one[1]) if other[1][n] + 1 == one[0][n] else None
