"""The state of one search for sheets: the best layout so far, its price, and what is proven."""

from __future__ import annotations

from solver.cutting.cut_tree import INNER, RIP, WASTE, Layout, Node
from solver.cutting.dual_feasible_bounds import Row, area_row, covering_rows, lower_bounds
from solver.cutting.padded_sizes import PaddedProblem
from solver.outcome import Limits, Status

Score = tuple[int, int, int, int, int]


class SearchState:
    """Keeps the best layout offered, and the bounds.

    Layouts are compared by price, then by the number of bought sheets, then by how easy they
    are to cut: fewest rips, fewest different settings, the largest offcut in one piece.

    Attributes
    ----------
    best, score
        The best layout and its score; None while there is none.
    rows
        Covering rows that hold for every pattern.
    cost_bound, count_bound
        Proven: nothing costs less, nor takes fewer bought sheets.
    left_over
        While there is no layout: kinds of the parts that the best attempt left over.
    """

    def __init__(self, padded: PaddedProblem) -> None:
        self.padded = padded
        self.best: Layout | None = None
        self.score: Score | None = None
        self.rows: list[Row] = [area_row(padded)]
        self.cost_bound, self.count_bound = lower_bounds(padded, self.rows)
        self.left_over: list[int] | None = None
        self._settled = False

    def offer(self, layout: Layout | list[int]) -> bool:
        """Keep a better layout, or of failed attempts the kinds of that which leaves least over.

        True where the layout costs less than the best, or takes fewer sheets at its price.
        """
        if isinstance(layout, list):
            if self.left_over is None or self._area(layout) < self._area(self.left_over):
                self.left_over = layout
            return False
        layout.sheets = [sheet for sheet in layout.sheets if sheet.used]
        score = score_of(layout)
        if self.score is not None and score >= self.score:
            return False
        cheaper = self.score is None or score[:2] < self.score[:2]
        self.best, self.score = layout, score
        return cheaper

    def goes_on(self, limits: Limits) -> bool:
        """Return True where there is a gap to close, and time to do so."""
        return not self.done and not limits.over

    def _area(self, kinds: list[int]) -> int:
        return sum(self.padded.kinds[kind].area for kind in kinds)

    def sharpen(self) -> None:
        """Add the rows of dual feasible functions to the bounds."""
        self.rows = covering_rows(self.padded)
        cost, count = lower_bounds(self.padded, self.rows)
        self.cost_bound = max(self.cost_bound, cost)
        self.count_bound = max(self.count_bound, count)

    def raise_bound(self, cost: int) -> None:
        """Take over a proven lower bound on the cost; where all cost the same, on the number."""
        self.cost_bound = max(self.cost_bound, cost)
        costs = {board.cost for board in self.padded.boards if not board.free}
        if len(costs) == 1 and 0 not in costs:
            self.count_bound = max(self.count_bound, -(-cost // costs.pop()))

    def settle(self) -> None:
        """Take the best as proven: every choice of boards that would be better is refuted.

        With several sizes that bounds the price only: a dearer choice may have fewer sheets.
        """
        if self.score is not None:
            self.raise_bound(self.score[0])
            self._settled = True

    @property
    def done(self) -> bool:
        """True where nothing cheaper is possible, nor fewer sheets at that price."""
        if self.score is None:
            return False
        return self._settled or self.score[:2] <= (self.cost_bound, self.count_bound)

    @property
    def stock_too_small(self) -> bool:
        """True where all boards together have no room for the parts, by some covering row."""
        boards = self.padded.boards
        if any(board.most is None for board in boards):
            return False
        return any(
            sum(c * (b.most or 0) for c, b in zip(row.capacity, boards, strict=True)) < row.need
            for row in self.rows
        )

    def status(self, comparable: bool) -> Status:
        """OPTIMAL where nothing cheaper is possible.

        Where some sheets have prices and others none, areas were compared: then nothing
        is proven about money (`comparable` False), unless nothing is bought.
        """
        met = self.score is not None and self.score[0] <= self.cost_bound
        free = self.score is not None and self.score[1] == 0
        return Status.OPTIMAL if free or (met and comparable) else Status.FEASIBLE


def score_of(layout: Layout) -> Score:
    """Return (price, bought sheets, rips, settings, size of the largest offcut, negative)."""
    bought = [sheet.board for sheet in layout.sheets if not sheet.board.free]
    offcut = max((largest_waste(sheet.root) for sheet in layout.sheets), default=0)
    return (
        sum(board.cost for board in bought),
        len(bought),
        sum(rips(sheet.root) for sheet in layout.sheets),
        len({size for sheet in layout.sheets for size in settings(sheet.root)}),
        -offcut,
    )


def largest_waste(root: Node) -> int:
    """Area of the largest free rectangle [tick2]."""
    return max((w.length * w.width for w in root.leaves() if w.kind == WASTE), default=0)


def rips(node: Node) -> int:
    """Number of cuts along the sheet's length [-]."""
    own = len(node.children) - 1 if node.kind == INNER and node.split == RIP else 0
    return own + sum(rips(child) for child in node.children)


def settings(node: Node) -> set[tuple[int, int]]:
    """What fences and stops are set to: direction of the cut, and the size kept by it [-, tick]."""
    sizes = set()
    for child in node.children:
        if child.kind != WASTE:
            sizes.add((node.split, child.width if node.split == RIP else child.length))
        sizes |= settings(child)
    return sizes
