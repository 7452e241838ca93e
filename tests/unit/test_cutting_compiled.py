"""The compiled search: the same rules as the plain ones, and trees that stay whole."""

from __future__ import annotations

from collections import Counter
from random import Random

import pytest

from solver.cutting.constructive_cutting import ORDERS, StockOrder, build_layout, sorted_kinds
from solver.cutting.cut_tree import INNER, WASTE, Layout, Node, rules_of
from solver.cutting.goal_search import race
from solver.cutting.padded_sizes import PaddedProblem, pad
from solver.cutting.ruin_and_recreate import Attempt
from solver.cutting.solve_sheets import solve_cutting
from solver.outcome import Limits
from tests.cutting_checks import faults, problem

ROOM = (90_001, 50_003)


def drawn(seed: int, **rules: object) -> PaddedProblem:
    """Some parts of odd sizes, so that no two places are worth the same."""
    chance = Random(seed)
    parts = [
        (chance.randint(9_000, 60_000), chance.randint(7_000, 40_000), chance.randint(1, 3))
        for _ in range(9)
    ]
    return pad(problem(parts, ROOM, turn=seed % 2 == 1, **rules))  # type: ignore[arg-type]


def held(layout: Layout) -> list[list[int]]:
    """What lies on each sheet."""
    return [sorted(piece.kind for piece in sheet.root.pieces()) for sheet in layout.sheets]


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("stages", ["2", "3", "any"])
def test_the_first_step_places_parts_as_the_plain_rule_does(seed: int, stages: str) -> None:
    padded = drawn(seed, stages=stages)
    order = sorted_kinds(padded, ORDERS[seed % len(ORDERS)])
    plain = build_layout(padded, rules_of(padded), order, StockOrder(((padded.boards[0], None),)))
    assert isinstance(plain, Layout)
    attempt = Attempt(padded, [padded.boards[0]] * len(plain.sheets), seed)
    attempt.run(0, 1, 1)
    assert attempt.solved
    assert held(attempt.layout()) == held(plain)


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("stages", ["2", "3", "any"])
def test_trees_stay_whole_however_often_pieces_come_off(seed: int, stages: str) -> None:
    padded = drawn(seed, stages=stages)
    attempt = Attempt(padded, [padded.boards[0]] * 2, seed)
    attempt.run(0, 50_000, 50_000)
    layout, left = attempt.layout(), Counter(attempt.left)
    placed = Counter(kind for sheet in held(layout) for kind in sheet)
    assert placed + left == Counter(dict(enumerate(padded.demand)))
    for sheet in layout.sheets:
        check(sheet.root, padded)
        assert sum(leaf.length * leaf.width for leaf in sheet.root.leaves()) == sheet.board.area


def check(node: Node, padded: PaddedProblem) -> None:
    """Children fill their parent exactly; pieces are as large as their kind says."""
    if node.kind >= 0:
        lies = {(a, b, turned) for a, b, turned in padded.kinds[node.kind].lies}
        assert (node.length, node.width, node.turned) in lies
    if node.kind not in (INNER, WASTE):
        return
    for child in node.children:
        along, across = (node.split != 0), (node.split == 0)
        assert across or child.width == node.width
        assert along or child.length == node.length
        check(child, padded)


def test_a_goal_is_reached_that_no_rule_of_thumb_finds() -> None:
    # Eight strips cut from two sheets in a way that only fits exactly.
    parts = [(60, 30, 2), (40, 30, 2), (70, 20, 2), (30, 20, 2)]
    padded = pad(problem(parts, (100, 50)))
    layout, _ = race(padded, [padded.boards[0]] * 2, 200_000, 1, Limits())
    assert layout is not None
    assert sum(map(len, held(layout))) == 8
    assert len(layout.sheets) == 2


def test_the_same_seed_gives_the_same_sheets() -> None:
    padded = drawn(4)
    boards = [padded.boards[0]] * 4
    one, spent = race(padded, boards, 300_000, 7, Limits())
    other, again = race(padded, boards, 300_000, 7, Limits())
    assert one is not None
    assert other is not None
    assert (held(one), spent) == (held(other), again)


def test_what_a_search_leaves_over_goes_on_more_sheets() -> None:
    padded = pad(problem([(60, 40, 5)], (100, 50)))
    layout, _ = race(padded, [padded.boards[0]] * 3, 10_000, 1, Limits())
    assert layout is not None
    assert held(layout) == [[0]] * 5


def test_crosscuts_come_first_where_they_are_asked_for() -> None:
    parts = [(1, 1, 1), (2, 14, 4), (7, 1, 4)]
    asked = problem(
        parts, (31, 31), turn=True, kerf=3, margin=1, stages="any", first_cut="crosscut"
    )
    answer = solve_cutting(asked, Limits())
    assert faults(asked, answer) == []
