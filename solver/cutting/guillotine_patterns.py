"""Upper bounds on guillotine patterns: the most that fits into a rectangle, and around one.

Dynamic programs, compiled. Both tables let any part repeat, and so bound every pattern from above.
Only rectangles whose sides are sums of parts' extents are told apart, since parts may be pushed
together. `inside[i, j]` is the most that fits into points[i] x points[j]; `around[i, j]` the most
that fits into the board beside a block of that size in its corner.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from solver.cutting.compiled import compiled
from solver.cutting.padded_sizes import PaddedProblem
from solver.cutting.strip_knapsack import Table, Whole, in_units

POINTS_MOST = 260
"""Most points of one direction; where there are more, units are made coarser [-]."""

FINEST = 4_096
"""Finest division of a side [-]."""


@dataclass(frozen=True)
class Axis:
    """One direction of one board, in units.

    Attributes
    ----------
    sizes
        Extent of each kind and way to lie; of kinds with one way twice the same.
    points
        Sums of extents up to the room.
    down
        For each length up to the room, the number of the largest point within it.
    """

    sizes: NDArray[np.int64]
    room: int
    points: Whole
    down: Whole


def axis_of(padded: PaddedProblem, board: int, axis: int) -> Axis:
    """Divide one direction of a board; more may fit than does, never less."""
    extents = [[lie[axis] for lie in kind.lies] for kind in padded.kinds]
    room = (padded.boards[board].length, padded.boards[board].width)[axis]
    finest = FINEST
    while True:
        sizes, (units,) = in_units(extents, [room], finest)
        down = _reach(sizes, padded.demand, units)
        points = np.unique(down)
        if len(points) <= POINTS_MOST or finest <= POINTS_MOST:
            break
        finest = finest * 2 // 3
    numbers = np.searchsorted(points, down)
    both = np.array([[own[0], own[-1]] for own in sizes], dtype=np.int64)
    return Axis(both, units, points, numbers.astype(np.int64))


def _reach(sizes: Sequence[Sequence[int]], demand: Sequence[int], room: int) -> Whole:
    """Return for each length the largest sum of extents within it."""
    reached = np.zeros(room + 1, dtype=np.bool_)
    reached[0] = True
    for own, count in zip(sizes, demand, strict=True):
        for _ in range(min(count, room // max(1, min(own)))):
            before = reached.copy()
            for size in own:
                if 0 < size <= room:
                    reached[size:] |= before[: room + 1 - size]
    at = np.where(reached, np.arange(room + 1), 0)
    return np.maximum.accumulate(at)


@compiled
def fill_inside(
    across: NDArray[np.int64],
    along: NDArray[np.int64],
    values: Whole,
    xs: Whole,
    ys: Whole,
    down_x: Whole,
    down_y: Whole,
) -> Table:
    """Fill the table of the most that fits into each rectangle."""
    table = np.zeros((len(xs), len(ys)), dtype=np.int64)
    for kind in range(len(values)):
        for way in range(2):
            a, b = along[kind, way], across[kind, way]
            if a < len(down_x) and b < len(down_y):
                i, j = down_x[a], down_y[b]
                table[i, j] = max(table[i, j], values[kind])
    for i in range(len(xs)):
        for j in range(len(ys)):
            best = table[i, j]
            if i:
                best = max(best, table[i - 1, j])
            if j:
                best = max(best, table[i, j - 1])
            k = 1
            while k < len(xs) and 2 * xs[k] <= xs[i]:
                best = max(best, table[k, j] + table[down_x[xs[i] - xs[k]], j])
                k += 1
            k = 1
            while k < len(ys) and 2 * ys[k] <= ys[j]:
                best = max(best, table[i, k] + table[i, down_y[ys[j] - ys[k]]])
                k += 1
            table[i, j] = best
    return table


@compiled
def fill_around(inside: Table, xs: Whole, ys: Whole, down_x: Whole, down_y: Whole) -> Table:
    """Fill the table of the most that fits beside a block in the corner of the board."""
    table = np.zeros((len(xs), len(ys)), dtype=np.int64)
    room_x, room_y = len(down_x) - 1, len(down_y) - 1
    for i in range(len(xs) - 1, -1, -1):
        for j in range(len(ys) - 1, -1, -1):
            best = 0
            if i + 1 < len(xs):
                best = table[i + 1, j]
            if j + 1 < len(ys):
                best = max(best, table[i, j + 1])
            k = 1
            while k < len(xs) and xs[i] + xs[k] <= room_x:
                best = max(best, inside[k, j] + table[down_x[xs[i] + xs[k]], j])
                k += 1
            k = 1
            while k < len(ys) and ys[j] + ys[k] <= room_y:
                best = max(best, inside[i, k] + table[i, down_y[ys[j] + ys[k]]])
                k += 1
            table[i, j] = best
    return table
