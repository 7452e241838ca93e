"""Mouldings: which piece comes from which stick.

Sticks are sheets one tick wide, so the rules of :mod:`solver.cutting.construct` and the
bounds of :mod:`solver.cutting.bounds` hold as they are. Where they leave a gap the
pattern model closes it: its linear program bounds, and its columns, chosen whole, are
the sticks. Between the two nearly every list of shop size is settled.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from solver.cutting.choose import choose
from solver.cutting.columns import Generator, fits
from solver.cutting.construct import portfolio
from solver.cutting.dive import better_columns
from solver.cutting.goal_search import rescue
from solver.cutting.layout import Filled, Layout
from solver.cutting.master import Column
from solver.cutting.padded import Padded, alike_priced, pad_sticks
from solver.cutting.pool import column_of
from solver.cutting.problem import StickProblem
from solver.cutting.refuse import refuse_long, refuse_scarce
from solver.cutting.search import Search
from solver.outcome import Limits, Status
from solver.plan import Stick, StickPiece, money

ROUNDS_MOST = 600
"""Rounds of column generation for the bound [-]."""


@dataclass(frozen=True)
class StickAnswer:
    """The sticks, and what is proven about them; fields as in CuttingAnswer."""

    status: Status
    sticks: tuple[Stick, ...]
    cost: Decimal
    cost_bound: Decimal
    stick_count: int
    stick_bound: int
    priced: bool


def solve_sticks(problem: StickProblem, limits: Limits) -> StickAnswer:
    """Cut all pieces from the cheapest sticks, then the fewest.

    Parameters
    ----------
    problem
        Pieces of one moulding, and the lengths it is sold in.
    limits
        Seed, work and wall-clock backstop of the search.

    Raises
    ------
    CannotBeDoneError
        Where a piece is longer than every stick, or the stock is too small.
    """
    refuse_long(problem)
    padded = pad_sticks(problem)
    if not padded.kinds:
        return StickAnswer(Status.OPTIMAL, (), money(0), money(0), 0, 0, padded.priced)
    search = Search(padded)
    columns = _first(search)
    if search.best is None and not search.stock_too_small:
        rescue(search, limits)
    if search.goes_on(limits):
        _close(search, columns, limits)
    if search.best is None:
        raise refuse_scarce(
            padded, problem.sticks, search.left or [], proven=search.stock_too_small
        )
    return _answer(problem, padded, search, search.best)


def _first(search: Search) -> list[Column]:
    """Try the portfolio until an answer meets the bound; return the patterns seen."""
    columns: dict[Column, None] = {}
    for tried, found in enumerate(portfolio(search.padded)):
        search.offer(found)
        if isinstance(found, Layout):
            columns.update(dict.fromkeys(column_of(search.padded, s) for s in found.sheets))
        if tried == 0 and not search.done:
            search.sharpen()
        if search.done:
            break
    return list(columns)


def _close(search: Search, columns: list[Column], limits: Limits) -> None:
    """Close the gap by the pattern model."""
    padded = search.padded
    if not fits(padded):
        return
    generator = Generator(padded, columns)
    search.raise_bound(generator.solve(padded.demand, ROUNDS_MOST))
    if search.goes_on(limits):
        search.offer_columns(better_columns(generator, padded, search.cost_bound, limits))
    if search.goes_on(limits):
        less = search.score[:2] if search.score is not None else None
        seen = generator.master.columns
        search.offer_columns(choose(padded, seen, limits, limits.work / 8, less))


def _answer(problem: StickProblem, padded: Padded, search: Search, best: Layout) -> StickAnswer:
    ids = {i: list(kind.ids) for i, kind in enumerate(padded.kinds)}
    order = sorted(best.sheets, key=lambda s: (not s.board.free, s.board.source, -s.used))
    sticks = tuple(_stick(problem, padded, filled, ids) for filled in order)
    bought = [stick for stick in sticks if not stick.on_hand]
    cost = _total(stick.price for stick in bought)
    return StickAnswer(
        status=search.status(alike_priced(problem.sticks)),
        sticks=sticks,
        cost=cost,
        cost_bound=min(cost, money(search.cost_bound)) if padded.priced else money(0),
        stick_count=len(bought),
        stick_bound=min(len(bought), search.count_bound),
        priced=padded.priced,
    )


def _stick(
    problem: StickProblem, padded: Padded, filled: Filled, ids: dict[int, list[str]]
) -> Stick:
    """Lay the pieces along the stick, longest first, since those can still be recut shorter."""
    stock = problem.sticks[filled.board.source]
    pieces, at = [], 0
    for kind in sorted(piece.kind for piece in filled.root.pieces()):
        padded_length = padded.kinds[kind].lies[0][0]
        length = padded_length - problem.kerf
        pieces.append(StickPiece(part=ids[kind].pop(0), start=at, length=length))
        at += padded_length
    return Stick(
        stock=stock.stock,
        length=stock.length,
        price=stock.price,
        on_hand=filled.board.free,
        kerf=problem.kerf,
        pieces=tuple(pieces),
    )


def _total(prices: Iterable[Decimal | None]) -> Decimal:
    return sum((price for price in prices if price is not None), money(0))
