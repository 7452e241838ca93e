"""Which part comes from which sheet: the entry points of the cutting engine.

First answers come from a portfolio of constructive rules; where they do not meet the
bound, ruin and recreate tries to do with less, and whole sheets out of all that was seen
are chosen anew. Everything random has a fixed seed and everything that ends a search
counts work, so that the same problem gives the same sheets; wall-clock time is a
backstop only.
"""

from __future__ import annotations

import random
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from solver.cutting.construct import portfolio
from solver.cutting.drawn import draw
from solver.cutting.goals import cheaper
from solver.cutting.improve import Repair, with_boards
from solver.cutting.layout import Layout
from solver.cutting.padded import Padded, alike_priced, pad
from solver.cutting.problem import CuttingProblem
from solver.cutting.refuse import refuse_oversize, refuse_scarce
from solver.cutting.search import Search
from solver.cutting.sticks import StickAnswer, solve_sticks
from solver.outcome import Limits, Status
from solver.plan import Sheet, money

__all__ = ["CuttingAnswer", "StickAnswer", "solve_cutting", "solve_sticks"]


TRIALS = 200_000
"""Places tried by the improvement for each unit of work [-]."""


@dataclass(frozen=True)
class CuttingAnswer:
    """The sheets, and what is proven about them.

    Attributes
    ----------
    status
        OPTIMAL only where `cost` meets the bound (its area does, without prices).
    sheets
        In the order in which to cut them: on hand first.
    cost, cost_bound
        Price of the bought sheets, and its proven lower bound; 0.00 counts sheets
        without a price.
    sheet_count, sheet_bound
        Bought sheets, and the fewest that could do [-].
    priced
        False where a sheet that may be bought has no price.
    """

    status: Status
    sheets: tuple[Sheet, ...]
    cost: Decimal
    cost_bound: Decimal
    sheet_count: int
    sheet_bound: int
    priced: bool


def solve_cutting(problem: CuttingProblem, limits: Limits) -> CuttingAnswer:
    """Cut all parts from the cheapest sheets, then the fewest.

    Parameters
    ----------
    problem
        Parts and sheets of one material.
    limits
        Seed, work and wall-clock backstop of the search.

    Returns
    -------
    CuttingAnswer
        Every sheet keeps to the stages and the first cut asked for.

    Raises
    ------
    CannotBeDoneError
        Where a part is larger than every sheet, or the stock is too small.
    """
    refuse_oversize(problem)
    padded = pad(problem)
    if not padded.kinds:
        return CuttingAnswer(Status.OPTIMAL, (), money(0), money(0), 0, 0, padded.priced)
    search = Search(padded)
    _first(search, limits)
    _improve(search, limits)
    if search.best is None:
        raise refuse_scarce(padded, problem.sheets, search.left or [], proven=False)
    return _answer(problem, padded, search, search.best)


def _first(search: Search, limits: Limits) -> None:
    """Try the portfolio until an answer meets the bound."""
    for tried, found in enumerate(portfolio(search.padded)):
        search.offer(found)
        if tried == 0 and not search.done:
            search.sharpen()
        if limits.over or (search.done and tried >= 5):
            return


def _improve(search: Search, limits: Limits) -> None:
    """Try to do with less, while there is a gap and work left."""
    chance = random.Random(limits.seed)  # noqa: S311  # a repeatable search, no secret
    left = int(TRIALS * limits.work)
    while search.best is not None and search.goes_on(limits) and left > 0:
        goals = cheaper(search)
        if not goals:
            return
        share = left if len(goals) == 1 else left // 3
        layout, over = with_boards(search.best, goals[0])
        repair = Repair(layout, over, chance)
        solved = repair.run(share, limits)
        left -= max(1, layout.trials)
        if solved:
            search.offer(layout)
        else:
            return


def _answer(problem: CuttingProblem, padded: Padded, search: Search, best: Layout) -> CuttingAnswer:
    """Draw the sheets and state what is proven."""
    ids = {i: list(kind.ids) for i, kind in enumerate(padded.kinds)}
    order = sorted(
        best.sheets, key=lambda s: (not s.board.free, s.board.source, -s.used / s.board.area)
    )
    sheets = tuple(draw(problem, padded, filled, ids) for filled in order)
    bought = [sheet for sheet in sheets if not sheet.on_hand]
    cost = _total(sheet.price for sheet in bought)
    return CuttingAnswer(
        status=search.status(alike_priced(problem.sheets)),
        sheets=sheets,
        cost=cost,
        cost_bound=min(cost, money(search.cost_bound)) if padded.priced else money(0),
        sheet_count=len(bought),
        sheet_bound=min(len(bought), search.count_bound),
        priced=padded.priced,
    )


def _total(prices: Iterable[Decimal | None]) -> Decimal:
    return sum((price for price in prices if price is not None), money(0))
