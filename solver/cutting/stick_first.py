"""First answers for sticks: longest pieces first, and the fullest stick first."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterator, Sequence

from solver.cutting.column_generation import Knapsack
from solver.cutting.master import Column
from solver.cutting.padded import Padded


class Rack:
    """Sticks as they are taken: those on hand, then one board that is preferred to buy.

    Where there are no more of that, or it is too short, the one that costs least for its
    length is taken.
    """

    def __init__(self, padded: Padded, first: int) -> None:
        boards = padded.boards
        self.padded = padded
        self.left = [board.most for board in boards]
        rate = {i: b.cost / b.length for i, b in enumerate(boards)}
        self.order = sorted(
            range(len(boards)), key=lambda i: (not boards[i].free, i != first, rate[i], i)
        )

    def take(self, length: int) -> int | None:
        """Take a stick that has room for `length`; None where there is none."""
        for board in self.order:
            if self.left[board] != 0 and self.padded.boards[board].length >= length:
                left = self.left[board]
                self.left[board] = None if left is None else left - 1
                return board
        return None


def best_fit(padded: Padded, first: int) -> tuple[list[Column], list[int]]:
    """Put each piece, longest first, where it leaves least; return sticks, and kinds left over."""
    rack, over = Rack(padded, first), list[int]()
    opened: list[tuple[int, list[int]]] = []
    rooms: list[tuple[int, int]] = []
    for kind, one in enumerate(padded.kinds):
        length = one.lies[0][0]
        for _ in range(one.count):
            at = bisect_left(rooms, (length, 0))
            if at < len(rooms):
                room, stick = rooms.pop(at)
            else:
                board = rack.take(length)
                if board is None:
                    over.append(kind)
                    continue
                room, stick = padded.boards[board].length, len(opened)
                opened.append((board, [0] * len(padded.kinds)))
            opened[stick][1][kind] += 1
            insort(rooms, (room - length, stick))
    return smaller(padded, [(board, tuple(counts)) for board, counts in opened]), over


def fullest(
    padded: Padded, first: int, knapsack: Knapsack, steps_most: int
) -> tuple[list[Column], list[int]] | None:
    """Fill each stick as far as its longest piece allows; None where that takes too long.

    The fuller sticks come first, which leaves the awkward rest to the last: the better of
    both kinds of answers is known to be near the best.
    """
    rack, left = Rack(padded, first), list(padded.demand)
    chosen: list[Column] = []
    lengths = [kind.lies[0][0] for kind in padded.kinds]
    for _ in range(steps_most):
        kind = next((i for i, n in enumerate(left) if n), None)
        if kind is None:
            return smaller(padded, chosen), []
        board = rack.take(lengths[kind])
        if board is None:
            return chosen, [i for i, n in enumerate(left) for _ in range(n)]
        left[kind] -= 1
        if not knapsack.price(lengths, left):
            return None
        counts = list(knapsack.best(board, without=lengths[kind])[1])
        left = [n - c for n, c in zip(left, counts, strict=True)]
        counts[kind] += 1
        chosen.append((board, tuple(counts)))
    return None


def smaller(padded: Padded, columns: Sequence[Column]) -> list[Column]:
    """Cut each pattern from the cheapest stick that has room for it, the shortest first."""
    lengths = [kind.lies[0][0] for kind in padded.kinds]
    left = [board.most for board in padded.boards]
    order = sorted(range(len(left)), key=lambda i: (padded.boards[i].cost, padded.boards[i].length))
    sized = sorted(
        (sum(n * length for n, length in zip(counts, lengths, strict=True)), own, counts)
        for own, counts in columns
    )
    chosen: list[Column] = []
    for used, own, counts in reversed(sized):
        fitting = (i for i in order if left[i] != 0 and padded.boards[i].length >= used)
        board = next(fitting, own)
        left[board] = None if (most := left[board]) is None else most - 1
        chosen.append((board, counts))
    return chosen if all(n is None or n >= 0 for n in left) else list(columns)


def first_answers(
    padded: Padded, knapsack: Knapsack, steps_most: int
) -> Iterator[tuple[list[Column], list[int]]]:
    """Yield answers of each rule, with every board that may be bought preferred in turn."""
    bought = [i for i, board in enumerate(padded.boards) if not board.free] or [0]
    for board in bought:
        yield best_fit(padded, board)
    for board in bought:
        found = fullest(padded, board, knapsack, steps_most)
        if found is not None:
            yield found
