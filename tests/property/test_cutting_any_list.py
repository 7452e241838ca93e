"""Every answer keeps to the rules and its bounds, and tiny lists get the true least."""

from __future__ import annotations

import random
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.cutting.cutting_problem import CuttingProblem
from solver.cutting.dual_feasible_bounds import (
    counting_function,
    rounding_function,
    threshold_function,
)
from solver.cutting.padded_sizes import pad
from solver.cutting.solve_sheets import solve_cutting
from solver.errors import CannotBeDoneError
from solver.outcome import Limits, Status
from tests.cutting_checks import faults, fewest_rip_first, fewest_sheets, problem

QUICK = Limits(work=0.2, seconds=3600)


@st.composite
def problems(draw: st.DrawFn) -> CuttingProblem:
    trim, margin = draw(st.integers(0, 3)), draw(st.integers(0, 2))
    size = st.integers(1, 30)
    parts = draw(st.lists(st.tuples(size, size, st.integers(1, 4)), min_size=1, max_size=7))
    length = draw(st.integers(30, 70)) + 2 * trim + margin
    width = draw(st.integers(30, 50)) + 2 * trim + margin
    return problem(
        parts,
        (length, width),
        turn=draw(st.booleans()),
        kerf=draw(st.integers(0, 4)),
        edge_trim=trim,
        margin=margin,
        stages=draw(st.sampled_from(["2", "3", "any"])),
        trimming=draw(st.booleans()),
        first_cut=draw(st.sampled_from(["rip", "crosscut", "either"])),
    )


@settings(max_examples=150, deadline=None)
@given(problems())
def test_every_answer_can_be_cut_as_asked(asked: CuttingProblem) -> None:
    assert faults(asked, solve_cutting(asked, QUICK)) == []


@settings(max_examples=40, deadline=None)
@given(problems())
def test_the_same_problem_gives_the_same_sheets(asked: CuttingProblem) -> None:
    first = solve_cutting(asked, Limits(work=0.2))
    assert first == solve_cutting(asked, Limits(work=0.2))


@pytest.mark.parametrize("seed", range(40))
def test_tiny_lists_get_the_fewest_sheets_that_exhaustive_cutting_finds(seed: int) -> None:
    chance = random.Random(seed)
    turn, kerf = chance.random() < 0.5, chance.randint(0, 1)
    parts = [(chance.randint(2, 7), chance.randint(2, 7), 1) for _ in range(chance.randint(3, 6))]
    answer = solve_cutting(problem(parts, (9, 8), turn=turn, kerf=kerf), Limits())
    least = fewest_sheets([(a, b, turn) for a, b, _ in parts], (9, 8), kerf)
    assert answer.count_bound <= least == answer.count


@pytest.mark.parametrize("seed", range(40))
def test_tiny_lists_get_the_fewest_two_stage_sheets(seed: int) -> None:
    chance = random.Random(1000 + seed)
    kerf = chance.randint(0, 1)
    parts = [(chance.randint(2, 7), chance.randint(2, 7), 1) for _ in range(chance.randint(3, 7))]
    asked = problem(parts, (10, 9), kerf=kerf, stages="2", first_cut="rip")
    answer = solve_cutting(asked, Limits())
    least = fewest_rip_first([(a, b) for a, b, _ in parts], (10, 9), kerf)
    assert answer.count_bound <= least == answer.count


@given(st.integers(2, 400), st.data())
def test_dual_feasible_functions_are_superadditive(whole: int, data: st.DataObject) -> None:
    x = data.draw(st.integers(0, whole))
    y = data.draw(st.integers(0, whole - x))
    unit = data.draw(st.integers(1, max(1, whole // 2)))
    for f in (
        rounding_function(whole, data.draw(st.integers(1, 9))),
        threshold_function(whole, unit),
        counting_function(whole, unit),
    ):
        assert f(0) == 0
        assert f(x) + f(y) <= f(x + y)


@settings(max_examples=60, deadline=None)
@given(problems())
def test_optimal_is_said_only_where_the_bound_is_met(asked: CuttingProblem) -> None:
    answer = solve_cutting(asked, QUICK)
    met = answer.count == answer.count_bound
    assert (answer.status is Status.OPTIMAL) == met
    assert len(pad(asked).boards) == 1


@st.composite
def stocked(draw: st.DrawFn) -> CuttingProblem:
    """Several sizes, some on hand, some limited, with and without prices."""
    asked = draw(problems())
    priced = draw(st.booleans())
    sheets = tuple(
        replace(
            asked.sheets[0],
            stock=f"board {i}",
            length=asked.sheets[0].length - draw(st.integers(0, 12)),
            price=Decimal(draw(st.integers(0, 40))) if priced else None,
            on_hand=draw(st.integers(0, 2)),
            limit=draw(st.none() | st.integers(0, 4)),
        )
        for i in range(draw(st.integers(1, 3)))
    )
    return replace(asked, sheets=sheets)


@settings(max_examples=150, deadline=None)
@given(stocked())
def test_any_stock_is_kept_to_or_the_reason_is_given(asked: CuttingProblem) -> None:
    answer, reason = None, ""
    try:
        answer = solve_cutting(asked, QUICK)
    except CannotBeDoneError as error:
        reason = str(error)
    if answer is None:
        limited = any(sheet.limit is not None for sheet in asked.sheets)
        assert "larger than every sheet" in reason or "no sheet to cut from" in reason or limited
        return
    assert faults(asked, answer) == []
    if answer.status is Status.OPTIMAL and answer.priced:
        assert answer.cost == answer.cost_bound


@settings(max_examples=40, deadline=None)
@given(stocked())
def test_taking_a_sheet_off_the_price_list_never_makes_it_cheaper_than_the_bound(
    asked: CuttingProblem,
) -> None:
    fewer = replace(asked, sheets=asked.sheets[:1])
    try:
        all_sizes, one_size = solve_cutting(asked, QUICK), solve_cutting(fewer, QUICK)
    except CannotBeDoneError:
        return
    if all_sizes.priced and one_size.priced:
        assert all_sizes.cost_bound <= one_size.cost
