"""The judge of the cutting tests itself: each fault that is put in is found."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from solver.cutting.cutting_answer import SheetAnswer
from solver.cutting.solve_sheets import solve_cutting
from solver.outcome import Limits
from solver.plan.stocked import Sheet
from tests.cutting_checks import can_cut, faults, fewest_rip_first, fewest_sheets, problem

ASKED = problem([(40, 20, 3), (30, 30, 2)], (100, 70), kerf=2, edge_trim=3)
GOOD = solve_cutting(ASKED, Limits())


def with_piece(index: int, **change: Any) -> SheetAnswer:
    first, *rest = GOOD.stock
    pieces = list(first.pieces)
    pieces[index] = pieces[index].model_copy(update=change)
    changed: Sheet = first.model_copy(update={"pieces": tuple(pieces)})
    return replace(GOOD, stock=(changed, *rest))


def test_a_good_answer_has_no_faults() -> None:
    assert faults(ASKED, GOOD) == []


@pytest.mark.parametrize(
    ("bad", "says"),
    [
        (with_piece(0, x=2), "sheet 0: outside the trimmed sheet"),
        (with_piece(1, x=GOOD.stock[0].pieces[0].x, y=GOOD.stock[0].pieces[0].y), "apart"),
        (with_piece(0, length=39), "size or direction"),
        (with_piece(0, turned=True), "size or direction"),
        (with_piece(0, part="p9#9"), "each part once"),
        (replace(GOOD, count=GOOD.count + 1), "count"),
        (replace(GOOD, count_bound=GOOD.count + 1), "bound on the count"),
    ],
)
def test_a_fault_is_found(bad: SheetAnswer, says: str) -> None:
    assert any(says in fault for fault in faults(ASKED, bad))


PINWHEEL = [(0, 0, 5, 3), (5, 0, 8, 5), (3, 5, 8, 8), (0, 3, 3, 8)]
STACK = [(0, 0, 6, 4), (6, 0, 10, 2), (6, 2, 10, 4)]


def test_a_pinwheel_cannot_be_cut_and_three_stages_take_a_stack() -> None:
    assert not can_cut(PINWHEEL, 0, 0, "any")
    assert not can_cut(STACK, 0, 1, "2")
    assert can_cut(STACK, 0, 1, "3")
    assert can_cut(STACK, 0, 1, "any")
    assert not can_cut([*STACK[:2], (6, 2, 9, 4)], 0, 1, "3")


def test_exhaustive_cutting_by_hand() -> None:
    assert fewest_sheets([(5, 3, False), (3, 5, False)] * 2, (8, 8), 0) == 2
    assert fewest_sheets([(5, 3, True)] * 4, (10, 6), 0) == 1
    assert fewest_sheets([(5, 3, True)] * 4, (10, 6), 1) == 2
    assert fewest_rip_first([(6, 4), (4, 2), (4, 2)], (10, 4), 0) == 2
    assert fewest_rip_first([(6, 4), (4, 2)], (10, 4), 0) == 1
