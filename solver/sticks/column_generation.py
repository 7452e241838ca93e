"""Column generation for sticks, and Farley's bound from its dual prices.

Patterns hold at most the demand of each kind, so the linear program is the stronger,
demand-bounded one. Its bound holds for every way of cutting sticks: the prices that the
program returns in floating point are made whole numbers, and the most valuable patterns at
these are found exactly.

Give each kind a price. Let a stick cost its price times a *rate*, and let each stick of which there
is a limited number cost a *stock price* besides, so that no pattern is worth more than its stick
costs. Then the whole demand is worth no more than all sticks together cost, which bounds the cost
from below (Farley's bound, with prices for limited stock). The difference between the bound and a
cost to be reached is all that the patterns of such an answer may waste together, so a single
pattern that wastes more is in none of them. All of this is worked out in whole numbers and
fractions of them: no bound rests on a program's tolerances.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, gcd
from types import ModuleType
from typing import Any

import numpy as np

from solver.cutting.padded_sizes import Board, PaddedProblem
from solver.outcome import Limits
from solver.sticks.stick_master import Column, Master

SLACK = 10
"""A new pattern must be worth this much more than its cost [1/SCALE]."""

DIVERSE = 6
"""Patterns added in one round at most, no two of them wanting the same pieces [-]."""

ENTRIES_MOST = 6_000_000
"""Entries of the knapsack's fronts; where they do not suffice nothing is generated [-]."""

NODES_MOST = 20_000_000
"""Steps of one enumeration of patterns [-]."""


class ColumnGeneration:
    """Solves the linear program over all patterns, for the whole demand or a part of it.

    Parameters
    ----------
    start
        Patterns to begin with.
    knapsack
        Of the same kinds and boards.

    Attributes
    ----------
    rounds
        Rounds of column generation that were spent [-].
    proof
        The best bound of the last program, and the prices that prove it.
    failed
        True where the fronts of the knapsack get too large.
    """

    def __init__(self, padded: PaddedProblem, start: Sequence[Column], knapsack: Knapsack) -> None:
        self.padded = padded
        self.knapsack = knapsack
        self.master = Master(padded, start)
        self.rounds = 0
        self.failed = False
        self.proof = self._prove([0] * len(padded.kinds), padded.demand, ())

    def solve(
        self, demand: Sequence[int], rounds_most: int, limits: Limits, taken: Sequence[int] = ()
    ) -> int:
        """Generate columns until none is missing; return the bound that was proven on the way.

        `taken` is how many of each board are used already [-].
        """
        self.master.want(demand, taken)
        self.proof = self._prove([0] * len(demand), demand, taken)
        while self.rounds < rounds_most and not limits.over and not self.failed:
            self.rounds += 1
            values, limited = self.master.prices()
            fresh = self._fresh(values, limited, demand, taken)
            if not fresh:
                break
            for column in fresh:
                self.master.add(column)
        return ceil(self.proof.bound)

    def _fresh(
        self, values: list[int], limited: list[int], demand: Sequence[int], taken: Sequence[int]
    ) -> list[Column]:
        """Return patterns that the program lacks; keep the bound of these prices."""
        left, fresh = list(demand), dict[Column, None]()
        for round_ in range(DIVERSE):
            self.failed = self.failed or not self.knapsack.price(values, left)
            if self.failed:
                break
            best = [self.knapsack.best(i) for i in range(len(self.padded.boards))]
            if round_ == 0:
                proof = self._prove(values, demand, taken, [value for value, _ in best])
                self.proof = max(self.proof, proof, key=lambda p: p.bound)
            good = [
                (value - cost, (i, counts))
                for i, (value, counts) in enumerate(best)
                if value > (cost := self.master.whole_cost(i) + limited[i]) + SLACK
            ]
            if not good:
                break
            fresh.update(dict.fromkeys(c for _, c in good if c not in self.master.index))
            counts = max(good)[1][1]
            left = [n - c for n, c in zip(left, counts, strict=True)]
        return list(fresh)

    def _prove(
        self,
        values: Sequence[int],
        demand: Sequence[int],
        taken: Sequence[int],
        tops: Sequence[int] | None = None,
    ) -> FarleyBound:
        boards = self.padded.boards
        spent = taken or [0] * len(boards)
        mosts = [None if b.most is None else b.most - n for b, n in zip(boards, spent, strict=True)]
        return farley_bound(boards, mosts, demand, values, tops or [0] * len(boards))

    def patterns(
        self, demand: Sequence[int], cost: int, most: int, proof: FarleyBound | None = None
    ) -> list[Column] | None:
        """Return every pattern that an answer of at most `cost` may use.

        Parameters
        ----------
        most
            Where there are more patterns, None is returned [-].
        proof
            The bound for this demand; left out, that of the program solved last.
        """
        proof = proof or self.proof
        if self.failed or not self.knapsack.price(proof.values, demand):
            return None
        columns: list[Column] = []
        for board, least in enumerate(proof.least(self.padded.boards, cost)):
            some = self.knapsack.worth(board, max(0, least), most - len(columns))
            if some is None:
                return None
            columns += some
        return columns


