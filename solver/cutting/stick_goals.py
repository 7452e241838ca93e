"""Which sticks to try: every choice of what to buy that is better than the best and may do.

Prices and lengths are few, so the choices within the gap are mostly few too, and the next
price that can be paid at all is often above the bound of the linear program.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from solver.cutting.padded import Board, Padded

GOALS_MOST = 300
"""Choices that are listed; where there are more, none is [-]."""
STEPS_MOST = 20_000
"""Choices that are looked at in making the list [-]."""


@dataclass(frozen=True, order=True)
class Goal:
    """A choice of sticks to buy: what it costs, how many, and how many of each board."""

    cost: int
    count: int
    numbers: tuple[int, ...]

    def within(self, padded: Padded) -> Padded:
        """Return the problem with nothing but these sticks to buy, besides those on hand."""
        boards = tuple(
            board if board.free else replace(board, most=number)
            for board, number in zip(padded.boards, self.numbers, strict=True)
        )
        return replace(padded, boards=boards)


def goals(
    padded: Padded, cost_least: int, count_least: int, better_than: tuple[int, int]
) -> list[Goal] | None:
    """Return the choices that may do, cheapest first; None where there are too many.

    Parameters
    ----------
    cost_least, count_least
        Proven: nothing less will do.
    better_than
        (cost, sticks to buy) that are to be bettered.
    """
    boards = padded.boards
    free = sum(b.length * (b.most or 0) for b in boards if b.free)
    need = sum(kind.area * kind.count for kind in padded.kinds) - free
    found: list[Goal] = []
    for tried, numbers in enumerate(_numbers(boards, cost_least, better_than[0], better_than[1])):
        if tried >= STEPS_MOST or len(found) > GOALS_MOST:
            return None
        goal = _goal(boards, numbers)
        room = sum(n * b.length for n, b in zip(numbers, boards, strict=True))
        if room >= need and goal.cost >= cost_least and goal.count >= count_least:
            found.append(goal)
    return sorted(goal for goal in found if (goal.cost, goal.count) < better_than)


def _goal(boards: Sequence[Board], numbers: Sequence[int]) -> Goal:
    cost = sum(n * b.cost for n, b in zip(numbers, boards, strict=True))
    return Goal(cost, sum(numbers), tuple(numbers))


def everything(padded: Padded) -> Goal:
    """Return the choice of all that can be bought."""
    numbers = [
        0 if b.free else padded.part_count if b.most is None else b.most for b in padded.boards
    ]
    return _goal(padded.boards, numbers)


def _numbers(boards: Sequence[Board], least: int, most: int, count: int) -> Iterator[list[int]]:
    """Yield how many of each board are bought, for `least` to `most` in all.

    Of boards that cost nothing `count` are bought at most.
    """
    if not boards:
        yield []
        return
    board, rest = boards[0], boards[1:]
    top = 0
    if not board.free:
        top = most // board.cost if board.cost else count
        top = top if board.most is None else min(top, board.most)
    last = all(other.free for other in rest)
    first = -(-max(0, least) // board.cost) if last and board.cost else 0
    for number in range(first, top + 1):
        spent = number * board.cost
        for numbers in _numbers(rest, least - spent, most - spent, count):
            yield [number, *numbers]
