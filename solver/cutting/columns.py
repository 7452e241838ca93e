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
from typing import Any

import numpy as np
from ortools.linear_solver.python import model_builder

from solver.cutting.padded import Padded
from solver.outcome import Limits

Column = tuple[int, tuple[int, ...]]
"""A board's index and how many of each kind a stick of it gives [-]."""

SCALE = 10**7
TABLE_MOST = 40_000_000
"""Largest table of the knapsack, in cells; beyond it the model is not built."""
ROUNDS_MOST = 400


class Knapsack:
    """The most valuable pattern of a stick, exactly, in whole units of the lengths' divisor."""

    def __init__(self, padded: Padded) -> None:
        self.lengths = [kind.lies[0][0] for kind in padded.kinds]
        unit = gcd(*self.lengths)
        self.sizes = [length // unit for length in self.lengths]
        self.rooms = [board.length // unit for board in padded.boards]
        self.items = [
            (kind, times)
            for kind, demand in enumerate(padded.demand)
            for times in _powers(min(demand, max(self.rooms) // self.sizes[kind]))
        ]

    @property
    def fits(self) -> bool:
        """True where the table is of a reasonable size."""
        return (max(self.rooms) + 1) * len(self.items) <= TABLE_MOST

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


def _powers(count: int) -> list[int]:
    """Split a count into powers of two and a rest, so that every smaller count is a sum."""
    parts, power = [], 1
    while count > 0:
        parts.append(min(power, count))
        count -= parts[-1]
        power *= 2
    return parts


def generate(padded: Padded, start: list[Column], limits: Limits) -> tuple[list[Column], int]:
    """Generate columns until the linear program is solved.

    Returns
    -------
    tuple[list[Column], int]
        All columns, and a proven lower bound on the cost.
    """
    knapsack = Knapsack(padded)
    if not knapsack.fits:
        return start, 0
    columns, known, bound = list(start), set(start), 0
    for _ in range(ROUNDS_MOST):
        if limits.over:
            break
        values, limit_values = _prices(padded, columns)
        best = knapsack.best(values)
        bound = max(bound, _farley(padded, values, [value for value, _ in best]))
        fresh = [
            (i, counts)
            for i, (value, counts) in enumerate(best)
            if value
            > padded.boards[i].cost * SCALE // _unit(padded) + limit_values[i] + len(values)
            and (i, counts) not in known
        ]
        if not fresh:
            break
        columns += fresh
        known.update(fresh)
    return columns, bound


def _unit(padded: Padded) -> int:
    """The dearest board's cost: costs in the linear program are shares of it [-]."""
    return max((board.cost for board in padded.boards), default=1) or 1


def _prices(padded: Padded, columns: list[Column]) -> tuple[list[int], list[int]]:
    """Solve the linear program; return whole prices of kinds and of limited boards [1/SCALE]."""
    model: Any = model_builder.Model()  # type: ignore[no-untyped-call]
    unit = _unit(padded)
    uses = [model.new_num_var(0, float("inf"), f"use[{i}]") for i in range(len(columns))]
    slack = [model.new_num_var(0, float("inf"), f"short[{k}]") for k in range(len(padded.kinds))]
    covers = [
        model.add(
            sum(
                use * column[1][k]
                for use, column in zip(uses, columns, strict=True)
                if column[1][k]
            )
            + slack[k]
            >= demand
        )
        for k, demand in enumerate(padded.demand)
    ]
    stocks = [
        (
            i,
            model.add(
                sum(u for u, c in zip(uses, columns, strict=True) if c[0] == i) <= board.most
            ),
        )
        for i, board in enumerate(padded.boards)
        if board.most is not None and any(c[0] == i for c in columns)
    ]
    cost = sum(u * (padded.boards[c[0]].cost / unit) for u, c in zip(uses, columns, strict=True))
    model.minimize(cost + sum(s * 10.0 for s in slack))
    solver = model_builder.Solver("glop")
    solver.solve(model)
    values = [max(0, int(solver.dual_value(cover) * SCALE)) for cover in covers]
    limited = [0] * len(padded.boards)
    for i, stock in stocks:
        limited[i] = max(0, int(-solver.dual_value(stock) * SCALE))
    return values, limited


def _farley(padded: Padded, values: list[int], tops: list[int]) -> int:
    """Return the bound that whole prices prove.

    Divided by the most that a bought stick is worth over its cost, the prices are
    allowed; sticks on hand cost nothing, and what they hold is taken off instead.
    """
    worth = sum(value * demand for value, demand in zip(values, padded.demand, strict=True))
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
