"""Mouldings: which piece comes from which stick.

First answers cost next to nothing and often meet the bound (:mod:`solver.cutting.stick_first`).
Where they leave a gap, :mod:`solver.cutting.stick_close` closes it: the linear program over all
patterns bounds, diving makes whole sticks of it, and where few patterns are left that a
cheaper answer may use, an integer program over all of those settles whether there is one.
"""

from __future__ import annotations

from solver.cutting.answer import StickAnswer, answer_of, nothing_to_cut
from solver.cutting.columns import Knapsack
from solver.cutting.master import Column
from solver.cutting.padded import Padded, pad_sticks
from solver.cutting.problem import StickProblem
from solver.cutting.refuse import refuse_long, refuse_scarce
from solver.cutting.stick_close import Close
from solver.cutting.stick_first import first_answers
from solver.cutting.stick_state import Sticks
from solver.cutting.stick_tidy import tidied
from solver.outcome import Limits
from solver.stocked import Stick, StickPiece

FULLEST_STEPS = 400
"""Sticks that are filled one by one at most, for one first answer [-]."""
KINDS_MOST = 500
"""With more lengths than these, the first answers by length alone have to do [-]."""


def solve_sticks(problem: StickProblem, limits: Limits) -> StickAnswer:
    """Cut all pieces from the cheapest sticks, then the fewest, then with the least work.

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
        return nothing_to_cut(padded)
    state = Sticks(padded)
    knapsack = Knapsack(padded)
    seen, left = _first(state, knapsack)
    if state.goes_on(limits) and len(padded.kinds) <= KINDS_MOST:
        Close(state, knapsack, seen, limits).run()
    if state.best is None:
        raise refuse_scarce(padded, problem.sticks, left, proven=state.impossible)
    return _answer(problem, padded, state, tidied(padded, state.best, limits))


def _first(state: Sticks, knapsack: Knapsack) -> tuple[list[Column], list[int]]:
    """Offer first answers until one meets the bound; return the patterns seen, kinds left over."""
    seen: dict[Column, None] = {}
    left: list[int] | None = None
    steps = FULLEST_STEPS if len(state.padded.kinds) <= KINDS_MOST else 0
    for columns, over in first_answers(state.padded, knapsack, steps):
        seen.update(dict.fromkeys(columns))
        if not over:
            state.offer(columns)
        elif left is None or len(over) < len(left):
            left = over
        if state.done:
            break
    return list(seen), left or []


def _answer(
    problem: StickProblem, padded: Padded, state: Sticks, best: list[Column]
) -> StickAnswer:
    ids = {i: list(kind.ids) for i, kind in enumerate(padded.kinds)}
    order = sorted(best, key=lambda c: _order(padded, c))
    sticks = [_stick(problem, padded, column, ids) for column in order]
    return answer_of(sticks, problem.sticks, padded, state)


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
            length = padded_length - problem.kerf - problem.margin
            pieces.append(StickPiece(part=ids[kind].pop(0), start=at, length=length))
            at += length + problem.kerf
    return Stick(
        stock=stock.stock,
        length=stock.length,
        price=stock.price,
        on_hand=board.free,
        kerf=problem.kerf,
        pieces=tuple(pieces),
    )
