"""The master problem for sheets: the linear program over patterns of given boards.

It minimises the area of parts that are left uncut.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

from ortools.linear_solver import pywraplp  # type: ignore[import-untyped]

from solver.cutting.padded_sizes import PaddedProblem

Counts: TypeAlias = tuple[int, ...]
"""How many of each kind [-]."""

SCALE = 10**8
"""Prices are whole numbers of 1/SCALE of the largest board."""

UNUSED = 1e-9
"""Uses of a pattern up to this count as none [-]."""


@dataclass(frozen=True)
class Group:
    """Boards that are alike, and what each of them may hold.

    Attributes
    ----------
    board
        Index of the board [-].
    copies
        How many there are; only a single one holds at least something [-].
    least, most
        How many of each kind it holds [-].
    """

    board: int
    copies: int
    least: Counts
    most: Counts

    def at_most(self, kind: int, count: int) -> Group | None:
        """Return the group holding no more of a kind; None where it must."""
        if count < self.least[kind]:
            return None
        return replace(self, most=_set(self.most, kind, min(count, self.most[kind])))

    def at_least(self, kind: int, count: int) -> Group | None:
        """Return the group holding no less of a kind; None where it may not."""
        if count > self.most[kind]:
            return None
        return replace(self, least=_set(self.least, kind, count))

    def alone(self) -> Group:
        """Return one of the boards."""
        return replace(self, copies=1)

    def fewer(self) -> Group:
        """Return the boards without one."""
        return replace(self, copies=self.copies - 1)


@dataclass(frozen=True)
class Prices:
    """Dual prices of the program in whole numbers [1/SCALE].

    Attributes
    ----------
    values
        For each group the worth of each kind.
    limits
        For each group what a pattern must be worth more than, to count.
    spare
        By how much all parts are worth more than the boards; below 0 nothing is left uncut.
    """

    values: list[list[int]]
    limits: list[int]
    spare: int


class PatternProgram:
    """How much each pattern is used, so that the least area of parts is left uncut.

    Parameters
    ----------
    seen
        Patterns with their boards; those that a group allows are taken over.
    """

    def __init__(
        self, padded: PaddedProblem, groups: Sequence[Group], seen: Iterable[tuple[int, Counts]]
    ) -> None:
        self.groups = list(groups)
        self._demand = padded.demand
        self._program: Any = pywraplp.Solver.CreateSolver("GLOP")
        self._program.SuppressOutput()
        self._endless = self._program.infinity()
        self._program.Objective().SetMinimization()
        areas = [kind.area / padded.largest for kind in padded.kinds]
        self._covers = [self._cover(n, area) for n, area in zip(padded.demand, areas, strict=True)]
        self._stocks = [self._program.Constraint(-self._endless, g.copies) for g in groups]
        self._leasts = [
            {k: self._cover(n, areas[k]) for k, n in enumerate(g.least) if n} for g in groups
        ]
        self._uses: list[tuple[int, Counts, Any]] = []
        for board, counts in seen:
            for i, group in enumerate(groups):
                fits = all(n <= most for n, most in zip(counts, group.most, strict=True))
                if group.board == board and fits:
                    self.add(i, counts)

    @property
    def size(self) -> int:
        """Cells of the program's table [-]."""
        return len(self._uses) * len(self._covers)

    def _cover(self, wanted: int, area: float) -> Any:
        """Add a row that patterns must cover; parts left uncut cost their area."""
        row = self._program.Constraint(wanted, self._endless)
        short = self._program.NumVar(0, self._endless, "")
        row.SetCoefficient(short, 1)
        self._program.Objective().SetCoefficient(short, area)
        return row

    def add(self, group: int, counts: Counts) -> None:
        """Add a pattern of a group."""
        use = self._program.NumVar(0, self._endless, "")
        self._stocks[group].SetCoefficient(use, 1)
        for kind, count in enumerate(counts):
            if count:
                self._covers[kind].SetCoefficient(use, count)
                if kind in self._leasts[group]:
                    self._leasts[group][kind].SetCoefficient(use, count)
        self._uses.append((group, counts, use))

    def prices(self) -> Prices:
        """Solve, and make the prices whole numbers."""
        self._program.Solve()
        common = [_whole(cover) for cover in self._covers]
        worth = sum(v * n for v, n in zip(common, self._demand, strict=True))
        board_prices = [max(0, round(-stock.dual_value() * SCALE)) for stock in self._stocks]
        values = []
        for group, leasts in zip(self.groups, self._leasts, strict=True):
            own = list(common)
            for kind, row in leasts.items():
                own[kind] += _whole(row)
                worth += _whole(row) * group.least[kind]
            values.append(own)
        copies = [group.copies for group in self.groups]
        spare = worth - 1 - sum(n * price for n, price in zip(copies, board_prices, strict=True))
        share = spare // max(1, sum(copies))
        return Prices(values, [price + share for price in board_prices], spare)

    def used(self) -> list[tuple[int, Counts, float]]:
        """Return the patterns used in the last answer, with their groups, and how much [-]."""
        shares = [(group, counts, use.solution_value()) for group, counts, use in self._uses]
        return [one for one in shares if one[2] > UNUSED]


def _whole(row: Any) -> int:
    return max(0, int(row.dual_value() * SCALE))


def _set(counts: Counts, kind: int, count: int) -> Counts:
    return (*counts[:kind], count, *counts[kind + 1 :])
