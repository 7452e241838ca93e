"""Bounds are never above the least that trying everything finds, for every kind of pattern."""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import replace
from decimal import Decimal
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.cutting.better_scales import mixed_scale_rows
from solver.cutting.cutting_problem import CutPart, CutSheet, CuttingProblem
from solver.cutting.dual_feasible_bounds import Row, covering_rows, lower_bounds
from solver.cutting.padded_sizes import PaddedProblem, pad
from solver.cutting.refute import Refuter, patterns_for
from solver.cutting.solve_sheets import solve_cutting
from solver.cutting.strip_knapsack import SideKnapsack
from solver.outcome import Limits, Status
from tests.cutting_brute import least_cost
from tests.cutting_checks import faults, problem

RULES = list(product(("2", "3", "any"), ("rip", "crosscut", "either"), (False, True)))


def tiny(seed: int, stages: str, first_cut: str, turn: bool) -> CuttingProblem:
    chance = random.Random(f"{seed} {stages} {first_cut} {turn}")
    size = chance.randint(7, 14), chance.randint(6, 12)
    parts = [
        (chance.randint(2, min(8, size[0])), chance.randint(2, min(8, size[1])), count)
        for count in (2, 1, 2)
    ]
    kerf = chance.randint(0, 1)
    asked = problem(parts, size, turn=turn, kerf=kerf, stages=stages, first_cut=first_cut)
    return asked if turn or chance.random() < 0.5 else replace(asked, parts=asked.parts[:4])


def all_rows(padded: PaddedProblem) -> list[Row]:
    return covering_rows(padded) + mixed_scale_rows(padded, 10**7, lambda row: False)


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize(("stages", "first_cut", "turn"), RULES)
def test_one_size_of_sheet(seed: int, stages: str, first_cut: str, turn: bool) -> None:
    asked = tiny(seed, stages, first_cut, turn)
    padded = pad(asked)
    least = least_cost(asked, [1])
    found = all_rows(padded)
    assert lower_bounds(padded, found)[1] <= least
    refuter = Refuter(padded, patterns_for(padded, found, 10**8), [])
    assert refuter.refuted({0: least - 1}, Limits()) or least == 1
    assert not refuter.refuted({0: least}, Limits())
    assert refuter.filled is not None


@pytest.mark.parametrize("seed", range(2))
@pytest.mark.parametrize(("stages", "first_cut", "turn"), RULES)
def test_two_sizes_of_sheet(seed: int, stages: str, first_cut: str, turn: bool) -> None:
    asked = tiny(100 + seed, stages, first_cut, turn)
    chance = random.Random(seed)
    other = replace(asked.sheets[0], stock="other", length=asked.sheets[0].length + 3)
    prices = [chance.randint(4, 9), chance.randint(7, 12)]
    sheets = [
        replace(sheet, price=Decimal(price))
        for sheet, price in zip((asked.sheets[0], other), prices, strict=True)
    ]
    asked = replace(asked, sheets=tuple(sheets))
    answer = solve_cutting(asked, Limits())
    least = least_cost(asked, prices)
    assert faults(asked, answer) == []
    assert answer.cost_bound <= least <= answer.cost
    assert (answer.status is Status.OPTIMAL) == (answer.cost_bound == answer.cost)


@st.composite
def answered(draw: st.DrawFn) -> CuttingProblem:
    """Lists with trim and margin, too long to try everything."""
    trim, margin = draw(st.integers(0, 3)), draw(st.integers(0, 2))
    side = st.integers(3, 30)
    rows_ = draw(st.lists(st.tuples(side, side, st.integers(1, 4)), min_size=1, max_size=7))
    turns = draw(st.lists(st.booleans(), min_size=7, max_size=7))
    parts = tuple(
        CutPart(f"{i}#{j}", a, b, turns[i]) for i, (a, b, n) in enumerate(rows_) for j in range(n)
    )
    size = draw(st.integers(30, 70)) + 2 * trim + margin, draw(st.integers(30, 50)) + 2 * trim
    return CuttingProblem(
        parts,
        (CutSheet("board", "ply", size[0], size[1] + margin, None),),
        kerf=draw(st.integers(0, 4)),
        edge_trim=trim,
        margin=margin,
        stages=draw(st.sampled_from(["2", "3", "any"])),
        first_cut=draw(st.sampled_from(["rip", "crosscut", "either"])),
    )


@settings(max_examples=100, deadline=None)
@given(answered())
def test_no_answer_is_refuted(asked: CuttingProblem) -> None:
    answer = solve_cutting(asked, Limits(work=0.2))
    padded = pad(asked)
    found = all_rows(padded)
    assert lower_bounds(padded, found)[1] <= answer.count
    refuter = Refuter(padded, patterns_for(padded, found, 10**8), [])
    assert not refuter.refuted({0: answer.count}, Limits())
    held = Counter(len(sheet.pieces) for sheet in answer.stock)
    assert sum(n * count for n, count in held.items()) == padded.part_count


@settings(deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(1, 9), st.integers(1, 3), st.integers(0, 9)), max_size=5, min_size=1
    ),
    st.integers(1, 20),
)
def test_the_knapsack_of_a_line_is_the_best_of_all_choices(
    listed: list[tuple[int, int, int]], room: int
) -> None:
    sizes, counts, values = (list(column) for column in zip(*listed, strict=True))
    line = SideKnapsack(sizes, counts, [room, room // 2 + 1])

    def most(length: int) -> int:
        worths: list[int] = [
            sum(n * v for n, v in zip(taken, values, strict=True))
            for taken in product(*(range(n + 1) for n in counts))
            if sum(n * s for n, s in zip(taken, sizes, strict=True)) <= length
        ]
        return max(worths)

    assert line.most(values) == [most(room), most(room // 2 + 1)]
    worth, taken = line.best([float(v) for v in values])
    assert worth == (most(max(room, room // 2 + 1)))
    assert sum(n * v for n, v in zip(taken, values, strict=True)) == worth
