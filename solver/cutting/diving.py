"""Diving to whole sticks: fix what the linear program uses most, solve it for the rest.

Patterns of the rest hold no more than is still wanted, so each step's program fits what
is left. A dive is left as soon as the rest's bound says that it cannot reach the cost that
is aimed at, and ends in an exact choice as soon as few patterns are left that may do so.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from math import floor

from solver.cutting.choose import Choice, Chooser, cost_unit, whole_cost
from solver.cutting.column_generation import ColumnGeneration
from solver.cutting.master import Column
from solver.outcome import Limits

WHOLE = 1e-6
"""Uses under this count as none, and over the next whole less this as whole [-]."""
REST_MOST = 600
"""Patterns of a rest that are chosen from exactly [-]."""
REST_NODES = 40
"""Nodes of the search tree for a rest [-]."""
REST_PIECES = 60
"""Pieces of a rest below which its patterns are counted [-]."""
DRAWN = 4
"""A later dive draws the pattern to fix among so many of the most used [-]."""


@dataclass
class Dive:
    """One dive: what is fixed already, and what is left.

    Attributes
    ----------
    target
        The cost to reach: the dive ends where it is out of reach.
    chance
        Where given, the pattern to fix is drawn among the most used ones.
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
        """Return columns that cut everything at the target's cost, or None."""
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
        """Choose exactly for the rest, where it is small."""
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
        """Take whole uses, or else one column that is used in part."""
        uses, columns = self.generator.master.uses(), self.generator.master.columns
        fixed = [
            columns[i]
            for i, use in enumerate(uses)
            for _ in range(floor(use + WHOLE))
            if use > WHOLE
        ]
        if not fixed:
            parted = sorted((-use, i) for i, use in enumerate(uses) if use > WHOLE)
            if not parted:
                return False
            place = self.chance.randrange(min(DRAWN, len(parted))) if self.chance else 0
            fixed = [columns[parted[place][1]]]
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
    """Yield what one dive after another finds, the first without chance, while rounds are left."""
    chance = random.Random(limits.seed)  # noqa: S311  # a repeatable search, no secret
    stop = generator.rounds + rounds
    first = True
    while generator.rounds < stop and not limits.over and not generator.failed:
        yield Dive(generator, target, None if first else chance, stop, limits).run()
        first = False
