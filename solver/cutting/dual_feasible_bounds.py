"""Lower bounds on price and number of sheets, from covering rows of dual feasible functions.

Every bound here uses non-overlap only, so it holds for every pattern, whatever `stages` and
`first_cut` allow. In a covering row each part has a size and each board a capacity, and the
boards that are used must have room for all sizes together.

* Area: size and capacity are padded areas.
* Dual feasible functions (Fekete and Schepers 2004; Carlier, Clautiaux and Moukrim 2007):
  where f and g are superadditive with f(0) = g(0) = 0, parts side by side along the sheet
  have sum f <= f(sheet's length), likewise g across, and then the products f(a) g(b) of all
  parts on one sheet add up to at most f(length) g(width). A part that may turn counts the
  smaller of its two products.

The functions are taken over the longest and the widest board; being superadditive they
bound the smaller boards as well. All pairs are compared in floating point; the few best are
then worked out again in whole numbers, so no bound rests on rounding.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

import numpy as np

from solver.cutting.padded_sizes import PaddedProblem

Gaps = list[tuple[list[int], int]]

NODES_MOST = 20_000
"""Search nodes after which the cost per capacity alone bounds what is left [-]."""


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
        many nodes; then a valid lower bound from the least cost per capacity of each row.
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
        least = 0
        for row, need in zip(self.rows, needs, strict=True):
            if need <= 0:
                continue
            rates = [Fraction(self.costs[i], row[i]) for i in range(first, len(row)) if row[i] > 0]
            if not rates:
                return None
            least = max(least, -(-need * min(rates).numerator // min(rates).denominator))
        return least

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


Dual: TypeAlias = Callable[[int], int]

PARAMETERS_MOST = 24
"""Most different part sizes that one family of functions takes as parameters [-]."""


@dataclass(frozen=True)
class Row:
    """One covering row: capacity of each board, size of all parts together, and of one of each."""

    capacity: tuple[int, ...]
    need: int
    sizes: tuple[int, ...] = ()


def area_row(padded: PaddedProblem) -> Row:
    """Return the row of padded areas."""
    return row_of(
        padded, [kind.area for kind in padded.kinds], [board.area for board in padded.boards]
    )


def row_of(padded: PaddedProblem, sizes: Sequence[int], capacity: Sequence[int]) -> Row:
    """Return the row of one size for each kind and a capacity for each board."""
    need = sum(size * count for size, count in zip(sizes, padded.demand, strict=True))
    return Row(tuple(capacity), need, tuple(sizes))


def rounding_function(whole: int, k: int) -> Dual:
    """Return u(k): (k+1)x/C rounded down to whole k-ths; x itself where that is exact."""

    def f(x: int) -> int:
        at = (k + 1) * x
        return k * x if at % whole == 0 else at // whole * whole

    return f


def threshold_function(whole: int, small: int) -> Dual:
    """Return U(eps): sizes under `small` count nothing, those over C - `small` the whole."""

    def f(x: int) -> int:
        return whole if x > whole - small else 0 if x < small else x

    return f


def counting_function(whole: int, unit: int) -> Dual:
    """Return f(CCM,1): how many of `unit` fit into x; past half, how many fewer fit into C - x."""

    def f(x: int) -> int:
        if 2 * x > whole:
            return 2 * (whole // unit - (whole - x) // unit)
        return whole // unit if 2 * x == whole else 2 * (x // unit)

    return f


def identity(x: int) -> int:
    """Return the size itself."""
    return x


def functions(whole: int, sizes: set[int]) -> list[Dual]:
    """Return dual feasible functions for one direction: its whole side, the parts' sizes [tick]."""
    half = sorted(s for s in sizes | {whole - s for s in sizes} if 0 < 2 * s <= whole)
    chosen = half if len(half) <= PARAMETERS_MOST else half[:: len(half) // PARAMETERS_MOST + 1]
    found: list[Dual] = [identity]
    found += [rounding_function(whole, k) for k in range(1, 9)]
    for size in chosen:
        found += [threshold_function(whole, size), counting_function(whole, size)]
    found.append(threshold_function(whole, whole // 2))
    return found


def covering_rows(padded: PaddedProblem, most: int = 6) -> list[Row]:
    """Return the area row and the most demanding rows of all pairs of functions."""
    return [area_row(padded), *(_exact(padded, f, g) for f, g in pairs(padded, most))]


def pairs(padded: PaddedProblem, most: int) -> list[tuple[Dual, Dual]]:
    """Return the most demanding pairs of functions along and across, best first."""
    length, width = longest(padded)
    lies = [[(a, b) for a, b, _ in kind.lies] for kind in padded.kinds]
    along = functions(length, {a for ways in lies for a, _ in ways})
    across = functions(width, {b for ways in lies for _, b in ways})
    along = [f for f in along if f(length) > 0]
    across = [g for g in across if g(width) > 0]
    needs = _scan(padded, along, across, length, width)
    best = np.argsort(-needs, axis=None, kind="stable")[:most]
    places = (divmod(int(place), len(across)) for place in best)
    return [(along[i], across[j]) for i, j in places]


def longest(padded: PaddedProblem) -> tuple[int, int]:
    """Length of the longest and width of the widest board [tick]."""
    return max(b.length for b in padded.boards), max(b.width for b in padded.boards)


def _scan(
    padded: PaddedProblem, along: list[Dual], across: list[Dual], length: int, width: int
) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """Return, for every pair of functions, roughly how many largest boards it asks for [-]."""
    total = np.zeros((len(along), len(across)))
    for kind in padded.kinds:
        ways = [
            np.outer(
                [f(a) / f(length) for f in along],
                [g(b) / g(width) for g in across],
            )
            for a, b, _ in kind.lies
        ]
        total += kind.count * np.minimum.reduce(ways)
    return total


def _exact(padded: PaddedProblem, f: Dual, g: Dual) -> Row:
    """Work a row out in whole numbers."""
    sizes = [min(f(a) * g(b) for a, b, _ in kind.lies) for kind in padded.kinds]
    return row_of(padded, sizes, [f(board.length) * g(board.width) for board in padded.boards])


def lower_bounds(padded: PaddedProblem, found: list[Row]) -> tuple[int, int]:
    """Return proven lower bounds on (cost, number of bought sheets) from covering rows.

    With one size to buy both are a division; with several, the least cost and the least
    number that satisfy all rows are found exactly.
    """
    bought = [i for i, board in enumerate(padded.boards) if not board.free]
    gaps = []
    for row in found:
        free = sum(
            row.capacity[i] * (board.most or 0)
            for i, board in enumerate(padded.boards)
            if board.free
        )
        if row.need > free:
            gaps.append(([row.capacity[i] for i in bought], row.need - free))
    if not gaps:
        return 0, 0
    costs = [padded.boards[i].cost for i in bought]
    if len(bought) == 1:
        count = max(-(-need // capacity[0]) for capacity, need in gaps)
        return count * costs[0], count
    mosts = [padded.boards[i].most for i in bought]
    return least_cover(costs, mosts, gaps), least_cover([1] * len(costs), mosts, gaps)
