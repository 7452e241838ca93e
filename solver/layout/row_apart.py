"""The order of a row that sags its shelf least: the heaviest at the ends, the free width amid.

Sag at midspan weighs the middle most, so that no order of loads that fall towards it sags more
than the same loads spread evenly, which is what the layout holds its shelves to.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from solver.layout.row_gaps import Piece, RowSpace
from solver.units import Ticks


def apart(space: RowSpace, pieces: Sequence[Piece]) -> tuple[list[Piece], list[Ticks]]:
    """Order pieces and give their left edges [tick].

    The heaviest for their width to the ends, on the side that is narrower so far. Things of one
    kind are taken apart where the gaps that this takes are there.
    """
    left, right = _to_the_ends([[piece] for piece in pieces])
    if not space.takes([*left, *right]):
        kinds: dict[int, list[Piece]] = {}
        for piece in pieces:
            kinds.setdefault(piece.kind, []).append(piece)
        left, right = _to_the_ends(list(kinds.values()))
    row, edges, x = [*left, *right], [], space.margin
    gaps = [0, *(space.between(a, b) for a, b in pairwise(row))]
    free = space.width - 2 * space.margin - _wide(row) - sum(gaps)
    for at, piece in enumerate(row):
        x += gaps[at] + (free if at == len(left) else 0)
        edges.append(x)
        x += piece.width
    return row, edges


def _to_the_ends(blocks: Sequence[list[Piece]]) -> tuple[list[Piece], list[Piece]]:
    """Blocks on the left and on the right, from left to right: the heaviest at the ends."""
    left: list[Piece] = []
    right: list[Piece] = []

    def heavy(block: list[Piece]) -> tuple[float, int]:
        return -sum(piece.mass for piece in block) / _wide(block), block[0].kind

    for block in sorted(blocks, key=heavy):
        side = left if _wide(left) <= _wide(right) else right
        side += block
    return left, right[::-1]


def _wide(pieces: Sequence[Piece]) -> Ticks:
    return sum(piece.width for piece in pieces)
