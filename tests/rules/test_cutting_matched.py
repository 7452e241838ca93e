"""Matched sets: granted where they cost nothing, refused with the price where they do."""

from __future__ import annotations

import random
from dataclasses import replace
from decimal import Decimal

import pytest

from solver.cutting.cutting_problem import CutPart, CutSheet, CuttingProblem
from solver.cutting.draw_cuts import X, Y
from solver.cutting.matched_sets import Matched, numbered, solve_matched
from solver.cutting.set_blocks import block, block_choices, in_rows
from solver.cutting.solve_sheets import solve_cutting
from solver.outcome import Limits, Status
from solver.plan.stocked import MatchedSet, Piece
from tests.cutting_checks import faults

PRICE = Decimal("65.00")


def parts(name: str, size: tuple[int, int], count: int, **more: object) -> list[CutPart]:
    made = [CutPart(f"{name}#{i}", *size, may_turn=False) for i in range(1, count + 1)]
    return [replace(part, **more) for part in made]  # type: ignore[arg-type]


def asked(
    listed: list[CutPart], size: tuple[int, int] = (1000, 500), **rules: object
) -> CuttingProblem:
    board = CutSheet("board", "ply", *size, PRICE)
    given = {"kerf": 3, **rules}
    return CuttingProblem(tuple(listed), (board,), **given)  # type: ignore[arg-type]


def pieces_of(found: Matched, one: MatchedSet) -> list[Piece]:
    """The set's pieces on the sheet that it names, in its order."""
    assert one.sheet is not None
    lying = {piece.part: piece for piece in found.answer.stock[one.sheet - 1].pieces}
    return [lying[part] for part in one.parts]


def corners(found: Matched) -> list[tuple[int, int]]:
    """Where the only set's pieces lie, from the first one's corner."""
    (one,) = found.sets
    row = pieces_of(found, one)
    return [(piece.x - row[0].x, piece.y - row[0].y) for piece in row]


def test_a_row_has_the_exact_size_of_its_parts_and_cuts() -> None:
    problem = asked([], kerf=3, margin=2)
    three = parts("a", (100, 40), 3)
    assert block(problem, three, X, "b").part == CutPart("b", 3 * 100 + 2 * 5, 40, may_turn=False)
    assert block(problem, three, Y, "b").part == CutPart("b", 100, 3 * 40 + 2 * 5, may_turn=False)
    assert in_rows(problem, three, 2, "b").part == CutPart("b", 205, 85, may_turn=False)


def test_a_set_that_just_fits_end_to_end_is_laid_so() -> None:
    listed = parts("shelf", (100, 60), 3, set="m")
    exact = asked(listed, (3 * 100 + 2 * 3, 60))
    found = solve_matched(exact, Limits())
    assert faults(exact, found.answer) == []
    assert corners(found) == [(0, 0), (103, 0), (206, 0)]
    assert (found.sets[0].granted, found.sets[0].laid) == (True, "along")


def test_a_set_a_tick_too_long_for_one_row_costs_a_sheet_or_cannot_be() -> None:
    listed = parts("shelf", (100, 60), 3, set="m")
    short = asked(listed, (3 * 100 + 2 * 3 - 1, 60))
    found = solve_matched(short, Limits())
    assert faults(short, found.answer) == []
    (one,) = found.sets
    assert (one.granted, one.sheet, one.costs) == (False, None, None)
    assert one.why == "no sheet takes all of them beside each other"


def test_a_set_lies_side_by_side_or_in_rows_where_it_is_too_long() -> None:
    listed = parts("shelf", (100, 60), 3, set="m")
    found = solve_matched(asked(listed, (150, 3 * 60 + 2 * 3)), Limits())
    assert corners(found) == [(0, 0), (0, 63), (0, 126)]
    found = solve_matched(asked(listed, (250, 150)), Limits())
    assert corners(found) == [(0, 0), (103, 0), (0, 63)]


def test_price_comes_first() -> None:
    # Two long parts and two of the set fill a sheet each only if the set is parted: a sheet of
    # 500 takes 300 + 3 + 190, but 190 + 3 + 190 leaves no room for a long part.
    listed = [*parts("long", (300, 50), 2), *parts("shelf", (190, 50), 2, set="m")]
    problem = asked(listed, (500, 50))
    found = solve_matched(problem, Limits())
    assert faults(problem, found.answer) == []
    assert (found.answer.count, found.answer.status) == (2, Status.OPTIMAL)
    (one,) = found.sets
    assert (one.granted, one.costs, one.more_sheets) == (False, PRICE, 1)
    # With room for one long part more the wish costs nothing.
    free = solve_matched(asked(listed, (606, 50)), Limits())
    assert (free.answer.count, free.sets[0].granted) == (2, True)


