"""Every answer keeps to the rules and its bounds, and tiny lists get the true least."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.cutting.bounds import counts, ends, steps
from solver.cutting.padded import pad
from solver.cutting.problem import CuttingProblem
from solver.cutting.solve import solve_cutting
from solver.outcome import Limits, Status
from tests.cutting_checks import faults, fewest_rip_first, fewest_sheets, problem

QUICK = Limits(work=0.2)


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
    assert answer.sheet_bound <= least == answer.sheet_count


@pytest.mark.parametrize("seed", range(40))
def test_tiny_lists_get_the_fewest_two_stage_sheets(seed: int) -> None:
    chance = random.Random(1000 + seed)
    kerf = chance.randint(0, 1)
    parts = [(chance.randint(2, 7), chance.randint(2, 7), 1) for _ in range(chance.randint(3, 7))]
    asked = problem(parts, (10, 9), kerf=kerf, stages="2", first_cut="rip")
    answer = solve_cutting(asked, Limits())
    least = fewest_rip_first([(a, b) for a, b, _ in parts], (10, 9), kerf)
    assert answer.sheet_bound <= least == answer.sheet_count


@given(st.integers(2, 400), st.data())
def test_dual_feasible_functions_are_superadditive(whole: int, data: st.DataObject) -> None:
    x = data.draw(st.integers(0, whole))
    y = data.draw(st.integers(0, whole - x))
    unit = data.draw(st.integers(1, max(1, whole // 2)))
    for f in (steps(whole, data.draw(st.integers(1, 9))), ends(whole, unit), counts(whole, unit)):
        assert f(0) == 0
        assert f(x) + f(y) <= f(x + y)


@settings(max_examples=60, deadline=None)
@given(problems())
def test_optimal_is_said_only_where_the_bound_is_met(asked: CuttingProblem) -> None:
    answer = solve_cutting(asked, QUICK)
    met = answer.sheet_count == answer.sheet_bound
    assert (answer.status is Status.OPTIMAL) == met
    assert len(pad(asked).boards) == 1
