"""Patterns of three stages, or of any number, by their worth."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from solver.cutting.bounds import Row
from solver.cutting.builds import best_blocks
from solver.cutting.guillotine import axis_of, fill_around, fill_inside
from solver.cutting.joined import Block, draw, joined, piece
from solver.cutting.padded import Padded
from solver.cutting.patterns import Searched, shares_and_orders
from solver.cutting.shares import Counts
from solver.cutting.strips import Table, Whole
from solver.cutting.tree import CROSSCUT, RIP, Node

BLOCKS_MOST = 60_000
"""Blocks kept of one search [-]."""

HELD_MOST = 6_000_000
"""Largest table of what these blocks hold of each kind [-]."""

JOIN = 5
"""A join costs as much as so many steps of filling a table, and more with many kinds [-]."""


class BlockPatterns:
    """Finds sheets cut edge to edge; a way says whether the board is turned."""

    def __init__(self, padded: Padded, rows: Sequence[Row], steps: int) -> None:
        self._axes = [
            (axis_of(padded, b, 0), axis_of(padded, b, 1)) for b in range(len(padded.boards))
        ]
        self._staged = padded.stages == "3"
        both = self._staged and padded.first_cut == "either"
        self.padded, self.steps, self._rows = padded, steps, rows
        self.ways: Sequence[bool] = (False, True) if both else (padded.first_cut == "crosscut",)

    def search(self, way: bool, board: int, worth: Whole, above: int, most: Counts) -> Searched:
        """Search the patterns of one way for one worth more than `above`."""
        demand = np.array(most, dtype=np.int64)
        one, other = self._axes[board][::-1] if way else self._axes[board]
        if min(one.sizes.min(), other.sizes.min()) == 0 or self.steps <= 0:
            return Searched(-1, demand)
        shares, orders = shares_and_orders(self._rows, board, worth)
        inside = fill_inside(
            other.sizes, one.sizes, worth, one.points, other.points, one.down, other.down
        )
        self.steps -= inside.size * (len(one.points) + len(other.points)) // 3
        if inside[-1, -1] <= above:
            return Searched(1, demand)
        around = fill_around(inside, one.points, other.points, one.down, other.down)
        join = JOIN + len(worth) // 4
        state, counts, joins, made, last = best_blocks(
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
        return Searched(state, counts, lambda: self._drawn(made, last, board, turned=way))

    def _drawn(self, made: Table, last: int, board: int, *, turned: bool) -> Node | None:
        first = (CROSSCUT if turned else RIP) if self._staged else None
        return draw(self._block(made, last, turned), self.padded.boards[board], first)

    def _block(self, made: Table, at: int, turned: bool) -> Block:
        """Return a block with all that it is joined of."""
        one, other, on_top = (int(n) for n in made[at])
        if one < 0:
            return piece(-1 - one, self.padded.kinds[-1 - one].lies[other])
        split = RIP if bool(on_top) != turned else CROSSCUT
        parts = [self._block(made, part, turned) for part in (one, other)]
        return joined(parts, split)
