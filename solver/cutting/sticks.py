"""Mouldings: which piece comes from which stick.

First answers cost next to nothing and often meet the bound. Where they leave a gap, the
linear program over all patterns bounds (:mod:`solver.cutting.columns`), diving makes whole
sticks of it (:mod:`solver.cutting.dive`), and where few patterns are left that a cheaper
answer may use, an integer program over all of those settles whether there is one
(:mod:`solver.cutting.choose`).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal

from solver.cutting.choose import Chooser, bought, cost_unit, whole_cost
from solver.cutting.columns import Generator, Knapsack
from solver.cutting.dive import dives
from solver.cutting.master import Column
from solver.cutting.padded import Padded, alike_priced, pad_sticks
from solver.cutting.problem import StickProblem
from solver.cutting.refuse import refuse_long, refuse_scarce
from solver.cutting.rents import Proof
from solver.cutting.stick_first import first_answers
from solver.cutting.stick_state import Sticks
from solver.outcome import Limits, Status
from solver.plan import Stick, StickPiece, money

ROUNDS = 400
"""Rounds of column generation for the bound [-]."""
DIVE_ROUNDS = 120
"""Rounds of column generation for the dives, for each unit of work [-]."""
FULLEST_STEPS = 400
"""Sticks that are filled one by one at most, for one first answer [-]."""
FEW, MANY = 1_000, 12_000
"""Patterns that are chosen from exactly, before the dives and after them [-]."""
NODES = 500
"""Nodes of the search tree of an exact choice, for each unit of work [-]."""


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
    state = Sticks(padded)
    seen, left = _first(state)
    if state.goes_on(limits):
        _close(state, seen, limits)
    if state.best is None:
        raise refuse_scarce(padded, problem.sticks, left, proven=state.impossible)
    return _answer(problem, padded, state, state.best)


def _first(state: Sticks) -> tuple[list[Column], list[int]]:
    """Offer first answers until one meets the bound; return the patterns seen, kinds left over."""
    seen: dict[Column, None] = {}
    left: list[int] | None = None
    for columns, over in first_answers(state.padded, Knapsack(state.padded), FULLEST_STEPS):
        seen.update(dict.fromkeys(columns))
        if not over:
            state.offer(columns)
        elif left is None or len(over) < len(left):
            left = over
        if state.done:
            break
    return list(seen), left or []


def _close(state: Sticks, seen: list[Column], limits: Limits) -> None:
    """Close the gap by the pattern model."""
    padded = state.padded
    generator = Generator(padded, seen)
    state.raise_bound(generator.solve(padded.demand, ROUNDS, limits))
    proof = generator.proof
    _choose(state, generator, proof, FEW, limits)
    if state.goes_on(limits):
        _dive(state, generator, limits)
    _choose(state, generator, proof, MANY, limits)
    if state.goes_on(limits) and not state.alike:
        state.raise_count(_count_bound(padded, limits))


def _dive(state: Sticks, generator: Generator, limits: Limits) -> None:
    """Dive until an answer meets the bound or the rounds are spent."""
    rounds = int(DIVE_ROUNDS * limits.work)
    stop = generator.rounds + rounds
    while generator.rounds < stop and state.goes_on(limits) and not state.cheapest:
        target = _target(state)
        for found in dives(generator, target, stop - generator.rounds, limits):
            if state.offer(found) or state.done:
                break


def _target(state: Sticks) -> int:
    """Return the cost that is to be reached."""
    if state.score is not None:
        return state.score[0] - 1
    dearest = max(board.cost for board in state.padded.boards)
    return dearest * state.padded.part_count


def _choose(state: Sticks, generator: Generator, proof: Proof, most: int, limits: Limits) -> None:
    """Choose exactly among all patterns that may better the best answer, if they are few."""
    padded = state.padded
    while state.goes_on(limits):
        target = _target(state) + (state.score is not None and not state.alike)
        patterns = generator.patterns(padded.demand, target, most, proof)
        if patterns is None and state.cost_bound < target:
            target = state.cost_bound
            patterns = generator.patterns(padded.demand, target, most, proof)
        if patterns is None or not _settle(state, patterns, target, limits):
            return


def _settle(state: Sticks, patterns: list[Column], target: int, limits: Limits) -> bool:
    """Choose the cheapest, then the fewest; True where that settled something."""
    padded, nodes = state.padded, int(NODES * limits.work)
    chooser = Chooser(padded, patterns, padded.demand)
    weigh, unit = whole_cost(padded), cost_unit(padded)
    chooser.at_most(weigh, target // unit)
    found = chooser.least(weigh, nodes, limits)
    better = state.offer(found.columns)
    if not found.settled:
        return better
    if found.columns is None:
        if state.score is None or target >= state.score[0]:
            state.impossible = state.score is None
            return False
        state.raise_bound(target + 1)
        return True
    state.raise_bound(sum(padded.boards[board].cost for board, _ in found.columns))
    if not state.alike:
        chooser.at_most(weigh, sum(weigh(column) for column in found.columns))
        fewer = chooser.least(bought(padded), nodes, limits)
        state.offer(fewer.columns)
        state.fewest = fewer.settled and state.cheapest
    return state.done


def _count_bound(padded: Padded, limits: Limits) -> int:
    """Bound the number of sticks to buy, whatever they cost."""
    boards = tuple(replace(b, cost=0 if b.free else 1) for b in padded.boards)
    alike = replace(padded, boards=boards)
    return Generator(alike, ()).solve(padded.demand, ROUNDS, limits)


def _answer(
    problem: StickProblem, padded: Padded, state: Sticks, best: list[Column]
) -> StickAnswer:
    ids = {i: list(kind.ids) for i, kind in enumerate(padded.kinds)}
    order = sorted(best, key=lambda c: _order(padded, c))
    sticks = tuple(_stick(problem, padded, column, ids) for column in order)
    paid = [stick for stick in sticks if not stick.on_hand]
    cost = _total(stick.price for stick in paid)
    return StickAnswer(
        status=state.status(alike_priced(problem.sticks)),
        sticks=sticks,
        cost=cost,
        cost_bound=min(cost, money(state.cost_bound)) if padded.priced else money(0),
        stick_count=len(paid),
        stick_bound=min(len(paid), state.count_bound),
        priced=padded.priced,
    )


def _order(padded: Padded, column: Column) -> tuple[object, ...]:
    """Sticks on hand first, then by length as listed, the pattern of the longest pieces first."""
    board = padded.boards[column[0]]
    return not board.free, board.source, tuple(-count for count in column[1])


def _stick(
    problem: StickProblem, padded: Padded, column: Column, ids: dict[int, list[str]]
) -> Stick:
    """Lay the pieces along the stick, longest first, since those can still be recut shorter."""
    board = padded.boards[column[0]]
    stock = problem.sticks[board.source]
    pieces, at = [], 0
    for kind, count in enumerate(column[1]):
        padded_length = padded.kinds[kind].lies[0][0]
        for _ in range(count):
            length = padded_length - problem.kerf
            pieces.append(StickPiece(part=ids[kind].pop(0), start=at, length=length))
            at += padded_length
    return Stick(
        stock=stock.stock,
        length=stock.length,
        price=stock.price,
        on_hand=board.free,
        kerf=problem.kerf,
        pieces=tuple(pieces),
    )


def _total(prices: Iterable[Decimal | None]) -> Decimal:
    return sum((price for price in prices if price is not None), money(0))
