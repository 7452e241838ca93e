"""The master problem of column generation for sticks: the linear program over known patterns."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TypeAlias

from ortools.linear_solver import pywraplp  # type: ignore[import-untyped]

from solver.cutting.padded_sizes import PaddedProblem

Column: TypeAlias = tuple[int, tuple[int, ...]]
"""A pattern: a board's index and how many of each kind are cut from it [-]."""

SCALE = 10**7
"""Prices of the linear program are taken as whole numbers of 1/SCALE of the dearest board."""

SHORT = 10.0
"""Penalty for leaving one part out, in dearest boards: more than any price of a part."""


class Master:
    """How often each column is used, so that the demand is covered at least cost.

    Attributes
    ----------
    columns, index
        The columns, and the place of each in the list [-].
    """

    def __init__(self, padded: PaddedProblem, start: Sequence[Column]) -> None:
        self.padded = padded
        self.columns: list[Column] = []
        self.index: dict[Column, int] = {}
        self._unit = max((board.cost for board in padded.boards), default=1) or 1
        self._program: Any = pywraplp.Solver.CreateSolver("GLOP")
        self._endless = self._program.infinity()
        self._uses: list[Any] = []
        self._covers = [self._program.Constraint(n, self._endless) for n in padded.demand]
        self._stocks = {
            i: self._program.Constraint(0, board.most)
            for i, board in enumerate(padded.boards)
            if board.most is not None
        }
        self._program.Objective().SetMinimization()
        for cover in self._covers:
            short = self._program.NumVar(0, self._endless, "")
            cover.SetCoefficient(short, 1)
            self._program.Objective().SetCoefficient(short, SHORT)
        for column in start:
            self.add(column)

    def add(self, column: Column) -> None:
        """Add a column."""
        board, counts = column
        use = self._program.NumVar(0, self._endless, "")
        for cover, count in zip(self._covers, counts, strict=True):
            if count:
                cover.SetCoefficient(use, count)
        if board in self._stocks:
            self._stocks[board].SetCoefficient(use, 1)
        self._program.Objective().SetCoefficient(use, self.padded.boards[board].cost / self._unit)
        self.index[column] = len(self.columns)
        self.columns.append(column)
        self._uses.append(use)

    def want(self, demand: Sequence[int], taken: Sequence[int] = ()) -> None:
        """Set the demand; columns that hold more than that are not used.

        `taken` is how many of each board are used already [-].
        """
        for cover, wanted in zip(self._covers, demand, strict=True):
            cover.SetBounds(wanted, self._endless)
        for use, (_, counts) in zip(self._uses, self.columns, strict=True):
            allowed = all(c <= wanted for c, wanted in zip(counts, demand, strict=True))
            use.SetBounds(0, self._endless if allowed else 0)
        for board, stock in self._stocks.items():
            most = self.padded.boards[board].most or 0
            stock.SetBounds(0, most - (taken[board] if taken else 0))

    def prices(self) -> tuple[list[int], list[int]]:
        """Solve; return whole prices of kinds and of limited boards [1/SCALE]."""
        self._program.Solve()
        values = [max(0, int(cover.dual_value() * SCALE)) for cover in self._covers]
        limited = [0] * len(self.padded.boards)
        for board, stock in self._stocks.items():
            limited[board] = max(0, int(-stock.dual_value() * SCALE))
        return values, limited

    def whole_cost(self, board: int) -> int:
        """Cost of a board in the unit of the prices [1/SCALE]."""
        return self.padded.boards[board].cost * SCALE // self._unit

    def uses(self) -> list[float]:
        """How often each column is used in the last solution [-]."""
        return [use.solution_value() for use in self._uses]