def test_without_prices_a_set_is_weighed_by_sheets() -> None:
    listed = [*parts("long", (300, 50), 2), *parts("shelf", (190, 50), 2, set="m")]
    problem = asked(listed, (500, 50))
    bare = replace(problem, sheets=(replace(problem.sheets[0], price=None),))
    (one,) = solve_matched(bare, Limits()).sets
    assert (one.granted, one.costs, one.more_sheets) == (False, None, 1)


def test_as_many_sets_are_granted_as_cost_nothing() -> None:
    # A sheet takes two of 190, or 300 and 190. Three sheets leave the long parts two of the
    # same set; with both sets whole they would lie alone, on four.
    listed = [
        *parts("long", (300, 50), 2),
        *parts("a", (190, 50), 2, set="a"),
        *parts("b", (190, 50), 2, set="b"),
    ]
    problem = asked(listed, (500, 50))
    found = solve_matched(problem, Limits())
    assert faults(problem, found.answer) == []
    assert found.answer.count == 3
    assert sorted(one.granted for one in found.sets) == [False, True]
    (refused,) = [one for one in found.sets if not one.granted]
    assert (refused.costs, refused.more_sheets) == (PRICE, 1)


def test_a_set_turns_together_and_only_if_all_may() -> None:
    turning = parts("shelf", (100, 60), 3, set="m", may_turn=True)
    tall = asked(turning, (60, 3 * 100 + 2 * 3))
    found = solve_matched(tall, Limits())
    assert faults(tall, found.answer) == []
    assert [piece.turned for piece in pieces_of(found, found.sets[0])] == [True] * 3
    assert (corners(found), found.sets[0].laid) == ([(0, 0), (0, 103), (0, 206)], "across")


def test_two_stages_take_a_set_end_to_end_in_one_strip() -> None:
    # Side by side the set would take less, but rips come first and there is no third cut.
    listed = [*parts("side", (500, 200), 2), *parts("shelf", (300, 60), 3, set="m")]
    for first, stages in (("rip", "2"), ("either", "2"), ("either", "3"), ("rip", "any")):
        problem = asked(listed, (1010, 500), stages=stages, first_cut=first)
        found = solve_matched(problem, Limits())
        assert faults(problem, found.answer) == []
        assert found.sets[0].granted
    assert [s.first_cut for s in found.answer.stock] == ["rip"]


def test_a_part_alone_is_granted_and_no_set_changes_nothing() -> None:
    listed = parts("a", (100, 60), 2)
    plain = asked(listed)
    assert solve_matched(plain, Limits()) == Matched(solve_cutting(plain, Limits()), ())
    alone = asked([replace(listed[0], set="m"), listed[1]])
    (one,) = solve_matched(alone, Limits()).sets
    assert (one.granted, one.sheet, one.parts) == (True, 1, ("a#1",))


def test_unlike_parts_are_trimmed_to_their_own_size() -> None:
    listed = [CutPart("a", 100, 60, may_turn=False, set="m"), CutPart("b", 90, 50, False, "m")]
    for margin in (0, 2):
        problem = asked(listed, (100 + 3 + 90 + 2 * margin, 60 + margin), margin=margin)
        found = solve_matched(problem, Limits())
        assert faults(problem, found.answer) == []
        assert corners(found) == [(0, 0), (103 + margin, 0)]


def test_sheets_of_several_materials_are_numbered_through() -> None:
    listed = parts("a", (100, 60), 2, set="m")
    found = solve_matched(asked(listed), Limits())
    assert [one.sheet for one in numbered([found, found])] == [1, 2]


def test_ways_are_only_those_that_some_sheet_takes() -> None:
    listed = parts("a", (100, 60), 4)
    assert [one.axis for one in block_choices(asked([], (1000, 60)), listed, "m")] == [X]
    assert [one.axis for one in block_choices(asked([], (100, 500)), listed, "m")] == [Y]
    assert block_choices(asked([], (200, 100)), listed, "m") == []


@pytest.mark.parametrize("seed", range(30))
def test_any_list_with_sets_can_be_cut_and_costs_no_more(seed: int) -> None:
    chance = random.Random(seed)
    listed = [
        part
        for i in range(chance.randint(2, 4))
        for part in parts(
            f"p{i}",
            (chance.randint(40, 300), chance.randint(20, 120)),
            chance.randint(1, 4),
            set=chance.choice([None, "m", "n"]),
            may_turn=chance.random() < 0.5,
        )
    ]
    problem = asked(
        listed,
        (600, 300),
        edge_trim=chance.choice([0, 5]),
        margin=chance.choice([0, 2]),
        stages=chance.choice(["2", "3", "any"]),
        first_cut=chance.choice(["rip", "crosscut", "either"]),
    )
    found = solve_matched(problem, Limits(work=0.5))
    assert faults(problem, found.answer) == []
    assert found.answer.cost <= solve_cutting(problem, Limits(work=0.5)).cost
    for one in found.sets:
        if one.granted:
            assert len({piece.turned for piece in pieces_of(found, one)}) == 1
