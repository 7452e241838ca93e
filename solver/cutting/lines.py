"""The most valuable sizes side by side: a knapsack."""

from __future__ import annotations

from collections.abc import Sequence
from math import gcd

import numpy as np
from numpy.typing import NDArray

from solver.cutting.compiled import compiled

UNITS_MOST = 8_000
"""Finest division of a side; finer sizes are rounded so that more fits, never less [-]."""


class Line:
    """One direction of the boards, divided into whole units.

    Parameters
    ----------
    sizes
        Different extents [tick].
    counts
        How many parts have each [-].
    rooms
        Side of each board [tick].
    """

    def __init__(self, sizes: Sequence[int], counts: Sequence[int], rooms: Sequence[int]) -> None:
        units, self.rooms = in_units([sizes], rooms)
        self._top = max(self.rooms)
        fitting = [
            min(count, self._top // size) if size else count
            for size, count in zip(units[0], counts, strict=True)
        ]
        self._kinds = np.repeat(np.arange(len(sizes)), fitting)
        self._sizes = np.repeat(np.array(units[0], dtype=np.int64), fitting)

    @property
    def cells(self) -> int:
        """Size of the knapsack's table [-]."""
        return len(self._kinds) * (self._top + 1)

    def best(self, values: Sequence[float]) -> tuple[float, list[int]]:
        """Return (worth, how many of each size) of the best choice for the longest room."""
        each = np.array(values, dtype=np.float64)[self._kinds]
        table, taken = _fill(self._sizes, each, self._top)
        counts = [0] * len(values)
        at = self._top
        for item in range(len(self._kinds) - 1, -1, -1):
            if taken[item, at]:
                counts[int(self._kinds[item])] += 1
                at -= int(self._sizes[item])
        return float(table[self._top]), counts

    def most(self, values: Sequence[int]) -> list[int]:
        """Return, exactly, the most that a choice is worth for each room."""
        each = np.array(values, dtype=np.int64)[self._kinds]
        table = _fill_whole(self._sizes, each, self._top)
        return [int(table[room]) for room in self.rooms]


def in_units(
    extents: Sequence[Sequence[int]], rooms: Sequence[int], most: int = UNITS_MOST
) -> tuple[list[list[int]], list[int]]:
    """Return extents and rooms in their common unit, or in a coarser one.

    Then extents are rounded down and rooms up: whatever fits still fits, so that what is
    the most stays an upper bound.
    """
    fine = gcd(*(e for own in extents for e in own))
    unit = fine * -(-max(rooms) // (fine * most))
    up = [room // unit if unit == fine else -(-room // unit) for room in rooms]
    return [[e // unit for e in own] for own in extents], up


@compiled
def _fill(
    sizes: NDArray[np.int64], values: NDArray[np.float64], top: int
) -> tuple[NDArray[np.float64], NDArray[np.bool_]]:
    """Fill the table of best worths, one part after the other, and whether it was taken."""
    table = np.zeros(top + 1)
    taken = np.zeros((len(sizes), top + 1), dtype=np.bool_)
    for item in range(len(sizes)):
        size, value = sizes[item], values[item]
        for at in range(top, size - 1, -1):
            if table[at - size] + value > table[at] + 1e-12:
                table[at] = table[at - size] + value
                taken[item, at] = True
    return table, taken


@compiled
def _fill_whole(sizes: NDArray[np.int64], values: NDArray[np.int64], top: int) -> NDArray[np.int64]:
    """Fill the table of best worths in whole numbers."""
    table = np.zeros(top + 1, dtype=np.int64)
    for item in range(len(sizes)):
        size, value = sizes[item], values[item]
        for at in range(top, size - 1, -1):
            table[at] = max(table[at], table[at - size] + value)
    return table
