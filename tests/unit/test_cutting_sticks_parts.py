"""The pieces of the search for sticks: fronts, rents, goals, exact choice, tidying."""

from __future__ import annotations

import random
from decimal import Decimal
from fractions import Fraction
from itertools import product

import pytest

from solver.cutting.cutting_problem import StickPart, StickProblem, StickStock
from solver.cutting.padded_sizes import PaddedProblem, pad_sticks
from solver.outcome import Limits
from solver.sticks.column_generation import ColumnGeneration, Knapsack, farley_bound
from solver.sticks.diving import Chooser, whole_cost
from solver.sticks.solve_sticks import tidied
from solver.sticks.stick_search import everything, goals
from solver.sticks.stick_state import best_fit


def padded(lengths: list[int], *sticks: StickStock) -> PaddedProblem:
    pieces = tuple(StickPart(f"p{i}", length) for i, length in enumerate(lengths))
    return pad_sticks(StickProblem(pieces, sticks, kerf=0))


def sold(length: int, price: int, limit: int | None = None) -> StickStock:
    return StickStock(f"{length}", length, Decimal(price) / 100, limit=limit)


@pytest.mark.parametrize("seed", range(20))
def test_the_knapsack_finds_what_trying_everything_finds(seed: int) -> None:
    chance = random.Random(seed)
    lengths = [chance.randint(1, 9) for _ in range(chance.randint(1, 9))]
    asked = padded(lengths, sold(chance.randint(9, 25), 1))
    values = [chance.randint(0, 9) for _ in asked.kinds]
    knapsack = Knapsack(asked)
    assert knapsack.price(values, asked.demand)
    sizes = [kind.lies[0][0] for kind in asked.kinds]

    def total(counts: tuple[int, ...], what: list[int]) -> int:
        return sum(n * each for n, each in zip(counts, what, strict=True))

    every = [
        counts
        for counts in product(*(range(n + 1) for n in asked.demand))
        if total(counts, sizes) <= asked.boards[0].length
    ]
    most = max(total(counts, values) for counts in every)
    value, counts = knapsack.best(0)
    assert (value, total(counts, values)) == (most, most)
    assert counts in every
    wanted = {(0, c) for c in every if total(c, values) >= most - 2 and any(c)}
    found = knapsack.worth(0, most - 2, 10_000)
    assert found is not None
    assert set(found) == wanted
    assert len(found) == len(wanted)


def test_more_patterns_than_asked_for_are_no_list_at_all() -> None:
    asked = padded([1, 2, 3, 4, 5], sold(20, 1))
    knapsack = Knapsack(asked)
    knapsack.price([1] * 5, asked.demand)
    assert knapsack.worth(0, 0, 2**5 - 1) is None
    found = knapsack.worth(0, 0, 2**5)
    assert found is not None
    assert len(found) == 2**5 - 1  # the empty stick is none


def test_prices_of_the_kinds_prove_a_bound_with_prices_for_limited_stock() -> None:
    """Three pieces of 5 on sticks of 5 at 4 (one only) and of 10 at 10: 4 + 10."""
    asked = padded([5, 5, 5], sold(5, 4, limit=1), sold(10, 10))
    mosts = [board.most for board in asked.boards]
    tops = [5 if board.length == 5 else 10 for board in asked.boards]
    proof = farley_bound(asked.boards, mosts, asked.demand, [5], tops)
    # Worth 15 at a rate of 10 / 10; the short stick is worth 5 for 4, so its stock price is 1.
    assert proof.bound == Fraction(15 - 1)
    assert sorted(proof.stock_prices) == [0, 1]
    assert proof.least(asked.boards, 14) == tops  # an answer for 14 may waste nothing
    assert proof.least(asked.boards, 16) == [top - 2 for top in tops]


def test_goals_are_the_choices_that_are_better_and_long_enough() -> None:
    """23 units of length, from 10 for 10 and 15 for 14: 25 for 24 and 30 for 28 or 30."""
    asked = padded([8, 8, 7], sold(10, 10), sold(15, 14))
    found = goals(asked, cost_least=0, count_least=0, better_than=(30, 3))
    assert found is not None
    assert [(goal.cost, goal.count) for goal in found] == [(24, 2), (28, 2)]
    assert goals(asked, cost_least=25, count_least=0, better_than=(30, 3)) == found[1:]
    assert everything(asked).numbers == (3, 3)


def test_an_exact_choice_says_that_there_is_none() -> None:
    asked = padded([6, 6, 6], sold(12, 1))
    two = [(0, (2,)), (0, (1,))]
    found = Chooser(asked, two, asked.demand).least(whole_cost(asked), 100, Limits())
    assert (sorted(found.columns or []), found.settled) == (sorted(two), True)
    chooser = Chooser(asked, two, asked.demand)
    chooser.at_most(whole_cost(asked), 1)
    none = chooser.least(whole_cost(asked), 100, Limits())
    assert (none.columns, none.settled) == (None, True)


def test_the_linear_program_bounds_by_patterns_not_by_length() -> None:
    """Five pieces of 6 on sticks of 10 are one to a stick: 5, where length alone says 3."""
    asked = padded([6] * 5, sold(10, 1))
    generator = ColumnGeneration(asked, (), Knapsack(asked))
    assert generator.solve(asked.demand, 100, Limits()) == 5


def test_best_fit_fills_what_is_open_before_it_takes_a_stick() -> None:
    asked = padded([7, 6, 4, 3], sold(10, 1))
    columns, over = best_fit(asked, 0)
    assert over == []
    assert sorted(columns) == [(0, (0, 1, 1, 0)), (0, (1, 0, 0, 1))]


def test_alike_pieces_come_together_and_the_largest_offcut_grows() -> None:
    """On sticks of 12, 4 + 3 and 4 + 3: two of 4 on one and two of 3 on the other."""
    asked = padded([4, 4, 3, 3], sold(12, 1))
    mixed = [(0, (1, 1)), (0, (1, 1))]
    assert sorted(tidied(asked, mixed, Limits())) == [(0, (0, 2)), (0, (2, 0))]


def test_tidying_keeps_pieces_and_sticks() -> None:
    chance = random.Random(1)
    asked = padded([chance.randint(5, 40) for _ in range(40)], sold(96, 1))
    columns, _ = best_fit(asked, 0)
    found = tidied(asked, columns, Limits())
    assert len(found) <= len(columns)
    assert [sum(n) for n in zip(*(counts for _, counts in found), strict=True)] == asked.demand
    sizes = [kind.lies[0][0] for kind in asked.kinds]
    used = [sum(n * s for n, s in zip(counts, sizes, strict=True)) for _, counts in found]
    assert max(used) <= 96
    kinds_on = sum(sum(n > 0 for n in counts) for _, counts in found)
    assert kinds_on <= sum(sum(n > 0 for n in counts) for _, counts in columns)
