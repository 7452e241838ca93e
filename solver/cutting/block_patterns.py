"""Patterns of three stages, or of any number, by their worth."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from solver.cutting.bounds import Row
from solver.cutting.builds import best_blocks
from solver.cutting.guillotine import axis_of, fill_around, fill_inside
from solver.cutting.joined import Block, draw, joined, piece
from solver.cutting.padded import Padded
from solver.cutting.shares import Counts
from solver.cutting.strip_patterns import shares_of
from solver.cutting.strips import Table, Whole
from solver.cutting.tree import CROSSCUT, RIP, Node

BLOCKS_MOST = 60_000
"""Blocks kept of one search [-]."""

HELD_MOST = 6_000_000
"""Largest table of what these blocks hold of each kind [-]."""

JOIN = 5
"""A join costs as much as so many steps of filling a table, and more with many kinds [-]."""


class BlockPatterns:
    """Finds sheets cut edge to edge; arguments as in StripPatterns."""

    def __init__(self, padded: Padded, rows: Sequence[Row], steps: int) -> None:
        self.padded = padded
        self.steps = steps
        self._rows = [row for row in rows if row.sizes]
        self._axes = [
            (axis_of(padded, b, 0), axis_of(padded, b, 1)) for b in range(len(padded.boards))
        ]
        staged = padded.stages == "3"
        both = staged and padded.first_cut == "either"
        self._turned = (False, True) if both else (padded.first_cut == "crosscut",)
        self._staged = staged

    def better(self, board: int, values: Sequence[int], above: int, most: Counts) -> Counts | bool:
        """Return a pattern worth more than `above`; True where none is, False if not known.

        It holds at most `most` of each kind.
        """
        worth = np.array(values, dtype=np.int64)
        for turned in self._turned:
            state, counts, _, _ = self._search(board, turned, worth, above, most)
            if state <= 0:
                return tuple(int(n) for n in counts) if state == 0 else False
        return True

    def cut(self, board: int, counts: Counts) -> Node | None:
        """Return a sheet of exactly these parts, or None where none is found."""
        worth = np.array([kind.area for kind in self.padded.kinds], dtype=np.int64)
        above = int(worth @ np.array(counts, dtype=np.int64)) - 1
        for turned in self._turned:
            state, _, made, last = self._search(board, turned, worth, above, counts)
            if state == 0:
                first = (CROSSCUT if turned else RIP) if self._staged else None
                block = self._block(made, last, turned)
                return draw(block, self.padded.boards[board], first)
        return None

    def _search(
        self, board: int, turned: bool, worth: Whole, above: int, most: Counts
    ) -> tuple[int, Whole, Table, int]:
        """Return (state, counts, how blocks were made, last block)."""
        demand = np.array(most, dtype=np.int64)
        one, other = self._axes[board][::-1] if turned else self._axes[board]
        none = np.zeros((0, 3), dtype=np.int64)
        if min(one.sizes.min(), other.sizes.min()) == 0 or self.steps <= 0:
            return -1, demand, none, 0
        shares = shares_of(self._rows, board)
        orders = np.argsort(-worth / np.maximum(shares, 1e-12), axis=1, kind="stable")
        inside = fill_inside(
            other.sizes, one.sizes, worth, one.points, other.points, one.down, other.down
        )
        self.steps -= inside.size * (len(one.points) + len(other.points)) // 3
        if inside[-1, -1] <= above:
            return 1, demand, none, 0
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
        return state, counts, made, last

    def _block(self, made: Table, at: int, turned: bool) -> Block:
        """Return a block with all that it is joined of."""
        one, other, on_top = (int(n) for n in made[at])
        if one < 0:
            return piece(-1 - one, self.padded.kinds[-1 - one].lies[other])
        split = RIP if bool(on_top) != turned else CROSSCUT
        parts = [self._block(made, part, turned) for part in (one, other)]
        return joined(parts, split)
