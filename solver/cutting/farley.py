"""What prices of the kinds prove: a bound on the cost, and which patterns a cheap answer may use.

Give each kind a price. Let a stick cost its price times a *rate*, and let each stick of
which there are only so many pay a *rent* besides, as much as makes every pattern worth no
more than its stick costs. Then the whole demand is worth no more than all sticks together
cost, which bounds the cost from below (Farley's bound, with rents for limited stock). What is
left between that and a cost to be reached is all that the patterns of such an answer may
waste together, so a single pattern that wastes more is in none of them. Everything here is
worked out in whole numbers and fractions of them: no bound rests on a program's tolerances.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from solver.cutting.padded import Board


@dataclass(frozen=True)
class Proof:
    """A bound, and what it rests on.

    Attributes
    ----------
    values
        Price of each kind [-].
    rate
        What one unit of cost may be worth; 0 where nothing is proven.
    rents
        What a stick of each board pays besides; 0 where there is any number.
    bound
        No answer costs less.
    """

    values: tuple[int, ...]
    rate: Fraction
    rents: tuple[Fraction, ...]
    bound: Fraction

    def least(self, boards: Sequence[Board], cost: int) -> list[int]:
        """Return, for each board, what a pattern of an answer of at most `cost` must be worth."""
        spare = (cost - self.bound) * self.rate
        return [
            ceil(board.cost * self.rate + rent - spare)
            for board, rent in zip(boards, self.rents, strict=True)
        ]


def prove(
    boards: Sequence[Board],
    mosts: Sequence[int | None],
    demand: Sequence[int],
    values: Sequence[int],
    tops: Sequence[int],
) -> Proof:
    """Return the best bound that prices of the kinds prove.

    Parameters
    ----------
    mosts
        How many of each board there are still; None is any number [-].
    values
        Price of each kind [-].
    tops
        What the most valuable pattern of each board is worth at these prices [-].
    """
    worth = sum(value * wanted for value, wanted in zip(values, demand, strict=True))
    least = _least_rate(boards, mosts, tops)
    rates = [Fraction(t, b.cost) for b, t in zip(boards, tops, strict=True) if b.cost]
    nothing = tuple(Fraction(0) for _ in boards)
    best = Proof(tuple(values), Fraction(0), nothing, Fraction(0))
    if least is None:
        return best
    for rate in {least, *(r for r in rates if r > least)} - {Fraction(0)}:
        rents = tuple(
            max(Fraction(0), t - board.cost * rate) for board, t in zip(boards, tops, strict=True)
        )
        owed = sum((r * (most or 0) for r, most in zip(rents, mosts, strict=True)), Fraction(0))
        bound = (worth - owed) / rate
        if bound > best.bound:
            best = Proof(tuple(values), rate, rents, bound)
    return best


def _least_rate(
    boards: Sequence[Board], mosts: Sequence[int | None], tops: Sequence[int]
) -> Fraction | None:
    """The rate at which boards of any number need no rent; None where one costs nothing."""
    endless = [
        (board.cost, t) for board, most, t in zip(boards, mosts, tops, strict=True) if most is None
    ]
    if any(cost == 0 and t > 0 for cost, t in endless):
        return None
    return max((Fraction(t, cost) for cost, t in endless if cost), default=Fraction(0))
