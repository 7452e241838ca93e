"""What is bought now, and what a changed list would need at least: the figures compared."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from solver.cutting.bounds import bound, rows
from solver.cutting.padded import Padded, all_priced, pad, pad_sticks
from solver.cutting.problem import CuttingProblem, StickProblem
from solver.cutting.solve import CuttingAnswer, StickAnswer, solve_cutting, solve_sticks
from solver.outcome import Limits, Status
from solver.plan import Sheet, Stick

Problem: TypeAlias = CuttingProblem | StickProblem
Answer: TypeAlias = CuttingAnswer | StickAnswer


@dataclass(frozen=True, order=True)
class Weight:
    """What is compared: the price of what is bought, then how many.

    `price` is in cents; where prices are missing the area bought stands for it, or the
    length of sticks [square tick, tick].
    """

    price: int
    count: int


@dataclass(frozen=True)
class Lot:
    """The parts of one material as they are cut now.

    Attributes
    ----------
    material
        Its name.
    problem
        Parts, stock and saw as they are.
    bought
        What the present answer buys.
    priced
        Whether `bought.price` is money.
    """

    material: str
    problem: Problem
    bought: Weight
    priced: bool


def lot_of(material: str, problem: Problem, stock: Sequence[Sheet | Stick]) -> Lot:
    """Return the lot of a problem and the sheets or sticks that its parts are cut from."""
    priced = is_priced(problem)
    return Lot(material, problem, weight(stock, priced=priced), priced)


def is_priced(problem: Problem) -> bool:
    """Whether everything that may be bought has a price."""
    if isinstance(problem, CuttingProblem):
        return all_priced(problem.sheets)
    return all_priced(problem.sticks)


def weight(stock: Sequence[Sheet | Stick], *, priced: bool) -> Weight:
    """Return what the sheets or sticks that are not on hand come to."""
    bought = [one for one in stock if not one.on_hand]
    if priced:
        return Weight(sum(int((one.price or 0) * 100) for one in bought), len(bought))
    return Weight(
        sum(one.length * (one.width if isinstance(one, Sheet) else 1) for one in bought),
        len(bought),
    )


def stock_of(answer: Answer) -> Sequence[Sheet | Stick]:
    """Return the sheets or sticks of an answer."""
    return answer.sheets if isinstance(answer, CuttingAnswer) else answer.sticks


def least_weight(problem: Problem) -> Weight:
    """Return proven lower bounds on the price and on the number of what must be bought.

    Each holds by itself, for every way of cutting.
    """
    padded = _padded(problem)
    if not padded.kinds:
        return Weight(0, 0)
    price, count = bound(padded, rows(padded))
    return Weight(price * _unit(problem, padded), count)


def _unit(problem: Problem, padded: Padded) -> int:
    """What one unit of the engine's cost stands for: a cent, or an area without prices."""
    if padded.priced:
        return 1
    for board in padded.boards:
        if not board.free and board.cost:
            return _size(problem, board.source) // board.cost
    return 1


def _size(problem: Problem, source: int) -> int:
    if isinstance(problem, CuttingProblem):
        return problem.sheets[source].length * problem.sheets[source].width
    return problem.sticks[source].length


def _padded(problem: Problem) -> Padded:
    return pad(problem) if isinstance(problem, CuttingProblem) else pad_sticks(problem)


def solve(problem: Problem, limits: Limits) -> Answer:
    """Cut the parts of a problem of either kind."""
    if isinstance(problem, CuttingProblem):
        return solve_cutting(problem, limits)
    return solve_sticks(problem, limits)


def is_proven(answer: Answer) -> bool:
    """Whether an answer is proven in price and in number."""
    if isinstance(answer, CuttingAnswer):
        count, least = answer.sheet_count, answer.sheet_bound
    else:
        count, least = answer.stick_count, answer.stick_bound
    return answer.status is Status.OPTIMAL and count <= least
