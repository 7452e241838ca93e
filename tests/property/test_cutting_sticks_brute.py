"""Sticks against trying everything: several lengths with prices, few of them, offcuts on hand."""

from __future__ import annotations

import random
from dataclasses import replace
from decimal import Decimal
from functools import cache
from itertools import combinations

import pytest

from solver.cutting.cutting_answer import StickAnswer
from solver.cutting.cutting_problem import StickPart, StickProblem, StickStock
from solver.errors import CannotBeDoneError
from solver.outcome import Limits, Status
from solver.sticks.solve_sticks import solve_sticks
from tests.stick_checks import stick_faults

Least = tuple[int, int] | None
"""(price, sticks to buy); None where the stock does not do."""


def drawn(seed: int) -> StickProblem:
    """Up to six pieces, two or three lengths, some of them limited, some on hand."""
    chance = random.Random(seed)
    sticks = tuple(
        StickStock(
            f"s{i}",
            chance.randint(30, 100),
            Decimal(chance.randint(3, 12)),
            on_hand=chance.choice((0, 0, 1)),
            limit=chance.choice((None, None, 0, 1, 2)),
        )
        for i in range(chance.randint(2, 3))
    )
    longest = max(stick.length for stick in sticks)
    lengths = [chance.randint(5, longest) for _ in range(chance.randint(1, 6))]
    pieces = tuple(StickPart(f"p{i}", length) for i, length in enumerate(lengths))
    return StickProblem(pieces, sticks, kerf=chance.randint(0, 3), unit="mm")


def least(problem: StickProblem) -> Least:
    """Try every subset of what is left on every stick that there still is."""
    kinds = [(s, s.on_hand, True) for s in problem.sticks]
    kinds += [
        (s, len(problem.pieces) if s.limit is None else s.limit, False) for s in problem.sticks
    ]

    @cache
    def need(left: frozenset[int], stock: tuple[int, ...]) -> Least:
        if not left:
            return 0, 0
        first, *rest = sorted(left)
        best: Least = None
        for size in range(len(rest) + 1):
            for others in combinations(rest, size):
                some = (first, *others)
                used = sum(problem.pieces[i].length for i in some) + problem.kerf * size
                for at, (stick, _, free) in enumerate(kinds):
                    if stock[at] == 0 or used > stick.length:
                        continue
                    after = tuple(n - (i == at) for i, n in enumerate(stock))
                    then = need(left - set(some), after)
                    if then is not None:
                        paid = 0 if free else int(stick.price or 0)
                        total = paid + then[0], (not free) + then[1]
                        best = total if best is None else min(best, total)
        return best

    return need(frozenset(range(len(problem.pieces))), tuple(n for _, n, _ in kinds))


@pytest.mark.parametrize("seed", range(150))
def test_price_and_number_are_the_least_of_all_there_are(seed: int) -> None:
    problem = drawn(seed)
    wanted = least(problem)
    if wanted is None:
        with pytest.raises(CannotBeDoneError):
            solve_sticks(problem, Limits())
        return
    answer = solve_sticks(problem, Limits())
    assert stick_faults(problem, answer) == []
    assert (answer.cost, answer.count) == (Decimal(wanted[0]), wanted[1])
    assert answer.cost_bound == answer.cost
    assert answer.status is Status.OPTIMAL


@pytest.mark.parametrize("seed", range(0, 150, 10))
def test_a_kerf_wider_never_costs_less_and_a_longer_stick_never_more(seed: int) -> None:
    problem = drawn(seed)
    found = cost(problem)
    wider = cost(replace(problem, kerf=problem.kerf + 1))
    longer = tuple(replace(stick, length=stick.length + 1) for stick in problem.sticks)
    assert found <= wider
    assert cost(replace(problem, sticks=longer)) <= found


def cost(problem: StickProblem) -> Decimal:
    """What it costs; without end where it cannot be done."""
    try:
        return solve_sticks(problem, Limits()).cost
    except CannotBeDoneError:
        return Decimal("Infinity")


@pytest.mark.parametrize("seed", range(5))
def test_the_same_list_gives_the_same_sticks(seed: int) -> None:
    """Sixty pieces from 1 to 800 on 1000, as in the hard lists: by the exact choice too."""
    chance = random.Random(seed)
    lengths = [chance.randint(1, 800) for _ in range(60)]
    pieces = tuple(StickPart(f"p{i}", length) for i, length in enumerate(lengths))
    asked = StickProblem(pieces, (StickStock("s", 1000, None),), kerf=0)

    def solved() -> StickAnswer:
        return solve_sticks(asked, Limits(work=0.5))

    first = solved()
    assert first == solved()
    assert stick_faults(asked, first) == []
