"""Sticks against an integer program of another solver, and the rules on any list."""

from __future__ import annotations

import random
from decimal import Decimal

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from solver.cutting.cutting_problem import StickPart, StickProblem, StickStock
from solver.outcome import Limits, Status
from solver.sticks.solve_sticks import solve_sticks


def asked(lengths: list[int], stocks: list[tuple[int, int]], kerf: int) -> StickProblem:
    """Pieces, and sticks as (length, price in whole units)."""
    return StickProblem(
        tuple(StickPart(f"p{i}", length) for i, length in enumerate(lengths)),
        tuple(StickStock(f"s{n}", n, Decimal(price)) for n, price in stocks),
        kerf,
    )


def least_cost(lengths: list[int], stocks: list[tuple[int, int]], kerf: int) -> int:
    """Least price by assigning every piece to a stick, with scipy's own integer solver."""
    slots = [stock for stock in stocks for _ in lengths]
    n, m = len(lengths), len(slots)
    cost = np.concatenate([np.zeros(n * m), [price for _, price in slots]])
    rows: list[np.ndarray[tuple[int], np.dtype[np.float64]]] = []
    low: list[float] = []
    high: list[float] = []
    for i in range(n):
        row = np.zeros(n * m + m)
        row[i * m : (i + 1) * m] = 1
        rows, low, high = [*rows, row], [*low, 1], [*high, 1]
    for j, (size, _) in enumerate(slots):
        row = np.zeros(n * m + m)
        for i, length in enumerate(lengths):
            row[i * m + j] = length + kerf
        row[n * m + j] = -(size + kerf)
        rows, low, high = [*rows, row], [*low, -np.inf], [*high, 0]
    found = milp(
        cost,
        integrality=np.ones(n * m + m),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(np.array(rows), low, high),
    )
    assert found.success
    least: int = round(found.fun)
    return least


@pytest.mark.parametrize("seed", range(25))
def test_the_price_is_that_of_an_integer_program(seed: int) -> None:
    chance = random.Random(seed)
    lengths = [chance.randint(10, 70) for _ in range(chance.randint(3, 7))]
    stocks = [(96, 10), (chance.choice((72, 120)), chance.choice((7, 8, 12, 13)))]
    kerf = chance.randint(0, 2)
    answer = solve_sticks(asked(lengths, stocks, kerf), Limits())
    assert answer.cost == least_cost(lengths, stocks, kerf)
    assert answer.cost_bound <= answer.cost
    assert (answer.status is Status.OPTIMAL) == (answer.cost_bound == answer.cost)


@settings(max_examples=80, deadline=None)
@given(
    st.lists(st.integers(1, 90), min_size=1, max_size=25),
    st.integers(0, 5),
    st.booleans(),
)
def test_pieces_lie_on_their_sticks_a_kerf_apart(lengths: list[int], kerf: int, two: bool) -> None:
    stocks = [(100, 10), (90, 9)] if two else [(100, 10)]
    answer = solve_sticks(asked(lengths, stocks, kerf), Limits(work=0.5))
    pieces = [piece for stick in answer.stock for piece in stick.pieces]
    assert sorted(p.part for p in pieces) == sorted(f"p{i}" for i in range(len(lengths)))
    for stick in answer.stock:
        ends = 0
        for number, piece in enumerate(stick.pieces):
            assert piece.length == lengths[int(piece.part[1:])]
            assert piece.start == ends + (kerf if number else 0)
            ends = piece.start + piece.length
        assert ends <= stick.length
    assert answer.count_bound <= answer.count == len(answer.stock)
