"""A change that may save stock, the lots that it changes, and what is compared.

A change has amounts, least disturbance first. What one amount saves, a later one saves as
well, except for joints in parts, so the smallest is found by halving; whatever is advised has
been cut. A lot is all parts of one material, with what is bought for them now.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import gcd
from typing import Literal, TypeAlias

from solver.cutting.cutting_answer import Answer
from solver.cutting.cutting_problem import CutSheet, CuttingProblem, StickProblem, StickStock
from solver.cutting.dual_feasible_bounds import covering_rows, lower_bounds
from solver.cutting.padded_sizes import all_priced, pad, pad_sticks
from solver.cutting.solve_sheets import solve_cutting
from solver.outcome import Limits, Status
from solver.plan.plan import money
from solver.plan.stocked import Sheet, Stick
from solver.sticks.solve_sticks import solve_sticks
from solver.units import Ticks, Unit, inches, mm

What: TypeAlias = Literal[
    "shorter", "narrower", "kerf", "edge trim", "grain", "two pieces", "more of a size"
]
Side: TypeAlias = Literal["length", "width"]
"""Of the part, not of the sheet."""

SIDES: tuple[Side, ...] = ("length", "width")

STEP: dict[Unit, Ticks] = {"in": inches("1/32"), "mm": mm("0.5")}
"""Sizes change by whole steps [tick]."""


@dataclass(frozen=True)
class Change:
    """One change of the parts of one lot, or of all lots.

    Attributes
    ----------
    lots
        Which lots it changes.
    parts
        Ids of the parts that it changes; empty where it concerns the saw or the stock.
    amounts
        What `apply` may be given, least disturbance first: how much less, or the new kerf or
        trim [tick], or how many parts, or how many sheets [-].
    apply
        Returns the changed problem.
    now
        The kerf, trim [tick] or limit [-] as it is.
    side
        Which side of the parts it changes, if it does.
    stock
        Name of the stock of which more is wanted.
    """

    what: What
    lots: tuple[int, ...]
    parts: tuple[str, ...]
    amounts: tuple[int, ...]
    apply: Callable[[Problem, int], Problem]
    now: int = 0
    side: Side = "length"
    stock: str = ""


def ids(problem: Problem) -> list[str]:
    """Return the names of the parts of a problem."""
    if isinstance(problem, CuttingProblem):
        return [part.id for part in problem.parts]
    return [piece.id for piece in problem.pieces]


Problem: TypeAlias = CuttingProblem | StickProblem


@dataclass(frozen=True)
class Weight:
    """What is compared: the price of what is bought, or its number where nothing has a cost.

    `price` is in cents, or where prices are missing by size, in units of :func:`by_size` [-].
    """

    price: int
    count: int

    def saves_on(self, other: Weight) -> bool:
        """Whether this is less than what `other` buys."""
        if other.price:
            return self.price < other.price
        return self.count < other.count


@dataclass(frozen=True)
class Lot:
    """The parts of one material as they are cut now.

    Attributes
    ----------
    material
        Its name.
    problem
        Parts, stock and saw as they are; stock without prices is priced by its size.
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
    if priced:
        return Lot(material, problem, weight(stock), priced)
    bought = [one for one in stock if not one.on_hand]
    size = sum(_size(one) for one in bought) // _size_unit(problem)
    return Lot(material, by_size(problem), Weight(size, len(bought)), priced)


def is_priced(problem: Problem) -> bool:
    """Whether everything that may be bought has a price."""
    if isinstance(problem, CuttingProblem):
        return all_priced(problem.sheets)
    return all_priced(problem.sticks)


def by_size(problem: Problem) -> Problem:
    """Return the problem with its stock priced by area or length, a cent for each unit of it."""
    unit = _size_unit(problem)
    if isinstance(problem, CuttingProblem):
        sheets = tuple(replace(s, price=money(_size(s) // unit)) for s in problem.sheets)
        return replace(problem, sheets=sheets)
    sticks = tuple(replace(s, price=money(_size(s) // unit)) for s in problem.sticks)
    return replace(problem, sticks=sticks)


def _size_unit(problem: Problem) -> int:
    """Return the greatest common divisor of all sizes [square tick, tick]."""
    stock = problem.sheets if isinstance(problem, CuttingProblem) else problem.sticks
    return gcd(*(_size(one) for one in stock))


def _size(one: Sheet | Stick | CutSheet | StickStock) -> int:
    return one.length * (one.width if isinstance(one, Sheet | CutSheet) else 1)


def weight(stock: Sequence[Sheet | Stick]) -> Weight:
    """Return the price and the number of the sheets or sticks that are not on hand."""
    prices = [int((one.price or 0) * 100) for one in stock if not one.on_hand]
    return Weight(sum(prices), len(prices))


def least_weight(problem: Problem) -> Weight:
    """Return proven lower bounds on the price and on the number of what must be bought.

    Each holds by itself, for every way of cutting.
    """
    padded = pad(problem) if isinstance(problem, CuttingProblem) else pad_sticks(problem)
    return Weight(*lower_bounds(padded, covering_rows(padded))) if padded.kinds else Weight(0, 0)


def solve(problem: Problem, limits: Limits) -> Answer:
    """Cut the parts of a problem of either kind."""
    if isinstance(problem, CuttingProblem):
        return solve_cutting(problem, limits)
    return solve_sticks(problem, limits)


def is_proven(answer: Answer) -> bool:
    """Whether nothing cheaper is possible, or no fewer where nothing has a cost."""
    fewest = answer.count <= answer.count_bound
    return answer.status is Status.OPTIMAL and (answer.cost > 0 or fewest)
