"""The goals of the search: all choices of boards that cost less than the best and may suffice."""

from __future__ import annotations

from collections.abc import Iterator

from solver.cutting.padded_sizes import Board
from solver.cutting.search_state import SearchState

GOALS_MOST = 200
"""Choices of boards that are listed at most [-]."""
NODES_MOST = 20_000
"""Choices of boards that are looked at in making the list [-]."""


def cheaper_choices(search: SearchState) -> tuple[list[list[Board]], bool]:
    """Return choices of boards that beat the best and satisfy every covering row.

    The flag is True where those are all: any other cheaper choice is a subset of one of
    them, or has no room for the parts.

    Each holds all boards on hand, as they cost nothing. The dearest come first: they have the
    most room.
    """
    padded = search.padded
    free = [b for b in padded.boards if b.free for _ in range(min(b.most or 0, padded.part_count))]
    bought = [i for i, board in enumerate(padded.boards) if not board.free]
    choices, complete = [], True
    for tried, counts in enumerate(_choices(search, bought)):
        boards = [padded.boards[i] for i, n in zip(bought, counts, strict=True) for _ in range(n)]
        if _covers(search, free + boards):
            choices.append((sum(b.cost for b in boards), len(boards), free + boards))
        if tried >= NODES_MOST or len(choices) >= GOALS_MOST:
            complete = False
            break
    choices.sort(key=lambda goal: (-goal[0], -goal[1]))
    return [boards for _, _, boards in choices], complete


def _choices(search: SearchState, bought: list[int]) -> Iterator[list[int]]:
    """Yield how many of each board are bought, within the price and number to be beaten.

    Only choices with as many as possible of the last board are yielded: one board more always
    has more room.
    """
    assert search.score is not None
    cost, count = search.score[:2]
    boards = [search.padded.boards[i] for i in bought]

    def most(board: Board, spent: int, taken: int) -> int:
        """Return how many more of a board may be taken and still be better than the best."""
        if board.cost == 0:
            number = count - taken - (1 if spent == cost else 0)
        else:
            number = (cost - spent) // board.cost
            if spent + number * board.cost == cost and taken + number >= count:
                number -= 1
        return max(0, number if board.most is None else min(number, board.most))

    def go(at: int, spent: int, taken: int) -> Iterator[list[int]]:
        if at == len(boards):
            yield []
            return
        top = most(boards[at], spent, taken)
        numbers = range(top, -1, -1) if at < len(boards) - 1 else (top,)
        for number in numbers:
            for rest in go(at + 1, spent + number * boards[at].cost, taken + number):
                yield [number, *rest]

    if bought:
        yield from go(0, 0, 0)


def _covers(search: SearchState, boards: list[Board]) -> bool:
    """True where the boards have room by every covering row."""
    indices = [search.padded.boards.index(board) for board in boards]
    return all(sum(row.capacity[i] for i in indices) >= row.need for row in search.rows)
