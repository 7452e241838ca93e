"""The state of one search for sticks: the best answer so far, and what is proven."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from solver.cutting.choose import cost_unit
from solver.cutting.master import Column
from solver.cutting.padded import Padded
from solver.outcome import Limits, Status


class Sticks:
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

    def __init__(self, padded: Padded) -> None:
        self.padded = padded
        self.best: list[Column] | None = None
        self.score: tuple[int, int] | None = None
        self.fewest = False
        self.impossible = False
        self.cost_bound = self.count_bound = 0
        self._by_length()

    def _by_length(self) -> None:
        """Bound by lengths alone."""
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
        """True where the cost says how many sticks it is."""
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


def score_of(padded: Padded, columns: Sequence[Column]) -> tuple[int, int]:
    """Return (cost, sticks to buy)."""
    boards = [padded.boards[board] for board, _ in columns]
    return sum(board.cost for board in boards), sum(not board.free for board in boards)


def _on_hand_first(padded: Padded, columns: list[Column]) -> list[Column]:
    """Cut from what is on hand whatever was to be cut from the same length, bought."""
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
