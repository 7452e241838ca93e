"""Two-stage patterns by their worth: strips in one direction or the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from solver.cutting.bounds import Row
from solver.cutting.lines import in_units
from solver.cutting.padded import Padded
from solver.cutting.shares import Counts
from solver.cutting.strips import Whole, best_strips

CELLS_MOST = 20_000_000
"""Largest table; where one would be larger nothing is known [-]."""


@dataclass(frozen=True)
class _Way:
    """Strips along one direction: pieces by falling width, in units."""

    kinds: Whole
    lengths: Whole
    widths: Whole
    rooms: tuple[tuple[int, int], ...]


class StripPatterns:
    """Finds sheets of strips.

    Parameters
    ----------
    rows
        Covering rows; what they take of a sheet ends hopeless searches early.
    nodes
        Search nodes allowed in all [-].
    """

    def __init__(self, padded: Padded, rows: Sequence[Row], nodes: int) -> None:
        self.padded = padded
        self.nodes = nodes
        axes = {"rip": (0,), "crosscut": (1,), "either": (0, 1)}[padded.first_cut]
        self._ways = [_way(padded, axis) for axis in axes]
        self._rows = [row for row in rows if row.sizes]

    def better(self, board: int, values: Sequence[int], above: int, most: Counts) -> Counts | bool:
        """Return a pattern worth more than `above`; True where none is, False if not known.

        It holds at most `most` of each kind.
        """
        demand = np.array(most, dtype=np.int64)
        worth = np.array(values, dtype=np.int64)
        shares = shares_of(self._rows, board)
        orders = np.argsort(-worth / np.maximum(shares, 1e-12), axis=1, kind="stable")
        for way in self._ways:
            room, wide = way.rooms[board]
            if len(way.kinds) * max(room, wide) > CELLS_MOST or self.nodes <= 0:
                return False
            state, _, counts, nodes = best_strips(
                way.kinds,
                way.lengths,
                way.widths,
                room,
                wide,
                worth,
                demand,
                shares,
                orders,
                above,
                self.nodes,
            )
            self.nodes -= nodes
            if state == 0:
                return tuple(int(n) for n in counts)
            if state < 0:
                return False
        return True


def shares_of(rows: Sequence[Row], board: int) -> NDArray[np.float64]:
    """What one of each kind takes of a board, by each covering row [-]."""
    return np.array(
        [[size / row.capacity[board] for size in row.sizes] for row in rows if row.capacity[board]]
    )


def _way(padded: Padded, axis: int) -> _Way:
    """Strips along `axis`."""
    boards = [(board.length, board.width) for board in padded.boards]
    along, rooms = in_units(
        [[lie[axis] for lie in k.lies] for k in padded.kinds], [b[axis] for b in boards]
    )
    across, wide = in_units(
        [[lie[1 - axis] for lie in k.lies] for k in padded.kinds], [b[1 - axis] for b in boards]
    )
    pieces = sorted(
        (
            (-across[kind][way], -along[kind][way], kind)
            for kind in range(len(padded.kinds))
            for way in range(len(along[kind]))
        ),
    )
    return _Way(
        kinds=np.array([kind for _, _, kind in pieces], dtype=np.int64),
        lengths=np.array([-a for _, a, _ in pieces], dtype=np.int64),
        widths=np.array([-b for b, _, _ in pieces], dtype=np.int64),
        rooms=tuple(zip(rooms, wide, strict=True)),
    )
