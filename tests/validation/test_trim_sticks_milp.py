"""Mouldings of whole trim sets against scipy's integer programming on the plainest model.

One binary for each piece on each stick, one for each stick bought: slow, and easy to trust.
"""

from __future__ import annotations

from decimal import Decimal
from itertools import product

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from solver.cutting.cutting_problem import StickPart, StickProblem, StickStock
from solver.outcome import Limits
from solver.sizing.purchase import Buyer
from solver.sticks.solve_sticks import solve_sticks
from solver.trim.trim_pieces import with_waste
from solver.units import TICKS_PER_INCH, inches
from tests.trims import EVERY, trim_job

MOST = 4
"""Sticks of each length that the model may buy; the answers need fewer [-]."""


def least_cost(problem: StickProblem) -> Decimal:
    """The least price of the sticks, by scipy.optimize.milp (HiGHS)."""
    sticks = [stock for stock in problem.sticks for _ in range(MOST)]
    pieces, count = problem.pieces, len(sticks)
    size = count * (1 + len(pieces))
    cost = np.zeros(size)
    cost[:count] = [float(stock.price or 0) for stock in sticks]
    rows, low, high = [], [], []
    for at in range(len(pieces)):  # each piece on one stick
        row = np.zeros(size)
        row[[count + s * len(pieces) + at for s in range(count)]] = 1
        rows.append(row)
        low.append(1.0)
        high.append(1.0)
    for s, stock in enumerate(sticks):  # a kerf between pieces: n pieces take n - 1
        row = np.zeros(size)
        for at, piece in enumerate(pieces):
            row[count + s * len(pieces) + at] = (piece.length + problem.kerf) / TICKS_PER_INCH
        row[s] = -(stock.length + problem.kerf) / TICKS_PER_INCH
        rows.append(row)
        low.append(-np.inf)
        high.append(0.0)
    found = milp(
        cost,
        constraints=LinearConstraint(np.array(rows), low, high),
        integrality=np.ones(size),
        bounds=Bounds(0, 1),
    )
    assert found.success
    return Decimal(str(round(found.fun, 2)))


@pytest.mark.parametrize("name", EVERY)
def test_mouldings_of_each_set_cost_what_integer_programming_finds(name: str) -> None:
    kind, trim = EVERY[name]
    job = trim_job(kind, trim)
    counts, depths = {"case": (2,)}, {"case": inches(6)}
    problems = Buyer(job, Limits(seconds=20)).stick_problems(counts, depths)
    assert problems
    for problem in problems:
        answer = solve_sticks(problem, Limits(seconds=20))
        assert answer.cost == least_cost(problem)


@pytest.mark.parametrize(
    ("lengths", "sticks"), [((192,), 2), ((96,), 3), ((168,), 2)]
)  # fmt: skip
def test_two_legs_and_a_head_do_not_come_from_one_stick(
    lengths: tuple[int, ...], sticks: int
) -> None:
    """82 + 82 + 36 = 200 in and two cuts: not one of 192; two. Of 96 in, each leg takes its own."""
    pieces = tuple(StickPart(f"piece {at}", inches(size)) for at, size in enumerate((82, 82, 36)))
    stock = tuple(StickStock("casing", inches(one), Decimal(10)) for one in lengths)
    answer = solve_sticks(StickProblem(pieces, stock, inches("1/8")), Limits(seconds=20))
    assert answer.count == sticks


@pytest.mark.parametrize(
    ("waste", "need"), list(product([Decimal("0.05"), Decimal("0.30")], [100]))
)
def test_buying_with_a_waste_share_is_need_over_what_is_left(waste: Decimal, need: int) -> None:
    """woodweb.com Quantifying_the_Waste_Factor: 100 at 30 % is 143, not 130."""
    bought = with_waste(need, waste)
    assert bought - 1 < need / (1 - waste) <= bought
    if waste == Decimal("0.30"):
        assert bought == 143
