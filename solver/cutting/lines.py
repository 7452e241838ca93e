"""The most valuable parts side by side: a knapsack in which a part takes one of its extents."""

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

    Where the sizes' common divisor is too fine, extents are rounded down to a coarser unit
    and rooms up: whatever fits still fits then, so what is the most stays an upper bound.

    Parameters
    ----------
    extents
        Extent of each kind for each way to lie [tick].
    demand
        How many of each kind there are [-].
    rooms
        Side of each board [tick].
    """

    def __init__(
        self, extents: Sequence[Sequence[int]], demand: Sequence[int], rooms: Sequence[int]
    ) -> None:
        self.extents = extents
        self.longest = max(rooms)
        units, self.rooms = in_units(extents, rooms)
        top = max(self.rooms)
        kinds, sizes = [], []
        for kind, (own, count) in enumerate(zip(units, demand, strict=True)):
            most = min(count, top // min(own)) if min(own) else count
            kinds += [kind] * most
            sizes += [[own[0], own[-1]]] * most
        self._kinds = np.array(kinds, dtype=np.int64)
        self._sizes = np.array(sizes, dtype=np.int64).reshape(-1, 2)
        self._top = top

    @property
    def cells(self) -> int:
        """Size of the knapsack's table [-]."""
        return len(self._kinds) * (self._top + 1)

    def best(self, values: Sequence[Sequence[float]]) -> tuple[float, list[list[int]]]:
        """Return (worth, counts) of the most valuable choice for the longest room.

        The counts are for each kind and way to lie [-].
        """
        pairs = np.array([[own[0], own[-1]] for own in values])
        table, taken = _fill(self._kinds, self._sizes, pairs, self._top)
        counts = [[0] * len(own) for own in values]
        at = int(self._top)
        for item in range(len(self._kinds) - 1, -1, -1):
            way = int(taken[item, at])
            if way >= 0:
                kind = int(self._kinds[item])
                counts[kind][way] += 1
                at -= int(self._sizes[item, way])
        return float(table[self._top]), counts

    def most(self, values: Sequence[Sequence[int]]) -> list[int]:
        """Return, exactly, the most that a choice is worth for each room."""
        pairs = np.array([[own[0], own[-1]] for own in values], dtype=np.int64)
        table = _fill_whole(self._kinds, self._sizes, pairs, self._top)
        return [int(table[room]) for room in self.rooms]


def in_units(
    extents: Sequence[Sequence[int]], rooms: Sequence[int], most: int = UNITS_MOST
) -> tuple[list[list[int]], list[int]]:
    """Return extents and rooms in their common unit, or in a coarser one: then more may fit."""
    fine = gcd(*(e for own in extents for e in own))
    unit = fine * -(-max(rooms) // (fine * most))
    up = [room // unit if unit == fine else -(-room // unit) for room in rooms]
    return [[e // unit for e in own] for own in extents], up


@compiled
def _fill(
    kinds: NDArray[np.int64], sizes: NDArray[np.int64], values: NDArray[np.float64], top: int
) -> tuple[NDArray[np.float64], NDArray[np.int8]]:
    """Fill the table of best worths, one part after the other, and what was taken."""
    table = np.zeros(top + 1)
    taken = np.full((len(kinds), top + 1), -1, dtype=np.int8)
    for item in range(len(kinds)):
        kind = kinds[item]
        for at in range(top, -1, -1):
            best = table[at] + 1e-12
            for way in range(2):
                size = sizes[item, way]
                if size <= at and table[at - size] + values[kind, way] > best:
                    best = table[at - size] + values[kind, way]
                    taken[item, at] = way
            if taken[item, at] >= 0:
                table[at] = best
    return table, taken


@compiled
def _fill_whole(
    kinds: NDArray[np.int64], sizes: NDArray[np.int64], values: NDArray[np.int64], top: int
) -> NDArray[np.int64]:
    """Fill the table of best worths in whole numbers."""
    table = np.zeros(top + 1, dtype=np.int64)
    for item in range(len(kinds)):
        kind = kinds[item]
        for at in range(top, -1, -1):
            best = table[at]
            for way in range(2):
                size = sizes[item, way]
                if size <= at:
                    best = max(best, table[at - size] + values[kind, way])
            table[at] = best
    return table
