"""Block generation: the most valuable pattern of three stages, or of any number of stages.

Blocks of parts are joined edge to edge, best first, with no part used more often than it is
wanted. A block is dropped where its worth and the most that fits beside it on the board
(:mod:`solver.cutting.guillotine_patterns`) do not exceed what is asked for. The loops are compiled.
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from solver.cutting.compiled import compiled
from solver.cutting.cut_tree import CROSSCUT, RIP, Node
from solver.cutting.dual_feasible_bounds import Row
from solver.cutting.guillotine_patterns import axis_of, fill_around, fill_inside
from solver.cutting.padded_sizes import PaddedProblem
from solver.cutting.pricing_problem import (
    Block,
    PatternResult,
    joined,
    piece,
    shares_and_orders,
    sheet_tree,
)
from solver.cutting.sheet_master import Counts
from solver.cutting.strip_knapsack import Table, Whole, fractional_knapsack

SLOTS = 1 << 15
"""Slots of the hash table in which blocks are looked up by their counts [-]."""


@compiled
def _slot(counts: Whole) -> int:
    """Return the slot in which blocks of these counts are listed."""
    mixed = 1469598103
    for n in counts:
        mixed = (mixed * 16777619 + n + 1) & 0x7FFFFFFF
    return mixed & (SLOTS - 1)


@compiled
def _beaten(
    slot: int,
    counts: Whole,
    x: int,
    y: int,
    rank: int,
    heads: Whole,
    nexts: Whole,
    blocks: Table,
    held: NDArray[np.int32],
) -> bool:
    """Return True where a known block of the same parts is no larger, and no harder to join."""
    at = heads[slot]
    while at >= 0:
        if blocks[at, 0] <= x and blocks[at, 1] <= y and blocks[at, 3] <= rank:
            same = True
            for k in range(len(counts)):
                if held[at, k] != counts[k]:
                    same = False
                    break
            if same:
                return True
        at = nexts[at]
    return False


@compiled
def _rank(one: int, other: int, on_top: bool, alike: bool, staged: bool) -> int:
    """Return the rank of two blocks joined; -1 where they may not be.

    0: a piece, or stages do not count; 1: pieces of one size on each other; 2: such columns side by
    side; 3: anything else on each other.
    """
    if not staged:
        return 0
    if not on_top:
        return 2 if one <= 2 and other <= 2 else -1
    return 1 if one <= 1 and other <= 1 and alike else 3


@compiled
def best_blocks(
    along: NDArray[np.int64],
    across: NDArray[np.int64],
    values: Whole,
    demand: Whole,
    around: Table,
    down_x: Whole,
    down_y: Whole,
    shares: NDArray[np.float64],
    orders: Whole,
    above: int,
    staged: bool,
    blocks_most: int,
    joins_most: int,
) -> tuple[int, Whole, int, Table, int]:
    """Return (state, counts, joins tried, origin of each block, last block).

    State 1: no sheet is worth more than `above`. 0: that of the counts is; it is the last
    block. -1: not known. The origin is two blocks and whether they stand on each other,
    or a piece: -1 - kind, way.
    """
    kinds, rows = len(values), shares.shape[0]
    room_x, room_y = len(down_x) - 1, len(down_y) - 1
    blocks = np.zeros((blocks_most, 4), dtype=np.int64)  # x, y, worth, rank
    held = np.zeros((blocks_most, kinds), dtype=np.int32)
    origins = np.zeros((blocks_most + 1, 3), dtype=np.int64)
    nexts = np.full(blocks_most, -1, dtype=np.int64)
    heads = np.full(SLOTS, -1, dtype=np.int64)
    done = np.zeros(blocks_most, dtype=np.int64)
    left = np.zeros(kinds, dtype=np.int64)
    counts = np.zeros(kinds, dtype=np.int64)
    number, closed, joins = 0, 0, 0
    heap = [(0, -1)]
    heapq.heappop(heap)
    # Joins are tried for each block taken; the first round makes the blocks of one piece.
    at = -1
    while True:
        options = 2 * kinds if at < 0 else 2 * closed
        for option in range(options):
            if at < 0:
                kind, way = option // 2, option % 2
                if (
                    way == 1
                    and along[kind, 0] == along[kind, 1]
                    and across[kind, 0] == across[kind, 1]
                ):
                    continue
                x, y, worth, rank = along[kind, way], across[kind, way], values[kind], 0
                if values[kind] == 0 or demand[kind] == 0:
                    continue
                counts[:] = 0
                counts[kind] = 1
            else:
                other, on_top = done[option // 2], option % 2 == 1
                joins += 1
                if on_top:
                    x, y = max(blocks[at, 0], blocks[other, 0]), blocks[at, 1] + blocks[other, 1]
                else:
                    x, y = blocks[at, 0] + blocks[other, 0], max(blocks[at, 1], blocks[other, 1])
                worth = blocks[at, 2] + blocks[other, 2]
            if x > room_x or y > room_y or worth + around[down_x[x], down_y[y]] <= above:
                continue
            if at >= 0:
                rank = _rank(
                    blocks[at, 3],
                    blocks[other, 3],
                    on_top,
                    blocks[at, 0] == blocks[other, 0],
                    staged,
                )
                fits = rank >= 0
                if fits:
                    for k in range(kinds):
                        counts[k] = held[at, k] + held[other, k]
                        if counts[k] > demand[k]:
                            fits = False
                            break
                if not fits:
                    continue
            if at < 0:
                origins[number, 0], origins[number, 1] = -1 - kind, way
            else:
                origins[number, 0], origins[number, 1], origins[number, 2] = at, other, on_top
            if worth > above:
                return 0, counts, joins, origins, number
            slot = _slot(counts)
            if _beaten(slot, counts, x, y, rank, heads, nexts, blocks, held):
                continue
            most = worth + around[down_x[x], down_y[y]]
            open_still = True
            for r in range(rows):
                free = 1.0 + 1e-9
                for k in range(kinds):
                    left[k] = demand[k] - counts[k]
                    free -= shares[r, k] * counts[k]
                if (
                    worth + fractional_knapsack(left, values, shares[r], orders[r], free)
                    < above + 1 - 1e-3
                ):
                    open_still = False
                    break
            if not open_still:
                continue
            if number == blocks_most:
                return -1, counts, joins, origins, number
            blocks[number, 0], blocks[number, 1] = x, y
            blocks[number, 2], blocks[number, 3] = worth, rank
            held[number] = counts
            nexts[number] = heads[slot]
            heads[slot] = number
            heapq.heappush(heap, (-most, number))
            number += 1
        if len(heap) == 0:
            return 1, counts, joins, origins, number
        if joins > joins_most:
            return -1, counts, joins, origins, number
        at = heapq.heappop(heap)[1]
        done[closed] = at
        closed += 1


BLOCKS_MOST = 60_000
"""Blocks kept in one search at most [-]."""

HELD_MOST = 6_000_000
"""Largest table of how many of each kind these blocks hold [-]."""

JOIN = 5
"""A join costs as much as so many steps of filling a table, and more with many kinds [-]."""


class BlockPatterns:
    """Finds patterns by block generation; a way says whether the board is turned."""

    def __init__(self, padded: PaddedProblem, rows: Sequence[Row], steps: int) -> None:
        self._axes = [
            (axis_of(padded, b, 0), axis_of(padded, b, 1)) for b in range(len(padded.boards))
        ]
        self._staged = padded.stages == "3"
        both = self._staged and padded.first_cut == "either"
        self.padded, self.steps, self._rows = padded, steps, rows
        self.ways: Sequence[bool] = (False, True) if both else (padded.first_cut == "crosscut",)

    def search(
        self, way: bool, board: int, worth: Whole, above: int, most: Counts
    ) -> PatternResult:
        """Search the patterns of one way for one worth more than `above`."""
        demand = np.array(most, dtype=np.int64)
        one, other = self._axes[board][::-1] if way else self._axes[board]
        if min(one.sizes.min(), other.sizes.min()) == 0 or self.steps <= 0:
            return PatternResult(-1, demand)
        shares, orders = shares_and_orders(self._rows, board, worth)
        inside = fill_inside(
            other.sizes, one.sizes, worth, one.points, other.points, one.down, other.down
        )
        self.steps -= inside.size * (len(one.points) + len(other.points)) // 3
        if inside[-1, -1] <= above:
            return PatternResult(1, demand)
        around = fill_around(inside, one.points, other.points, one.down, other.down)
        join = JOIN + len(worth) // 4
        state, counts, joins, origins, last = best_blocks(
            one.sizes,
            other.sizes,
            worth,
            demand,
            around,
            one.down,
            other.down,
            shares,
            orders,
            above,
            self._staged,
            min(BLOCKS_MOST, HELD_MOST // len(worth)),
            self.steps // join,
        )
        self.steps -= joins * join
        return PatternResult(state, counts, lambda: self._drawn(origins, last, board, turned=way))

    def _drawn(self, origins: Table, last: int, board: int, *, turned: bool) -> Node | None:
        asked = {"rip": RIP, "crosscut": CROSSCUT, "either": None}[self.padded.first_cut]
        first = (CROSSCUT if turned else RIP) if self._staged else asked
        return sheet_tree(self._block(origins, last, turned), self.padded.boards[board], first)

    def _block(self, origins: Table, at: int, turned: bool) -> Block:
        """Return a block with all blocks that it is joined from."""
        one, other, on_top = (int(n) for n in origins[at])
        if one < 0:
            return piece(-1 - one, self.padded.kinds[-1 - one].lies[other])
        split = RIP if bool(on_top) != turned else CROSSCUT
        parts = [self._block(origins, part, turned) for part in (one, other)]
        return joined(parts, split)
