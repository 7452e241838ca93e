"""Knapsacks: the most valuable sheet of strips, and the most valuable sizes side by side.

`best_strips` is a compiled branch and bound. Strips lie along the sheet, each as wide as its widest
piece; pieces are cut off along it and trimmed to width. Pieces are numbered by falling width, so
that the first of a strip gives its width; strips follow one another by their first piece. No part
is used more often than it is wanted. A node is bounded three ways: by the best strips that the free
width holds, whatever parts they repeat; by the parts left and the area that is free; and by these
parts and what they take of every covering row.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import gcd
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from solver.cutting.compiled import compiled

Whole: TypeAlias = NDArray[np.int64]
Table: TypeAlias = NDArray[np.int64]


@compiled
def fill_lengths(sizes: Whole, values: Whole, most: Whole, room: int) -> Table:
    """Return table[i, l]: the most that pieces from number i on are worth on length l."""
    count = len(sizes)
    table = np.zeros((count + 1, room + 1), dtype=np.int64)
    for i in range(count - 1, -1, -1):
        table[i] = table[i + 1]
        for _ in range(min(most[i], room // max(1, sizes[i]))):
            for at in range(room, sizes[i] - 1, -1):
                table[i, at] = max(table[i, at], table[i, at - sizes[i]] + values[i])
    return table


@compiled
def fill_widths(
    lengths: Whole, widths: Whole, values: Whole, most: Whole, table: Table, wide: int
) -> Table:
    """Return tops[i, w]: the most that strips are worth that begin with pieces from i on."""
    count, room = len(widths), table.shape[1] - 1
    tops = np.zeros((count + 1, wide + 1), dtype=np.int64)
    for i in range(count - 1, -1, -1):
        tops[i] = tops[i + 1]
        strip = values[i] + table[i, room - lengths[i]]
        for _ in range(min(most[i], wide // max(1, widths[i]))):
            for at in range(wide, widths[i] - 1, -1):
                tops[i, at] = max(tops[i, at], tops[i, at - widths[i]] + strip)
    return tops


@compiled
def fractional_knapsack(
    demand: Whole, values: Whole, shares: NDArray[np.float64], order: Whole, free: float
) -> float:
    """Return the most that the parts left are worth within the free share of one covering row.

    The fractional knapsack: kinds are taken by worth per share, the last one in part.
    """
    worth = 0.0
    for k in order:
        if demand[k] == 0 or values[k] == 0:
            continue
        taken = demand[k] * shares[k]
        if taken >= free:
            return worth + float(values[k] * free / shares[k])
        worth += demand[k] * values[k]
        free -= taken
    return worth


@compiled
def best_strips(
    kinds: Whole,
    lengths: Whole,
    widths: Whole,
    room: int,
    wide: int,
    values: Whole,
    demand: Whole,
    shares: NDArray[np.float64],
    orders: Whole,
    above: int,
    nodes_most: int,
) -> tuple[int, Whole, int, Whole, NDArray[np.bool_]]:
    """Return (state, counts of each kind, nodes, pieces, whether each opens a strip).

    State 1: no sheet is worth more than `above`. 0: the pieces are. -1: not known.
    The search ends soon after something was found.
    """
    count = len(kinds)
    own = values[kinds]
    most = demand[kinds]
    table = fill_lengths(lengths, own, most, room)
    tops = fill_widths(lengths, widths, own, most, table, wide)
    free_demand = demand.copy()
    areas = np.full(len(demand), 1.0)
    for i in range(count):
        areas[kinds[i]] = min(areas[kinds[i]], lengths[i] * widths[i] / (room * wide))
    by_area = np.argsort(areas / np.maximum(values, 1))
    best, found = above, np.zeros_like(demand)
    rows = shares.shape[0]
    used = np.zeros(rows)
    # One step of the path is a piece: its number, whether it opened a strip, and the state before.
    deepest = int(demand.sum()) + 1
    piece = np.zeros(deepest + 1, dtype=np.int64)
    opened = np.zeros(deepest + 1, dtype=np.bool_)
    pieces, opens = piece[:0].copy(), opened[:0].copy()
    before = np.zeros((deepest + 1, 4), dtype=np.int64)  # first, free length, free width, worth
    depth, nodes, worth = 0, 0, 0
    first, length, width = 0, 0, wide
    at, opening = 0, True  # the next choice to try; strips are opened after pieces are added
    while True:
        moved = False
        while at < count:
            k = kinds[at]
            fits = free_demand[k] > 0 and (
                (lengths[at] <= room and widths[at] <= width) if opening else lengths[at] <= length
            )
            if fits:
                if opening:
                    bound = (
                        worth
                        + own[at]
                        + table[at, room - lengths[at]]
                        + tops[at, width - widths[at]]
                    )
                else:
                    bound = worth + own[at] + table[at, length - lengths[at]] + tops[first, width]
                if bound > best:
                    moved = True
                    break
            at += 1
        if moved:
            nodes += 1
            if nodes > nodes_most:
                return (0 if best > above else -1), found, nodes, pieces, opens
            before[depth, 0], before[depth, 1] = first, length
            before[depth, 2], before[depth, 3] = width, worth
            piece[depth], opened[depth] = at, opening
            depth += 1
            if opening:
                first, length, width = at, room - lengths[at], width - widths[at]
            else:
                length -= lengths[at]
            k = kinds[at]
            worth += own[at]
            free_demand[k] -= 1
            for r in range(rows):
                used[r] += shares[r, k]
            if worth > best:
                best = worth
                found[:] = demand - free_demand
                pieces, opens = piece[:depth].copy(), opened[:depth].copy()
                nodes_most = min(nodes_most, nodes + 20_000)
            strip = widths[first]
            free = (length * strip + room * width) / (room * wide) + 1e-9
            most_left = fractional_knapsack(free_demand, values, areas, by_area, free)
            open_still = worth + most_left >= best + 1 - 1e-3
            for r in range(rows):
                if (
                    worth
                    + fractional_knapsack(
                        free_demand, values, shares[r], orders[r], 1.0 - used[r] + 1e-9
                    )
                    < best + 1
                ):
                    open_still = False
                    break
            opening = False
            if not open_still:
                at = count
                opening = True
            continue
        if not opening:
            # No more pieces in this strip: open the next, beginning with the same piece or later.
            opening, at = True, first
            if worth + tops[first, width] <= best:
                at = count
            continue
        if depth == 0:
            return (0 if best > above else 1), found, nodes, pieces, opens
        depth -= 1
        at, opening = piece[depth], opened[depth]
        k = kinds[at]
        free_demand[k] += 1
        for r in range(rows):
            used[r] -= shares[r, k]
        first, length = before[depth, 0], before[depth, 1]
        width, worth = before[depth, 2], before[depth, 3]
        at += 1


UNITS_MOST = 8_000
"""Finest division of a side; finer sizes are rounded so that more fits, never less [-]."""


class SideKnapsack:
    """The knapsack of one direction of the boards, divided into whole units.

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

    In a coarser one extents are rounded down and rooms up: whatever fits still fits, so that
    the most that fits stays an upper bound.
    """
    fine = gcd(*(e for own in extents for e in own))
    unit = fine * -(-max(rooms) // (fine * most))
    up = [room // unit if unit == fine else -(-room // unit) for room in rooms]
    return [[e // unit for e in own] for own in extents], up


@compiled
def _fill(
    sizes: NDArray[np.int64], values: NDArray[np.float64], top: int
) -> tuple[NDArray[np.float64], NDArray[np.bool_]]:
    """Fill the table of best worths, one part after the other, and whether each is taken."""
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
