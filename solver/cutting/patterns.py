"""What knows the patterns of a board: the most worth, and how one is cut, way by way."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol, TypeVar

import numpy as np
from numpy.typing import NDArray

from solver.cutting.bounds import Row
from solver.cutting.padded import Padded
from solver.cutting.shares import Counts
from solver.cutting.tree import Node

if TYPE_CHECKING:
    from solver.cutting.strips import Whole

W = TypeVar("W")


@dataclass(frozen=True)
class Searched:
    """What a search found.

    Attributes
    ----------
    state
        0: found; above 0: there is none; below 0: not known [-].
    counts
        How many of each kind the pattern holds [-].
    drawn
        Draws the sheet; None comes of it where it only fits rounded.
    """

    state: int
    counts: Whole
    drawn: Callable[[], Node | None] = lambda: None


class Patterns(Protocol[W]):
    """Knows all patterns of a board that keep to the stages asked for.

    Attributes
    ----------
    padded
        The problem.
    steps
        Steps that are left for its searches and for the programs: cells of tables, and what
        a node looks at [-].
    ways
        Ways of cutting, searched one after the other.
    """

    padded: Padded
    steps: int
    ways: Sequence[W]

    def search(self, way: W, board: int, worth: Whole, above: int, most: Counts) -> Searched:
        """Search the patterns of one way for one worth more than `above`."""


def better(
    patterns: Patterns[W], board: int, values: Sequence[int], above: int, most: Counts
) -> Counts | bool:
    """Return a pattern worth more than `above`; True where none is, False if not known.

    It holds at most `most` of each kind.
    """
    worth = np.array(values, dtype=np.int64)
    for way in patterns.ways:
        found = patterns.search(way, board, worth, above, most)
        if found.state <= 0:
            return tuple(int(n) for n in found.counts) if found.state == 0 else False
    return True


def cut(patterns: Patterns[W], board: int, counts: Counts) -> Node | None:
    """Return a sheet of exactly these parts, or None where none is found."""
    worth = np.array([kind.area for kind in patterns.padded.kinds], dtype=np.int64)
    above = int(worth @ np.array(counts, dtype=np.int64)) - 1
    for way in patterns.ways:
        found = patterns.search(way, board, worth, above, counts)
        if found.state == 0:
            return found.drawn()
    return None


def shares_and_orders(
    rows: Sequence[Row], board: int, worth: Whole
) -> tuple[NDArray[np.float64], Whole]:
    """Return what one of each kind takes of a board by each covering row, and kinds by worth.

    That ends hopeless searches early.
    """
    shares = np.array(
        [
            [size / row.capacity[board] for size in row.sizes]
            for row in rows
            if row.sizes and row.capacity[board]
        ]
    )
    return shares, np.argsort(-worth / np.maximum(shares, 1e-12), axis=1, kind="stable")
