"""Two-stage patterns by their worth: strips in one direction or the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from solver.cutting.bounds import Row
from solver.cutting.joined import Block, draw, joined, piece
from solver.cutting.lines import in_units
from solver.cutting.padded import Padded
from solver.cutting.patterns import Searched, shares_and_orders
from solver.cutting.shares import Counts
from solver.cutting.strips import Whole, best_strips
from solver.cutting.tree import CROSSCUT, RIP, Node

CELLS_MOST = 20_000_000
"""Largest table; where one would be larger nothing is known [-]."""


@dataclass(frozen=True)
class _Way:
    """Strips along one direction: pieces by falling width, in units."""

    kinds: Whole
    lengths: Whole
    widths: Whole
    rooms: tuple[tuple[int, int], ...]
    lies: Whole
    axis: int


class StripPatterns:
    """Finds sheets of strips."""

    def __init__(self, padded: Padded, rows: Sequence[Row], steps: int) -> None:
        self.padded, self.steps, self._rows = padded, steps, rows
        axes = {"rip": (0,), "crosscut": (1,), "either": (0, 1)}[padded.first_cut]
        self.ways: Sequence[_Way] = [_way(padded, axis) for axis in axes]

    def search(self, way: _Way, board: int, worth: Whole, above: int, most: Counts) -> Searched:
        """Search the patterns of one way for one worth more than `above`."""
        demand = np.array(most, dtype=np.int64)
        room, wide = way.rooms[board]
        if len(way.kinds) * max(room, wide) > CELLS_MOST or self.steps <= 0:
            return Searched(-1, demand)
        shares, orders = shares_and_orders(self._rows, board, worth)
        node = len(way.kinds) + shares.size
        state, counts, nodes, pieces, opens = best_strips(
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
            self.steps // node,
        )
        cells = int(np.minimum(demand[way.kinds], room // np.maximum(way.lengths, 1)).sum()) * room
        self.steps -= nodes * node + cells
        return Searched(state, counts, lambda: self._drawn(way, board, pieces, opens))

    def _drawn(self, way: _Way, board: int, pieces: Whole, opens: NDArray[np.bool_]) -> Node | None:
        """Draw a sheet of strips; None where it only fits rounded."""
        along, across = (RIP, CROSSCUT) if way.axis == 0 else (CROSSCUT, RIP)
        strips: list[list[Block]] = []
        for number, first in zip(pieces, opens, strict=True):
            kind = int(way.kinds[number])
            block = piece(kind, self.padded.kinds[kind].lies[int(way.lies[number])])
            if first:
                strips.append([])
            strips[-1].append(block)
        sheet = joined([joined(strip, across) for strip in strips], along)
        return draw(sheet, self.padded.boards[board], along)


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
            (-across[kind][way], -along[kind][way], kind, way)
            for kind in range(len(padded.kinds))
            for way in range(len(along[kind]))
        ),
    )
    return _Way(
        kinds=np.array([kind for _, _, kind, _ in pieces], dtype=np.int64),
        lengths=np.array([-a for _, a, _, _ in pieces], dtype=np.int64),
        widths=np.array([-b for b, _, _, _ in pieces], dtype=np.int64),
        rooms=tuple(zip(rooms, wide, strict=True)),
        lies=np.array([lie for *_, lie in pieces], dtype=np.int64),
        axis=axis,
    )
