"""Whole sticks by diving: fix what the linear program uses most, solve it for the rest.

Patterns of the rest hold no more than is still wanted, so each step's program fits what
is left; this finds the best number for nearly all lists, one above for the others.
"""

from __future__ import annotations

import random
from math import floor

from solver.cutting.columns import Generator
from solver.cutting.master import Column
from solver.cutting.padded import Padded
from solver.outcome import Limits

WHOLE = 1e-6
"""Uses under this count as none, and over the next whole less this as whole [-]."""

ROUNDS = 120
"""Rounds of column generation that the dives take for each unit of work [-]."""


def dive(
    generator: Generator, rounds_most: int, chance: random.Random | None, limits: Limits
) -> list[Column] | None:
    """Return columns that cover the demand exactly, or None where the rounds ran out.

    Parameters
    ----------
    chance
        Where given, the column to fix is drawn among the most used ones.
    """
    padded = generator.padded
    left: list[int] = list(padded.demand)
    chosen: list[Column] = []
    while any(left):
        generator.solve(left, rounds_most, _taken(padded, chosen))
        if generator.rounds >= rounds_most or limits.over:
            return None
        fixed = _fix(generator, left, chance)
        if not fixed:
            return None
        chosen += fixed
    return chosen


def _taken(padded: Padded, chosen: list[Column]) -> list[int]:
    return [sum(c[0] == i for c in chosen) for i in range(len(padded.boards))]


def _fix(generator: Generator, left: list[int], chance: random.Random | None) -> list[Column]:
    """Take whole uses, or else one column that is used in part; lower what is `left`."""
    uses, columns = generator.master.uses(), generator.master.columns
    fixed = [
        columns[i] for i, use in enumerate(uses) for _ in range(floor(use + WHOLE)) if use > WHOLE
    ]
    if not fixed:
        parted = sorted((-use, i) for i, use in enumerate(uses) if use > WHOLE)
        if not parted:
            return []
        place = chance.randrange(min(4, len(parted))) if chance is not None else 0
        fixed = [columns[parted[place][1]]]
    for _, counts in fixed:
        for kind, count in enumerate(counts):
            left[kind] = max(0, left[kind] - count)
    return fixed


def better_columns(
    generator: Generator, padded: Padded, target: int, limits: Limits
) -> list[Column] | None:
    """Dive until the cost meets `target` or the work is spent; return the cheapest found."""
    chance = random.Random(limits.seed)  # noqa: S311  # a repeatable search, no secret
    best: list[Column] | None = None
    stop = generator.rounds + int(ROUNDS * limits.work)
    first = True
    while generator.rounds < stop and not limits.over:
        found = dive(generator, stop, None if first else chance, limits)
        first = False
        if found is not None and (best is None or _cost(padded, found) < _cost(padded, best)):
            best = found
            if _cost(padded, best) <= target:
                break
    return best


def _cost(padded: Padded, columns: list[Column]) -> int:
    return sum(padded.boards[board].cost for board, _ in columns)
