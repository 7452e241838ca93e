"""Whole sticks chosen out of patterns, so that all pieces are cut: an integer program.

The patterns come from :meth:`solver.cutting.columns.Generator.patterns`. Where those are all
that an answer of some cost may use, finding none proves that there is none.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import gcd
from typing import Any

from ortools.linear_solver import pywraplp  # type: ignore[import-untyped]

from solver.cutting.master import Column
from solver.cutting.padded import Padded
from solver.outcome import Limits

Weigh = Callable[[Column], int]


@dataclass(frozen=True)
class Choice:
    """What was chosen, and whether nothing better is among the patterns.

    Attributes
    ----------
    columns
        Each as often as it is used; None where none was found.
    settled
        True where it is the best choice, or where there is none at all.
    """

    columns: list[Column] | None
    settled: bool


class Chooser:
    """The integer program over patterns: every piece exactly once, no more sticks than there are.

    Parameters
    ----------
    demand
        How many of each kind are wanted [-].
    taken
        How many of each board are spent already [-].
    """

    def __init__(
        self,
        padded: Padded,
        columns: Sequence[Column],
        demand: Sequence[int],
        taken: Sequence[int] = (),
    ) -> None:
        self.padded, self.columns, self.demand = padded, list(columns), list(demand)
        self._program: Any = pywraplp.Solver.CreateSolver("SCIP")
        self._uses = [
            self._program.IntVar(0, _most(padded, column, demand), "") for column in columns
        ]
        for kind, wanted in enumerate(demand):
            self._limit(lambda c, kind=kind: c[1][kind], wanted, wanted)  # type: ignore[misc]
        for index, board in enumerate(padded.boards):
            if board.most is not None:
                most = board.most - (taken[index] if taken else 0)
                self._limit(lambda c, index=index: int(c[0] == index), 0, most)  # type: ignore[misc]

    def _limit(self, weigh: Weigh, least: float, most: float) -> None:
        row = self._program.Constraint(least, most)
        for use, column in zip(self._uses, self.columns, strict=True):
            weight = weigh(column)
            if weight:
                row.SetCoefficient(use, weight)

    def at_most(self, weigh: Weigh, most: int) -> None:
        """Keep what the chosen columns weigh together within `most`."""
        self._limit(weigh, -self._program.infinity(), most)

    def least(self, weigh: Weigh, nodes: int, limits: Limits) -> Choice:
        """Choose the columns that weigh least together, in so many nodes of the search tree."""
        objective = self._program.Objective()
        objective.Clear()
        for use, column in zip(self._uses, self.columns, strict=True):
            objective.SetCoefficient(use, weigh(column))
        objective.SetMinimization()
        status = self._solve(nodes, limits)
        if status not in (pywraplp.Solver.OPTIMAL, pywraplp.Solver.FEASIBLE):
            return Choice(None, status == pywraplp.Solver.INFEASIBLE)
        chosen = [
            column
            for use, column in zip(self._uses, self.columns, strict=True)
            for _ in range(round(use.solution_value()))
        ]
        if not self._exact(chosen):
            return Choice(None, settled=False)
        return Choice(chosen, status == pywraplp.Solver.OPTIMAL)

    def _solve(self, nodes: int, limits: Limits) -> int:
        """Run the program; the clock is a backstop only, nodes are what repeats exactly."""
        self._program.SetSolverSpecificParametersAsString(
            f"limits/totalnodes = {nodes}\n"
            f"randomization/randomseedshift = {limits.seed}\n"
            f"limits/time = {max(0.01, limits.seconds_left)}\n"
            "separating/maxroundsroot = 5\n"
        )
        key = limits.stopper.register(self._program.InterruptSolve)
        try:
            status: int = self._program.Solve()
        finally:
            limits.stopper.forget(key)
        return status

    def _exact(self, chosen: Sequence[Column]) -> bool:
        """True where the rounded answer cuts every piece once: the program works in floats."""
        cut = [sum(counts) for counts in zip(*(counts for _, counts in chosen), strict=True)]
        return cut == self.demand or not (chosen or any(self.demand))


def cost_unit(padded: Padded) -> int:
    """Return the common divisor of all costs."""
    return gcd(*(board.cost for board in padded.boards)) or 1


def whole_cost(padded: Padded) -> Weigh:
    """Return the weight of a column by its cost, in the common divisor of all costs."""
    unit = cost_unit(padded)
    return lambda column: padded.boards[column[0]].cost // unit


def _most(padded: Padded, column: Column, demand: Sequence[int]) -> int:
    """How often a column fits the demand."""
    often = min(wanted // count for wanted, count in zip(demand, column[1], strict=True) if count)
    most = padded.boards[column[0]].most
    return often if most is None else min(often, most)
