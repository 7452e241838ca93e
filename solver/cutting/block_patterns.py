"""Patterns of three stages, or of any number, by their worth."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from solver.cutting.bounds import Row
from solver.cutting.builds import best_blocks
from solver.cutting.guillotine import axis_of, fill_around, fill_inside
from solver.cutting.padded import Padded
from solver.cutting.shares import Counts
from solver.cutting.strip_patterns import shares_of

BLOCKS_MOST = 12_000
"""Blocks kept of one search [-]."""

FILL_JOINS = 50
"""A table costs as much as so many joins for each of its cells [-]."""


class BlockPatterns:
    """Finds sheets cut edge to edge; arguments as in StripPatterns."""

    def __init__(self, padded: Padded, rows: Sequence[Row], nodes: int) -> None:
        self.padded = padded
        self.nodes = nodes
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
        demand = np.array(most, dtype=np.int64)
        along, across = self._axes[board]
        if min(along.sizes.min(), across.sizes.min()) == 0 or self.nodes <= 0:
            return False
        worth = np.array(values, dtype=np.int64)
        shares = shares_of(self._rows, board)
        orders = np.argsort(-worth / np.maximum(shares, 1e-12), axis=1, kind="stable")
        for turned in self._turned:
            one, other = (across, along) if turned else (along, across)
            inside = fill_inside(
                other.sizes, one.sizes, worth, one.points, other.points, one.down, other.down
            )
            self.nodes -= inside.size * FILL_JOINS
            if inside[-1, -1] <= above:
                return True
            around = fill_around(inside, one.points, other.points, one.down, other.down)
            state, counts, joins = best_blocks(
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
                BLOCKS_MOST,
                self.nodes,
            )
            self.nodes -= joins
            if state == 0:
                return tuple(int(n) for n in counts)
            if state < 0:
                return False
        return True
