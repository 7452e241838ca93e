"""Refuting a choice of boards: no patterns that the shop can cut give all parts from them.

The linear program over patterns leaves as little as it can of the parts uncut, measured by
area. Its prices are made whole numbers. If no pattern of a board is worth more at these
than a limit, and the limits of all boards together are less than all parts are worth, the
choice is refuted, in whole numbers, whatever the program's tolerances (Farley's bound). The
limits share out what the program left uncut, so a pattern must be clearly worth more than
its board to count; patterns hold no more parts than there are.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Protocol, TypeAlias

from ortools.linear_solver import pywraplp  # type: ignore[import-untyped]

from solver.cutting.bounds import Row
from solver.cutting.padded import Padded
from solver.outcome import Limits

Counts: TypeAlias = tuple[int, ...]
"""How many of each kind [-]."""

SCALE = 10**8
"""Prices are whole numbers of 1/SCALE of the largest board."""

ROUNDS_MOST = 400
"""Patterns that are added to one program at most [-]."""


class Patterns(Protocol):
    """What knows all patterns of a board that keep to the stages asked for."""

    def better(self, board: int, values: Sequence[int], above: int) -> Counts | bool:
        """Return a pattern worth more than `above`; True where none is, False if not known."""


def patterns_for(padded: Padded, rows: Sequence[Row], steps: int) -> Patterns:
    """Return what knows the patterns of a problem; `steps` limits its work [-]."""
    if padded.stages == "2":
        from solver.cutting.strip_patterns import StripPatterns

        return StripPatterns(padded, rows, steps)
    from solver.cutting.block_patterns import BlockPatterns

    return BlockPatterns(padded, rows, steps)


class Refuter:
    """Refutes choices of boards; patterns found for one serve the next.

    Parameters
    ----------
    patterns
        Finds patterns by their worth.
    start
        Patterns known beforehand, with their boards [-].
    """

    def __init__(
        self, padded: Padded, patterns: Patterns, start: Sequence[tuple[int, Counts]]
    ) -> None:
        self.padded = padded
        self.patterns = patterns
        self._seen = dict.fromkeys(start)

    def refuted(self, boards: Mapping[int, int], limits: Limits) -> bool:
        """Return True where it is proven that so many of each board are not enough."""
        program = _Program(self.padded, boards)
        for board, counts in self._seen:
            program.add(board, counts)
        for _ in range(ROUNDS_MOST):
            if limits.over:
                return False
            values, rents = program.prices()
            worth = sum(v * n for v, n in zip(values, self.padded.demand, strict=True))
            spare = worth - 1 - sum(n * rents[board] for board, n in boards.items())
            if spare < 0:
                return False
            share = spare // sum(boards.values()) if boards else 0
            fresh = self._fresh(boards, values, {b: rents[b] + share for b in boards})
            if fresh is None:
                return False
            if not fresh:
                return True
            for board, counts in fresh:
                self._seen[board, counts] = None
                program.add(board, counts)
        return False

    def _fresh(
        self, boards: Mapping[int, int], values: Sequence[int], above: Mapping[int, int]
    ) -> list[tuple[int, Counts]] | None:
        """Return patterns worth more than their limits; None where that is not known."""
        fresh: list[tuple[int, Counts]] = []
        for board in boards:
            found = self.patterns.better(board, values, above[board])
            if found is False:
                return fresh or None
            if not isinstance(found, bool):
                fresh.append((board, found))
        return fresh


class _Program:
    """How often each pattern is used, so that the least area of parts is left over."""

    def __init__(self, padded: Padded, boards: Mapping[int, int]) -> None:
        self._boards = boards
        self._program: Any = pywraplp.Solver.CreateSolver("GLOP")
        self._program.SuppressOutput()
        self._endless = self._program.infinity()
        self._program.Objective().SetMinimization()
        self._covers = [self._program.Constraint(n, self._endless) for n in padded.demand]
        self._stocks = {
            board: self._program.Constraint(-self._endless, n) for board, n in boards.items()
        }
        for cover, kind in zip(self._covers, padded.kinds, strict=True):
            short = self._program.NumVar(0, self._endless, "")
            cover.SetCoefficient(short, 1)
            self._program.Objective().SetCoefficient(short, kind.area / padded.largest)

    def add(self, board: int, counts: Counts) -> None:
        """Add a pattern, if its board is among those asked for."""
        if board not in self._boards:
            return
        use = self._program.NumVar(0, self._endless, "")
        self._stocks[board].SetCoefficient(use, 1)
        for cover, count in zip(self._covers, counts, strict=True):
            if count:
                cover.SetCoefficient(use, count)

    def prices(self) -> tuple[list[int], dict[int, int]]:
        """Solve; return whole prices of kinds and of boards [1/SCALE]."""
        self._program.Solve()
        values = [max(0, int(cover.dual_value() * SCALE)) for cover in self._covers]
        rents = {
            board: max(0, round(-stock.dual_value() * SCALE))
            for board, stock in self._stocks.items()
        }
        return values, rents
