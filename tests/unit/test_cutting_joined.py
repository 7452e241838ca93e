"""Blocks joined edge to edge are drawn as the sheet they are cut from."""

from __future__ import annotations

from solver.cutting.cut_tree import CROSSCUT, INNER, RIP, WASTE, Node
from solver.cutting.padded_sizes import Board
from solver.cutting.pricing_problem import Block, joined, piece, sheet_tree

BOARD = Board(length=10, width=8, cost=1, most=None, source=0, free=False)
LONG, SMALL = piece(0, (6, 3, False)), piece(1, (4, 2, True))


def area(node: Node) -> int:
    return node.length * node.width


def test_joined_blocks_add_up_along_and_take_the_largest_across() -> None:
    beside = joined([LONG, SMALL], CROSSCUT)
    assert (beside.length, beside.width) == (6 + 4, 3)
    above = joined([beside, LONG], RIP)
    assert (above.length, above.width) == (10, 3 + 3)


def test_blocks_joined_twice_the_same_way_are_one_row() -> None:
    row = joined([joined([LONG, SMALL], RIP), SMALL], RIP)
    assert row.children == (LONG, SMALL, SMALL)


def drawn(block: Block, first: int | None) -> Node:
    root = sheet_tree(block, BOARD, first)
    assert root is not None
    return root


def test_pieces_and_waste_fill_the_sheet() -> None:
    block = joined([joined([LONG, SMALL], CROSSCUT), LONG], RIP)
    root = drawn(block, None)
    assert [(p.kind, p.length, p.width, p.turned) for p in reversed(root.pieces())] == [
        (0, 6, 3, False),
        (1, 4, 2, True),
        (0, 6, 3, False),
    ]
    assert sum(area(leaf) for leaf in root.leaves()) == area(root)
    assert all(leaf.kind == WASTE or leaf.kind >= 0 for leaf in root.leaves())


def test_the_first_cut_goes_as_asked() -> None:
    row = joined([LONG, SMALL], CROSSCUT)
    assert drawn(row, None).split == CROSSCUT
    root = drawn(row, RIP)
    assert root.split == RIP
    strip = root.children[0]
    assert (strip.kind, strip.split, strip.width) == (INNER, CROSSCUT, 3)


def test_a_block_larger_than_the_board_is_not_drawn() -> None:
    assert sheet_tree(joined([LONG, LONG], CROSSCUT), BOARD, None) is None
