"""The answer for one material or one moulding: the stock as cut, and what is proven of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Generic, Protocol, TypeAlias, TypeVar

from solver.cutting.cutting_problem import CutSheet, StickStock
from solver.cutting.padded_sizes import PaddedProblem, alike_priced
from solver.outcome import Status
from solver.plan.plan import money
from solver.plan.stocked import Sheet, Stick

Stock = TypeVar("Stock", Sheet, Stick)


@dataclass(frozen=True)
class CuttingAnswer(Generic[Stock]):
    """The sheets or sticks as cut, and what is proven about them.

    Attributes
    ----------
    status
        OPTIMAL only where `cost` meets the bound (its area does, without prices).
    stock
        Sheets or sticks in the order in which to cut them: on hand first.
    cost, cost_bound
        Price of what is bought, and its proven lower bound; 0.00 counts stock
        without a price.
    count, count_bound
        Sheets or sticks bought, and the fewest that could do [-].
    priced
        False where a sheet or stick that may be bought has no price.
    """

    status: Status
    stock: tuple[Stock, ...]
    cost: Decimal
    cost_bound: Decimal
    count: int
    count_bound: int
    priced: bool


SheetAnswer: TypeAlias = CuttingAnswer[Sheet]
StickAnswer: TypeAlias = CuttingAnswer[Stick]
Answer: TypeAlias = SheetAnswer | StickAnswer


class Bounds(Protocol):
    """What a search has proven: bounds on the price [cent] and on the number bought [-]."""

    cost_bound: int
    count_bound: int

    def status(self, comparable: bool) -> Status:
        """Return how the search ended; `comparable` where the prices can be compared."""


def answer_of(
    stock: Sequence[Stock],
    offered: Sequence[CutSheet] | Sequence[StickStock],
    padded: PaddedProblem,
    proven: Bounds,
) -> CuttingAnswer[Stock]:
    """State what the stock as cut costs, and what is proven of it.

    Parameters
    ----------
    stock
        As cut.
    offered
        What could have been bought.
    padded
        The problem as it was searched.
    proven
        The search, which knows the bounds.
    """
    bought = [one for one in stock if not one.on_hand]
    cost = sum((one.price for one in bought if one.price is not None), money(0))
    return CuttingAnswer(
        status=proven.status(alike_priced(offered)),
        stock=tuple(stock),
        cost=cost,
        cost_bound=min(cost, money(proven.cost_bound)) if padded.priced else money(0),
        count=len(bought),
        count_bound=min(len(bought), proven.count_bound),
        priced=padded.priced,
    )


def nothing_to_cut(padded: PaddedProblem) -> CuttingAnswer[Stock]:
    """Return the answer to a problem without parts."""
    return CuttingAnswer(Status.OPTIMAL, (), money(0), money(0), 0, 0, padded.priced)
