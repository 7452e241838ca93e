"""The pattern model of one-dimensional cutting: a linear program, and a bound from it.

Patterns hold at most the demand of each kind, so the linear program is the stronger,
demand-bounded one. Its bound holds for every way of cutting sticks: any assignment of
prices to kinds, under which no pattern is worth more than its stick costs, proves that
the whole demand costs at least what it is worth at these prices. The prices that the
program returns in floating point are made whole numbers, the most valuable patterns at
these are found exactly, and the bound is worked out in whole numbers from those (Farley's
bound), so it does not rest on the program's tolerances.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import gcd

import numpy as np

from solver.cutting.master import Column, Master
from solver.cutting.padded import Padded

SLACK = 10
"""A new pattern must be worth this much more than its cost [1/SCALE]."""
TABLE_MOST = 40_000_000
"""Largest table of the knapsack, in cells; beyond it the model is not built."""


class Knapsack:
    """The most valuable pattern of a stick, exactly, in whole units of the lengths' divisor."""

    def __init__(self, padded: Padded) -> None:
        self.lengths = [kind.lies[0][0] for kind in padded.kinds]
        unit = gcd(*self.lengths)
        self.sizes = [length // unit for length in self.lengths]
        self.rooms = [board.length // unit for board in padded.boards]
        self.demand = list(padded.demand)
        self.items: list[tuple[int, int]] = []
        self.want(padded.demand)

    def want(self, demand: Sequence[int]) -> None:
        """Set how many of each kind a pattern may hold at most [-]."""
        room = max(self.rooms)
        self.items = [
            (kind, times)
            for kind, wanted in enumerate(demand)
            for times in _powers(min(wanted, room // self.sizes[kind]))
        ]

    def best(self, values: Sequence[int]) -> list[tuple[int, tuple[int, ...]]]:
        """Return for each board (value, counts) of its most valuable pattern."""
        room = max(self.rooms)
        table = np.zeros(room + 1, dtype=np.int64)
        taken = []
        for kind, times in self.items:
            size, value = self.sizes[kind] * times, values[kind] * times
            take = np.zeros(room + 1, dtype=np.bool_)
            if value > 0 and size <= room:
                candidate = table[: room + 1 - size] + value
                take[size:] = candidate > table[size:]
                table[size:] = np.maximum(table[size:], candidate)
            taken.append(take)
        return [(int(table[at]), self._pattern(taken, at)) for at in self.rooms]

    def _pattern(
        self, taken: list[np.ndarray[tuple[int], np.dtype[np.bool_]]], at: int
    ) -> tuple[int, ...]:
        counts = [0] * len(self.sizes)
        for (kind, times), take in zip(reversed(self.items), reversed(taken), strict=True):
            if take[at]:
                counts[kind] += times
                at -= self.sizes[kind] * times
        return tuple(counts)


def fits(padded: Padded) -> bool:
    """Return True where the knapsack's table is of a reasonable size."""
    knapsack = Knapsack(padded)
    return (max(knapsack.rooms) + 1) * len(knapsack.items) <= TABLE_MOST


def _powers(count: int) -> list[int]:
    """Split a count into powers of two and a rest, so that every smaller count is a sum."""
    parts, power = [], 1
    while count > 0:
        parts.append(min(power, count))
        count -= parts[-1]
        power *= 2
    return parts


class Generator:
    """Solves the linear program over all patterns, for the whole demand or a part of it."""

    def __init__(self, padded: Padded, start: Sequence[Column]) -> None:
        self.padded = padded
        self.knapsack = Knapsack(padded)
        self.master = Master(padded, start)
        self.rounds = 0

    def solve(self, demand: Sequence[int], rounds_most: int, taken: Sequence[int] = ()) -> int:
        """Generate columns until none is missing; return the bound that was proven on the way.

        `taken` is how many of each board are spent already [-].
        """
        self.knapsack.want(demand)
        self.master.want(demand, taken)
        bound = 0
        while self.rounds < rounds_most:
            self.rounds += 1
            values, limited = self.master.prices()
            best = self.knapsack.best(values)
            bound = max(bound, farley(self.padded, demand, values, [v for v, _ in best]))
            fresh = [
                (i, counts)
                for i, (value, counts) in enumerate(best)
                if value > self.master.whole_cost(i) + limited[i] + SLACK
                and (i, counts) not in self.master.index
            ]
            if not fresh:
                break
            for column in fresh:
                self.master.add(column)
        return bound


def farley(
    padded: Padded, demand: Sequence[int], values: Sequence[int], tops: Sequence[int]
) -> int:
    """Return the bound that whole prices prove.

    Divided by the most that a bought stick is worth over its cost, the prices are
    allowed; sticks on hand cost nothing, and what they hold is taken off instead.
    """
    worth = sum(value * wanted for value, wanted in zip(values, demand, strict=True))
    free = sum(
        top * (board.most or 0)
        for top, board in zip(tops, padded.boards, strict=True)
        if board.free
    )
    rates = [
        Fraction(board.cost, top)
        for top, board in zip(tops, padded.boards, strict=True)
        if not board.free and top > 0
    ]
    if not rates or worth <= free:
        return 0
    proven = min(rates) * (worth - free)
    return -(-proven.numerator // proven.denominator)
