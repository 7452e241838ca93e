"""Sheets that were seen, kept for choosing whole sheets anew."""

from __future__ import annotations

from collections.abc import Sequence

from solver.cutting.layout import Filled, Layout, rules_of
from solver.cutting.master import Column
from solver.cutting.padded import Padded
from solver.cutting.tree import CROSSCUT, Node, place


def column_of(padded: Padded, sheet: Filled) -> Column:
    """Return a sheet's board and how many of each kind are on it [-]."""
    counts = [0] * len(padded.kinds)
    for piece in sheet.root.pieces():
        counts[piece.kind] += 1
    return padded.boards.index(sheet.board), tuple(counts)


def stick_tree(padded: Padded, column: Column) -> Node:
    """Return the tree of a stick that holds a column's pieces, one beside the other."""
    board = padded.boards[column[0]]
    root = Node(board.length, board.width, 0, None)
    waste = root
    for kind, count in enumerate(column[1]):
        for _ in range(count):
            place(waste, kind, padded.kinds[kind].lies[0], CROSSCUT)
            waste = root.children[-1] if root.children else root
    return root


def realise(padded: Padded, chosen: Sequence[Column]) -> Layout:
    """Make the sticks that were chosen; what is more than the demand is left off."""
    layout = Layout(padded, rules_of(padded))
    left = list(padded.demand)
    for board, counts in chosen:
        taken = tuple(min(c, n) for c, n in zip(counts, left, strict=True))
        left = [n - c for n, c in zip(left, taken, strict=True)]
        sheet = layout.open(padded.boards[board])
        sheet.root = stick_tree(padded, (board, taken))
        sheet.pieces = sum(taken)
        sheet.used = sum(c * kind.area for c, kind in zip(taken, padded.kinds, strict=True))
    return layout
