"""Which piece comes from which stick: the entry point for mouldings.

First answers cost little time and often meet the bound (:mod:`solver.sticks.stick_state`).
Where they leave a gap, :mod:`solver.sticks.stick_search` closes it. The answer is then tidied by a
local search: moves and exchanges of pieces between two sticks, for fewer pick-ups and a larger
offcut at the same price.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TypeAlias

from solver.cutting.cutting_answer import StickAnswer, answer_of, nothing_to_cut
from solver.cutting.cutting_problem import StickProblem
from solver.cutting.oversize import refuse_long, refuse_scarce
from solver.cutting.padded_sizes import PaddedProblem, pad_sticks
from solver.outcome import Limits
from solver.plan.stocked import Stick, StickPiece
from solver.sticks.column_generation import Knapsack
from solver.sticks.stick_master import Column
from solver.sticks.stick_search import StickSearch
from solver.sticks.stick_state import StickState, first_answers

FULLEST_STEPS = 400
"""Sticks that are filled one by one at most, for one first answer [-]."""

KINDS_MOST = 500
"""With more different lengths, only the first answers by best fit are made [-]."""


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
    state = StickState(padded)
    knapsack = Knapsack(padded)
    seen, left = _first(state, knapsack)
    if state.goes_on(limits) and len(padded.kinds) <= KINDS_MOST:
        StickSearch(state, knapsack, seen, limits).run()
    if state.best is None:
        raise refuse_scarce(padded, problem.sticks, left, proven=state.impossible)
    return _answer(problem, padded, state, tidied(padded, state.best, limits))


def _first(state: StickState, knapsack: Knapsack) -> tuple[list[Column], list[int]]:
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
    problem: StickProblem, padded: PaddedProblem, state: StickState, best: list[Column]
) -> StickAnswer:
    ids = {i: list(kind.ids) for i, kind in enumerate(padded.kinds)}
    order = sorted(best, key=lambda c: _order(padded, c))
    sticks = [_stick(problem, padded, column, ids) for column in order]
    return answer_of(sticks, problem.sticks, padded, state)


def _order(padded: PaddedProblem, column: Column) -> tuple[object, ...]:
    """Sticks on hand first, then by length as listed, the pattern of the longest pieces first."""
    board = padded.boards[column[0]]
    return not board.free, board.source, tuple(-count for count in column[1])


def _stick(
    problem: StickProblem, padded: PaddedProblem, column: Column, ids: dict[int, list[str]]
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


TRIES = 10_000
"""Moves and exchanges that the local search looks at for each unit of work [-]."""

STICKS_MOST = 40
"""Longest list of sticks that is tidied; lists of a shop are shorter [-]."""

Worth: TypeAlias = tuple[int, int, int]
"""Pick-ups; largest offcut and sum of all offcuts' squares, both negative: less is better."""


@dataclass(frozen=True)
class Bar:
    """One stick: its room, and how many of each kind it holds; kinds that it lacks are left out."""

    board: int
    room: int
    held: tuple[tuple[int, int], ...]

    def changed(self, gives: tuple[int, int], gets: tuple[int, int], lengths: Sequence[int]) -> Bar:
        """Return the stick after an exchange of (kind, number); its room may be negative."""
        held = dict(self.held)
        held[gives[0]] = held.get(gives[0], 0) - gives[1]
        held[gets[0]] = held.get(gets[0], 0) + gets[1]
        room = self.room + gives[1] * lengths[gives[0]] - gets[1] * lengths[gets[0]]
        kept = tuple(sorted((kind, n) for kind, n in held.items() if n))
        return Bar(self.board, room, kept)


def tidied(padded: PaddedProblem, columns: Sequence[Column], limits: Limits) -> list[Column]:
    """Return an answer of the same price with fewer pick-ups and a larger offcut, if one is near.

    Parameters
    ----------
    columns
        The sticks that are cut; none is added.
    """
    lengths = [kind.lies[0][0] for kind in padded.kinds]
    bars = [_bar(padded, column, lengths) for column in columns]
    left = int(TRIES * limits.work) if len(bars) <= STICKS_MOST else 0
    improved = True
    while improved and left > 0 and not limits.over:
        improved = False
        for a, b in combinations(range(len(bars)), 2):
            worth = _worth(bars)
            for one, other in _exchanges(bars[a], bars[b], lengths):
                left -= 1
                if _better(bars, (a, one), (b, other), worth):
                    bars[a], bars[b] = one, other
                    improved = True
                    break
            if left <= 0:
                break
    return [_column(padded, bar) for bar in bars if bar.held]


def _bar(padded: PaddedProblem, column: Column, lengths: Sequence[int]) -> Bar:
    board, counts = column
    used = sum(n * length for n, length in zip(counts, lengths, strict=True))
    held = tuple((kind, n) for kind, n in enumerate(counts) if n)
    return Bar(board, padded.boards[board].length - used, held)


def _column(padded: PaddedProblem, bar: Bar) -> Column:
    held = dict(bar.held)
    return bar.board, tuple(held.get(kind, 0) for kind in range(len(padded.kinds)))


def _worth(bars: Sequence[Bar]) -> Worth:
    return (
        sum(len(bar.held) for bar in bars),
        -max((bar.room for bar in bars), default=0),
        -sum(bar.room**2 for bar in bars),
    )


def _better(bars: Sequence[Bar], one: tuple[int, Bar], other: tuple[int, Bar], than: Worth) -> bool:
    """True where both sticks have room, and all sticks together are then better."""
    if min(one[1].room, other[1].room) < 0:
        return False
    was = len(bars[one[0]].held) + len(bars[other[0]].held)
    if len(one[1].held) + len(other[1].held) > was:
        return False
    changed = dict((one, other))
    return _worth([changed.get(i, bar) for i, bar in enumerate(bars)]) < than


def _exchanges(one: Bar, other: Bar, lengths: Sequence[int]) -> Iterator[tuple[Bar, Bar]]:
    """Yield both sticks after each move of pieces of one kind, and each exchange of two kinds."""
    for gives in _amounts(one):
        for gets in _amounts(other):
            if gives[0] != gets[0] and (gives[1] or gets[1]):
                yield one.changed(gives, gets, lengths), other.changed(gets, gives, lengths)


def _amounts(bar: Bar) -> list[tuple[int, int]]:
    """Return what a stick may give away: (kind, number), nothing first."""
    return [(-1, 0), *((kind, n) for kind, most in bar.held for n in range(1, most + 1))]
