"""The state of one search for sticks: the best answer so far, and what is proven; first answers.

First answers: longest pieces first (best fit), and the fullest stick first.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import Counter
from collections.abc import Iterator, Sequence

from solver.cutting.padded_sizes import PaddedProblem
from solver.outcome import Limits, Status
from solver.sticks.column_generation import Knapsack
from solver.sticks.diving import cost_unit
from solver.sticks.stick_master import Column


class StickState:
    """Keeps the best choice of patterns offered, and the bounds.

    Choices are compared by price, then by the number of sticks to buy.

    Attributes
    ----------
    best
        The patterns, each as often as it is cut; None while there is no answer.
    score
        (cost, sticks to buy) of the best.
    cost_bound, count_bound
        Proven: nothing costs less, nor takes fewer sticks whatever it costs.
    fewest
        True where no answer of the best one's cost takes fewer sticks.
    impossible
        True where it is proven that the sticks do not suffice.
    """

    def __init__(self, padded: PaddedProblem) -> None:
        self.padded = padded
        self.best: list[Column] | None = None
        self.score: tuple[int, int] | None = None
        self.fewest = False
        self.impossible = False
        self.cost_bound = self.count_bound = 0
        self._by_length()

    def _by_length(self) -> None:
        """Set the bounds that follow from lengths alone."""
        boards = self.padded.boards
        need = sum(kind.area * kind.count for kind in self.padded.kinds)
        need -= sum(board.length * (board.most or 0) for board in boards if board.free)
        bought = [board for board in boards if not board.free]
        self.impossible = need > sum(
            board.length * (need if board.most is None else board.most) for board in bought
        )
        if need > 0 and bought:
            self.count_bound = -(-need // max(board.length for board in bought))
            cheapest = min(-(-need * board.cost // board.length) for board in bought)
            self.raise_bound(cheapest)

    def raise_bound(self, cost: int) -> None:
        """Take over a proven lower bound on the cost; where all cost the same, on the number."""
        unit = cost_unit(self.padded)
        self.cost_bound = max(self.cost_bound, -(-cost // unit) * unit)
        costs = {board.cost for board in self.padded.boards if not board.free}
        if len(costs) == 1 and 0 not in costs:
            self.raise_count(-(-self.cost_bound // costs.pop()))

    def raise_count(self, count: int) -> None:
        """Take over a proven lower bound on the number of sticks to buy."""
        self.count_bound = max(self.count_bound, count)

    def offer(self, columns: Sequence[Column] | None) -> bool:
        """Keep a choice that is better; return whether it is."""
        if columns is None:
            return False
        chosen = _on_hand_first(self.padded, [column for column in columns if any(column[1])])
        score = score_of(self.padded, chosen)
        if self.score is not None and score >= self.score:
            return False
        self.best, self.score = chosen, score
        return True

    @property
    def cheapest(self) -> bool:
        """True where nothing costs less."""
        return self.score is not None and self.score[0] <= self.cost_bound

    @property
    def done(self) -> bool:
        """True where nothing costs less, nor takes fewer sticks at that cost."""
        if self.score is None or not self.cheapest:
            return False
        return self.fewest or self.alike or self.score[1] <= self.count_bound

    @property
    def alike(self) -> bool:
        """True where the number of sticks follows from the cost."""
        costs = {board.cost for board in self.padded.boards if not board.free}
        return len(costs) <= 1 and 0 not in costs

    def goes_on(self, limits: Limits) -> bool:
        """True where there is a gap to close, and time to do so."""
        return not self.done and not limits.over

    def status(self, comparable: bool) -> Status:
        """OPTIMAL where nothing cheaper is possible.

        Where some sticks have prices and others none, lengths were compared: then nothing
        is proven about money (`comparable` False), unless nothing is bought.
        """
        free = self.score is not None and self.score[1] == 0
        return Status.OPTIMAL if free or (self.cheapest and comparable) else Status.FEASIBLE


def score_of(padded: PaddedProblem, columns: Sequence[Column]) -> tuple[int, int]:
    """Return (cost, sticks to buy)."""
    boards = [padded.boards[board] for board, _ in columns]
    return sum(board.cost for board in boards), sum(not board.free for board in boards)


def _on_hand_first(padded: PaddedProblem, columns: list[Column]) -> list[Column]:
    """Cut from sticks on hand what would be cut from bought ones no longer than these."""
    used = Counter(board for board, _ in columns)
    moved = list(columns)
    for index, board in enumerate(padded.boards):
        if not board.free:
            continue
        for at, (other, counts) in enumerate(moved):
            swap = padded.boards[other]
            if used[index] < (board.most or 0) and not swap.free and swap.length <= board.length:
                moved[at] = index, counts
                used[index] += 1
    return moved


class Rack:
    """The sticks that are left, in the order in which they are used.

    Those on hand come first, then the board preferred to buy, then the others by their cost for
    their length.
    """

    def __init__(self, padded: PaddedProblem, first: int) -> None:
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


def best_fit(padded: PaddedProblem, first: int) -> tuple[list[Column], list[int]]:
    """Best fit, longest pieces first: return the sticks, and the kinds of pieces left over."""
    rack, over = Rack(padded, first), list[int]()
    opened: list[tuple[int, list[int]]] = []
    rooms: list[tuple[int, int]] = []
    for kind, pieces in enumerate(padded.kinds):
        length = pieces.lies[0][0]
        for _ in range(pieces.count):
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
    padded: PaddedProblem, first: int, knapsack: Knapsack, steps_most: int
) -> tuple[list[Column], list[int]] | None:
    """Fill each stick as far as possible, beginning with the longest piece left.

    None where that takes too long. The better of this and best fit is usually near the best.
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


def smaller(padded: PaddedProblem, columns: Sequence[Column]) -> list[Column]:
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
    padded: PaddedProblem, knapsack: Knapsack, steps_most: int
) -> Iterator[tuple[list[Column], list[int]]]:
    """Yield answers of each rule, with every board that may be bought preferred in turn."""
    bought = [i for i, board in enumerate(padded.boards) if not board.free] or [0]
    for board in bought:
        yield best_fit(padded, board)
    for board in bought:
        answer = fullest(padded, board, knapsack, steps_most)
        if answer is not None:
            yield answer
