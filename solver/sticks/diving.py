"""Diving, and the integer program over patterns: two ways from a linear program to whole sticks.

A dive fixes the patterns that the linear program uses most and solves it again for the rest.
Patterns of the rest hold no more than is still wanted, so each step's program fits what is left. A
dive is given up as soon as the rest's bound says that it cannot reach the target cost. It ends in
an integer program as soon as few patterns are left that may reach it.

The integer program chooses sticks out of patterns, so that all pieces are cut. Its patterns come
from :meth:`solver.sticks.column_generation.ColumnGeneration.patterns`. Where those are all that an
answer of some cost may use, finding none proves that there is none.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from math import floor, gcd
from typing import Any

from ortools.linear_solver import pywraplp  # type: ignore[import-untyped]

from solver.cutting.padded_sizes import PaddedProblem
from solver.outcome import Limits
from solver.sticks.column_generation import ColumnGeneration
from solver.sticks.stick_master import Column

WHOLE = 1e-6
"""Uses under this count as none, and uses less than this under a whole number as whole [-]."""
REST_MOST = 600
"""Patterns of a rest, at most, over which the integer program is solved [-]."""
REST_NODES = 40
"""Nodes of its search tree for a rest [-]."""
REST_PIECES = 60
"""Pieces of a rest, at most, for which its patterns are listed [-]."""
DRAWN = 4
"""Later dives choose the pattern to fix at random among so many of the most used [-]."""


@dataclass
class Dive:
    """One dive: the sticks that are fixed already, and the pieces that are left.

    Attributes
    ----------
    target
        The cost to reach: the dive ends where it is out of reach.
    chance
        Where given, the pattern to fix is drawn at random among the most used ones.
    """

    generator: ColumnGeneration
    target: int
    chance: random.Random | None
    rounds_most: int
    limits: Limits
    chosen: list[Column] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.padded = self.generator.padded
        self.left: list[int] = list(self.padded.demand)
        self.taken = [0] * len(self.padded.boards)
        self.cost = 0

    def run(self) -> list[Column] | None:
        """Return columns that cut everything at the target's cost or less, or None."""
        while any(self.left):
            bound = self.generator.solve(self.left, self.rounds_most, self.limits, self.taken)
            spent = self.generator.rounds >= self.rounds_most or self.limits.over
            if spent or self.generator.failed or self.cost + bound > self.target:
                return None
            rest = self._finish()
            if rest.columns is not None:
                return [*self.chosen, *rest.columns]
            if rest.settled or not self._fix():
                return None
        return self.chosen

    def _finish(self) -> Choice:
        """Solve the integer program for the rest, where it is small."""
        patterns = None
        if sum(self.left) <= REST_PIECES:
            goal = self.target - self.cost
            patterns = self.generator.patterns(self.left, goal, REST_MOST)
        if patterns is None:
            return Choice(None, settled=False)
        chooser = Chooser(self.padded, patterns, self.left, self.taken)
        weigh = whole_cost(self.padded)
        chooser.at_most(weigh, goal // cost_unit(self.padded))
        return chooser.least(weigh, REST_NODES, self.limits)

    def _fix(self) -> bool:
        """Fix all whole uses, or else one column that is used in part; False where none is used."""
        uses, columns = self.generator.master.uses(), self.generator.master.columns
        fixed = [
            columns[i]
            for i, use in enumerate(uses)
            for _ in range(floor(use + WHOLE))
            if use > WHOLE
        ]
        if not fixed:
            partial = sorted((-use, i) for i, use in enumerate(uses) if use > WHOLE)
            if not partial:
                return False
            place = self.chance.randrange(min(DRAWN, len(partial))) if self.chance else 0
            fixed = [columns[partial[place][1]]]
        for board, counts in fixed:
            held = tuple(min(c, n) for c, n in zip(counts, self.left, strict=True))
            self.left = [n - c for n, c in zip(self.left, held, strict=True)]
            self.taken[board] += 1
            self.cost += self.padded.boards[board].cost
            self.chosen.append((board, held))
        return True


def dives(
    generator: ColumnGeneration, target: int, rounds: int, limits: Limits
) -> Iterator[list[Column] | None]:
    """Yield the result of one dive after another while rounds are left; the first draws nothing."""
    chance = random.Random(limits.seed)  # noqa: S311  # a repeatable search, no secret
    stop = generator.rounds + rounds
    first = True
    while generator.rounds < stop and not limits.over and not generator.failed:
        yield Dive(generator, target, None if first else chance, stop, limits).run()
        first = False


Weigh = Callable[[Column], int]


@dataclass(frozen=True)
class Choice:
    """The columns chosen, and whether nothing better is among the patterns.

    Attributes
    ----------
    columns
        Each as often as it is used; None where no choice was found.
    settled
        True where it is the best choice, or where it is proven that there is none.
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
        How many of each board are used already [-].
    """

    def __init__(
        self,
        padded: PaddedProblem,
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
        """Limit the sum of the chosen columns' weights to `most`."""
        self._limit(weigh, -self._program.infinity(), most)

    def least(self, weigh: Weigh, nodes: int, limits: Limits) -> Choice:
        """Choose the columns of least weight together, in so many nodes of the search tree."""
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


def cost_unit(padded: PaddedProblem) -> int:
    """Return the common divisor of all costs."""
    return gcd(*(board.cost for board in padded.boards)) or 1


def whole_cost(padded: PaddedProblem) -> Weigh:
    """Return the weight of a column by its cost, in the common divisor of all costs."""
    unit = cost_unit(padded)
    return lambda column: padded.boards[column[0]].cost // unit


def _most(padded: PaddedProblem, column: Column, demand: Sequence[int]) -> int:
    """How often a column fits the demand."""
    often = min(wanted // count for wanted, count in zip(demand, column[1], strict=True) if count)
    most = padded.boards[column[0]].most
    return often if most is None else min(often, most)
