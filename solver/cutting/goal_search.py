"""The search for something cheaper: which boards to try, and how hard."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from itertools import chain, repeat
from typing import TYPE_CHECKING, TypeAlias

from solver.cutting.goals import cheaper
from solver.cutting.layout import Layout
from solver.cutting.padded import Board, Padded
from solver.cutting.search import Search
from solver.outcome import Limits

if TYPE_CHECKING:
    from solver.cutting.attempt import Lying

TRIES = 25_000_000
"""Places tried by each search for each unit of work: about a third of a second [-]."""
CHUNK = 2_000_000
"""Places tried between two looks at the clock [-]."""
SIDE_BY_SIDE = 2
"""Searches from different seeds that run at once, whatever the machine: the answer must not
depend on its cores [-]."""
Ladder: TypeAlias = tuple[tuple[int, int], ...]
"""Steps of (places tried, choices of boards): first many choices a little, then few hard."""
QUICK: Ladder = ((1_000_000, 40), (4_000_000, 10))
HARD: Ladder = ((25_000_000, 4), (100_000_000, 2), (400_000_000, 1))


def improve(search: Search, limits: Limits, ladder: Ladder, share: float) -> None:
    """Try to do with less, while there is a gap and work left.

    Parameters
    ----------
    ladder
        How hard each choice of boards is tried; its last step is repeated.
    share
        Share of all work that may be spent [-].
    """
    left, seed = int(TRIES * limits.work * share), limits.seed
    while search.best is not None and search.goes_on(limits) and left > 0:
        goals, _ = cheaper(search)
        better = False
        for boards, tries in _steps(goals, ladder, left):
            layout, spent = race(search.padded, boards, tries, seed, limits)
            left, seed = left - spent, seed + SIDE_BY_SIDE
            better = layout is not None and search.offer(layout)
            if better or limits.over:
                break
        if not better:
            return


def rescue(search: Search, limits: Limits) -> None:
    """Where the first answers all ran out of stock: fit the parts on all of it, if they do."""
    padded = search.padded
    boards = [
        board
        for board in padded.boards
        for _ in range(min(padded.part_count, board.most or padded.part_count))
    ]
    layout, _ = race(padded, boards, int(TRIES * limits.work), limits.seed, limits)
    if layout is not None:
        search.offer(layout)


def _steps(
    goals: Sequence[Sequence[Board]], ladder: Ladder, left: int
) -> Iterator[tuple[Sequence[Board], int]]:
    """Yield choices of boards and how many places to try for each, until `left` are spent."""
    for tries, many in chain(ladder, repeat(ladder[-1])):
        for boards in goals[:many]:
            yield boards, min(tries, left)
            left -= tries
            if left <= 0:
                return
        if not goals:
            return


def _lying(padded: Padded, seed: int) -> tuple[Lying, Lying]:
    """How the searches of one race lay parts that may turn; the next race tries it otherwise."""
    if all(len(kind.lies) == 1 for kind in padded.kinds):
        return "any", "any"
    ways: tuple[tuple[Lying, Lying], ...] = (("any", "along"), ("any", "any"), ("any", "across"))
    return ways[seed // SIDE_BY_SIDE % len(ways)]


def race(
    padded: Padded, boards: Sequence[Board], tries: int, seed: int, limits: Limits
) -> tuple[Layout | None, int]:
    """Search from several seeds at once; return the first layout by seed, and the places tried.

    All searches stop after the same number of places, so the answer repeats.
    """
    from solver.cutting.attempt import Attempt  # loads the compiler

    lying = _lying(padded, seed)
    attempts = [Attempt(padded, boards, seed + i, lying[i]) for i in range(SIDE_BY_SIDE)]
    done = [0] * SIDE_BY_SIDE

    def go_on(i: int) -> None:
        end = min(tries, done[i] + CHUNK)
        done[i] += attempts[i].run(done[i], end - done[i], tries)

    with ThreadPoolExecutor(SIDE_BY_SIDE) as pool:
        while not any(a.solved for a in attempts) and min(done) < tries and not limits.over:
            list(pool.map(go_on, range(SIDE_BY_SIDE)))
    solved = [attempt.layout() for attempt in attempts if attempt.solved]
    return (solved[0] if solved else None), max(done)
