"""The cheapest boards whose capacities cover every need: a small integer program."""

from __future__ import annotations

from fractions import Fraction

Gaps = list[tuple[list[int], int]]

NODES_MOST = 20_000
"""Search nodes after which the rates alone bound what is left [-]."""


def least_cover(costs: list[int], mosts: list[int | None], gaps: Gaps) -> int:
    """Return the least cost, or a lower bound on it, of covering all `gaps`.

    Parameters
    ----------
    costs, mosts
        Cost of each board, and how many there are (None: any number).
    gaps
        For each row the capacity of each board, and the need [-].

    Returns
    -------
    int
        Exact by branch and bound on the number of each board, unless that takes too
        many nodes; then a valid lower bound from the best rate of each row.
    """
    if not costs:
        return 0
    search = _Search(costs, mosts, gaps)
    search.go(0, 0, [need for _, need in gaps])
    return search.best if search.best is not None and not search.cut else search.root


class _Search:
    def __init__(self, costs: list[int], mosts: list[int | None], gaps: Gaps) -> None:
        self.costs, self.mosts = costs, mosts
        self.rows = [row for row, _ in gaps]
        self.best: int | None = None
        self.nodes, self.cut = 0, False
        self.root = self.rate(0, [need for _, need in gaps]) or 0

    def rate(self, first: int, needs: list[int]) -> int | None:
        """Lower bound on covering `needs` with boards from `first` on; None where none can."""
        bound = 0
        for row, need in zip(self.rows, needs, strict=True):
            if need <= 0:
                continue
            rates = [Fraction(self.costs[i], row[i]) for i in range(first, len(row)) if row[i] > 0]
            if not rates:
                return None
            bound = max(bound, -(-need * min(rates).numerator // min(rates).denominator))
        return bound

    def go(self, first: int, spent: int, needs: list[int]) -> None:
        """Branch on how many of board `first` are taken, most first."""
        self.nodes += 1
        if self.nodes > NODES_MOST:
            self.cut = True
            return
        rest = self.rate(first, needs)
        if rest is None or (self.best is not None and spent + rest >= self.best):
            return
        if all(need <= 0 for need in needs):
            self.best = spent
            return
        for count in range(self._enough(first, needs), -1, -1):
            left = [need - count * row[first] for need, row in zip(needs, self.rows, strict=True)]
            self.go(first + 1, spent + count * self.costs[first], left)

    def _enough(self, first: int, needs: list[int]) -> int:
        """How many of board `first` cover every need by themselves, or how many there are."""
        wanted = max(
            (
                -(-need // row[first])
                for need, row in zip(needs, self.rows, strict=True)
                if need > 0 and row[first] > 0
            ),
            default=0,
        )
        most = self.mosts[first]
        return wanted if most is None else min(wanted, most)
