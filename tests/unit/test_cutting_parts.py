"""Pieces of the cutting engine by themselves."""

from __future__ import annotations

from decimal import Decimal

import pytest

from solver.cutting.cut_tree import CROSSCUT, RIP, WASTE, Node, cut_piece
from solver.cutting.cutting_problem import CutPart, CutSheet, CuttingProblem
from solver.cutting.dual_feasible_bounds import area_row, covering_rows, least_cover, lower_bounds
from solver.cutting.padded_sizes import pad
from solver.cutting.solve_sheets import solve_cutting
from solver.errors import CannotBeDoneError
from solver.outcome import Limits, Status, Stopper
from tests.cutting_checks import faults, problem


def test_the_areas_of_a_trees_leaves_add_up_to_the_sheet() -> None:
    root = Node(100, 50, 0, None)
    cut_piece(root, 0, (40, 20, False), RIP)
    for kind, lie in enumerate([(30, 10, False), (20, 12, False), (15, 5, False)], start=1):
        waste = next(
            n for n in root.leaves() if n.kind == WASTE and n.length >= lie[0] and n.width >= lie[1]
        )
        cut_piece(waste, kind, lie, CROSSCUT if waste.length > lie[0] else RIP)
    assert sum(leaf.length * leaf.width for leaf in root.leaves()) == 100 * 50


@pytest.mark.parametrize(
    ("costs", "mosts", "gaps", "least"),
    [
        ([10], [None], [([5], 11)], 30),  # three of 5 for 11
        ([10, 6], [None, None], [([4, 2], 6)], 16),  # one of each: 4 + 2
        ([10, 6], [1, None], [([4, 2], 10)], 28),  # one of 4, three of 2
        ([10, 6], [None, None], [([4, 2], 6), ([1, 0], 2)], 20),  # the second row wants two
        ([], [], [([], 1)], 0),
    ],
)
def test_the_cheapest_cover_by_hand(
    costs: list[int], mosts: list[int | None], gaps: list[tuple[list[int], int]], least: int
) -> None:
    assert least_cover(costs, mosts, gaps) == least


def test_parts_over_half_of_the_sheet_each_take_one_though_their_area_does_not() -> None:
    """Three 6 x 6 on 10 x 10: 108 of 300 by area, but no two lie beside each other."""
    padded = pad(problem([(6, 6, 3)], (10, 10)))
    assert lower_bounds(padded, [area_row(padded)])[1] == 2
    assert lower_bounds(padded, covering_rows(padded))[1] == 3


def test_a_part_that_may_turn_counts_its_smaller_product() -> None:
    """Two 4 x 10 that may turn share a 10 x 10 sheet; the bound must not say two."""
    asked = problem([(4, 10, 1), (10, 4, 1)], (10, 10), turn=True)
    answer = solve_cutting(asked, Limits())
    assert answer.count_bound == answer.count == 1


def test_no_parts_take_no_sheets() -> None:
    answer = solve_cutting(problem([], (10, 10)), Limits())
    assert (answer.stock, answer.cost, answer.status) == ((), Decimal("0.00"), Status.OPTIMAL)


def test_every_cut_is_numbered_and_trims_come_first() -> None:
    asked = problem([(40, 20, 3), (30, 30, 2)], (100, 70), kerf=2, edge_trim=3)
    for sheet in solve_cutting(asked, Limits()).stock:
        kinds = [cut.kind for cut in sheet.cuts]
        assert [cut.number for cut in sheet.cuts] == list(range(1, len(kinds) + 1))
        trims = kinds.count("trim")
        assert 2 <= trims <= 4
        assert kinds[:trims] == ["trim"] * trims


def test_all_parts_that_are_too_large_are_named_at_once() -> None:
    with pytest.raises(CannotBeDoneError) as caught:
        solve_cutting(problem([(200, 5, 1), (5, 80, 1), (5, 5, 1)], (100, 50)), Limits())
    lines = str(caught.value).splitlines()
    assert [line.split(" ")[0] for line in lines] == ["p0#0", "p1#0"]


def test_without_any_sheet_it_is_said_so() -> None:
    part = CutPart("p", 5, 5, may_turn=False)
    none = CutSheet("board", "ply", 10, 10, None, on_hand=0, limit=0)
    with pytest.raises(CannotBeDoneError, match="no sheet to cut from"):
        solve_cutting(CuttingProblem((part,), (none,), kerf=0), Limits())


def test_a_stopped_search_still_returns_whole_sheets() -> None:
    stopper = Stopper()
    stopper.stop()
    asked = problem([(7, 5, 9), (3, 8, 9)], (20, 20))
    answer = solve_cutting(asked, Limits(stopper=stopper))
    assert faults(asked, answer) == []


@pytest.mark.parametrize("stages", ["2", "any"])
def test_five_thousand_parts_are_cut_within_the_limit(stages: str) -> None:
    rows_ = [(300 + 40 * i, 200 + 30 * (i % 7), 250) for i in range(20)]
    asked = problem(rows_, (2440, 1220), turn=True, kerf=3, stages=stages)
    limits = Limits(seconds=90, work=0.5)
    answer = solve_cutting(asked, limits)
    assert limits.seconds_left > 0
    assert sum(len(sheet.pieces) for sheet in answer.stock) == 5000
    assert answer.count <= 1.25 * answer.count_bound
