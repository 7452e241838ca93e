"""Trees of cuts made simple: fewer cuts, never more stages, the same pieces."""

from __future__ import annotations

from solver.cutting.cut_tree import CROSSCUT, INNER, RIP, Node
from solver.cutting.draw_cuts import Slice, straightened
from tests.cutting_checks import problem
from tests.sequences import a_shop, cut_plan


def leaf(kind: int, length: int, width: int, parent: Node) -> Node:
    node = Node(length, width, parent.level + 1, parent)
    node.kind = kind
    parent.children.append(node)
    return node


def inner(split: int, length: int, width: int, parent: Node | None = None) -> Node:
    node = Node(length, width, 0 if parent is None else parent.level + 1, parent)
    node.kind, node.split = INNER, split
    if parent is not None:
        parent.children.append(node)
    return node


def shape(part: Slice) -> object:
    """Kinds of the pieces, nested as they are cut."""
    return part.kind if part.kind != INNER else tuple(shape(one) for one in part.parts)


def test_blocks_that_are_divided_alike_become_strips() -> None:
    """Three blocks of two rows side by side: two strips of three parts."""
    root = inner(RIP, 100, 50)
    strip = inner(CROSSCUT, 100, 20, root)
    for kind in range(3):
        block = inner(RIP, 30, 20, strip)
        leaf(kind, 30, 10, block)
        leaf(kind, 30, 10, block)
    made = straightened(root)
    assert shape(made) == ((0, 1, 2), (0, 1, 2))
    assert made.size == (90, 20)


def test_blocks_with_other_rows_stay_blocks() -> None:
    root = inner(RIP, 100, 50)
    strip = inner(CROSSCUT, 100, 20, root)
    for rows in ((10, 10), (12, 8)):
        block = inner(RIP, 30, 20, strip)
        for row in rows:
            leaf(row, 30, row, block)
    assert shape(straightened(root)) == (((10, 10), (12, 8)),)


def test_a_block_with_fewer_rows_shares_those_that_it_has() -> None:
    """Top with the toe beside it, and bottom: one strip for top and bottom, one for the toe."""
    root = inner(RIP, 100, 50)
    strip = inner(CROSSCUT, 100, 16, root)
    block = inner(RIP, 38, 16, strip)
    leaf(0, 38, 12, block)
    leaf(1, 38, 4, block)
    other = inner(RIP, 38, 16, strip)
    leaf(2, 38, 12, other)
    leaf(-1, 38, 4, other)
    assert shape(straightened(root)) == ((0, 2), (1,))


def test_slices_shrink_to_what_lies_in_them() -> None:
    """A strip of 20 with pieces of 12 and 9 needs 12 only."""
    root = inner(RIP, 100, 50)
    strip = inner(CROSSCUT, 100, 20, root)
    for kind, width in enumerate((12, 9)):
        block = inner(RIP, 30, 20, strip)
        leaf(kind, 30, width, block)
        leaf(-1, 30, 20 - width, block)
    leaf(-1, 100, 30, root)
    made = straightened(root)
    assert made.size == (60, 12)
    assert shape(made) == ((0, (1,)),)


def test_a_strip_with_one_part_is_still_cut_off_the_sheet() -> None:
    root = inner(RIP, 100, 50)
    strip = inner(CROSSCUT, 100, 20, root)
    leaf(0, 30, 20, strip)
    leaf(-1, 70, 20, strip)
    assert shape(straightened(root)) == ((0,),)


def test_two_rows_of_three_shelves_take_two_rips_and_one_stop() -> None:
    asked = problem([(764, 300, 6)], (2440, 1220), kerf=3, first_cut="rip")
    (sheet,) = cut_plan(asked, a_shop(asked)).sheets or ()
    rips = [cut for cut in sheet.cuts if cut.direction == "rip"]
    ends = [cut for cut in sheet.cuts if cut.direction == "crosscut"]
    assert {cut.setting for cut in rips} == {300}
    assert {cut.setting for cut in ends} == {764}
    assert (len(rips), len(ends)) == (2, 6)