@dataclass(frozen=True)
class FarleyBound:
    """A bound, and the prices that prove it.

    Attributes
    ----------
    values
        Price of each kind [-].
    rate
        What one unit of cost may be worth; 0 where nothing is proven.
    stock_prices
        Cost of a stick of each board besides; 0 where there is any number.
    bound
        No answer costs less.
    """

    values: tuple[int, ...]
    rate: Fraction
    stock_prices: tuple[Fraction, ...]
    bound: Fraction

    def least(self, boards: Sequence[Board], cost: int) -> list[int]:
        """Return, for each board, what a pattern of an answer of at most `cost` must be worth."""
        spare = (cost - self.bound) * self.rate
        return [
            ceil(board.cost * self.rate + stock_price - spare)
            for board, stock_price in zip(boards, self.stock_prices, strict=True)
        ]


def farley_bound(
    boards: Sequence[Board],
    mosts: Sequence[int | None],
    demand: Sequence[int],
    values: Sequence[int],
    tops: Sequence[int],
) -> FarleyBound:
    """Return the best bound that prices of the kinds prove.

    Parameters
    ----------
    mosts
        How many of each board there are still; None is any number [-].
    values
        Price of each kind [-].
    tops
        What the most valuable pattern of each board is worth at these prices [-].
    """
    worth = sum(value * wanted for value, wanted in zip(values, demand, strict=True))
    least = _least_rate(boards, mosts, tops)
    rates = [Fraction(t, b.cost) for b, t in zip(boards, tops, strict=True) if b.cost]
    nothing = tuple(Fraction(0) for _ in boards)
    best = FarleyBound(tuple(values), Fraction(0), nothing, Fraction(0))
    if least is None:
        return best
    for rate in {least, *(r for r in rates if r > least)} - {Fraction(0)}:
        stock_prices = tuple(
            max(Fraction(0), t - board.cost * rate) for board, t in zip(boards, tops, strict=True)
        )
        pairs = zip(stock_prices, mosts, strict=True)
        stock_cost = sum((price * (most or 0) for price, most in pairs), Fraction(0))
        bound = (worth - stock_cost) / rate
        if bound > best.bound:
            best = FarleyBound(tuple(values), rate, stock_prices, bound)
    return best


def _least_rate(
    boards: Sequence[Board], mosts: Sequence[int | None], tops: Sequence[int]
) -> Fraction | None:
    """Return the least rate without a stock price for unlimited boards; None where one is free."""
    endless = [
        (board.cost, t) for board, most, t in zip(boards, mosts, tops, strict=True) if most is None
    ]
    if any(cost == 0 and t > 0 for cost, t in endless):
        return None
    return max((Fraction(t, cost) for cost, t in endless if cost), default=Fraction(0))


def compiled_knapsack() -> ModuleType:
    """Load the compiled functions, here and not at start: loading the compiler takes time."""
    from solver.sticks import knapsack

    return knapsack


class Knapsack:
    """The most valuable pattern of a stick, exactly, in whole units of the lengths' divisor."""

    def __init__(self, padded: PaddedProblem) -> None:
        lengths = [kind.lies[0][0] for kind in padded.kinds]
        self.unit = gcd(*lengths)
        self.lengths = np.array([length // self.unit for length in lengths], dtype=np.int64)
        self.rooms = [board.length // self.unit for board in padded.boards]
        self._code = compiled_knapsack()
        self._sizes, self._values = (np.empty(ENTRIES_MOST, dtype=np.int64) for _ in range(2))
        self._low, self._high = (np.zeros(len(lengths) + 1, dtype=np.int64) for _ in range(2))
        self._kinds: Any = None

    def price(self, values: Sequence[int], demand: Sequence[int]) -> bool:
        """Set prices and how many of each kind a pattern may hold; False where it is too large."""
        worth = np.array(values, dtype=np.int64)
        most = np.array(demand, dtype=np.int64)
        self._kinds = self.lengths, worth, most
        return bool(self._code.fill_fronts(*self._kinds, max(self.rooms), *self._fronts))

    @property
    def _fronts(self) -> tuple[Any, ...]:
        return self._sizes, self._values, self._low, self._high

    def best(self, board: int, without: int = 0) -> tuple[int, tuple[int, ...]]:
        """Return what the most valuable pattern of a board is worth, and its counts.

        `without` is length of the board that is used already [tick].
        """
        counts = np.zeros(len(self.lengths), dtype=np.int64)
        room = self.rooms[board] - without // self.unit
        value = self._code.best_pattern(*self._kinds, room, *self._fronts, counts)
        return int(value), tuple(counts.tolist())

    def worth(self, board: int, least: int, most: int) -> list[Column] | None:
        """Return all patterns of a board worth `least` or more; None where more than `most`."""
        found = np.zeros((most, len(self.lengths)), dtype=np.int16)
        number = self._code.list_patterns(
            *self._kinds, self.rooms[board], least, *self._fronts, found, NODES_MOST
        )
        if number < 0:
            return None
        return [(board, tuple(counts)) for counts in found[:number].tolist() if any(counts)]
