"""The best graduated spacings of one bay, whatever stands in it.

Marks fall on whole steps, so that a perfect fall of the clear heights is rarely possible.
How near one can come is a question of divisibility, slow for a solver and quick to
enumerate: an optimal line passes through two of the heights, or through one with a bound
as its step, and every height is next to the line.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate
from math import ceil, lcm
from typing import TypeAlias

from solver.layout.shapes import BayShape
from solver.units import Ticks

KEPT_MOST = 6000
"""Most spacings kept; they are tried all at once by the layout model."""
NEAR = 2
"""How many marking steps worse than the best a spacing may score and still be tried."""
FAR = 1 << 60


@dataclass(frozen=True)
class Falls:
    """The least score of any spacing [tick], and spacings that have it, as marks.

    `near` holds more spacings, each the best on some line, at most `NEAR` marking steps
    worse. `proven` is False where the enumeration does not cover all spacings of that score.
    """

    score: Fraction
    marks: tuple[tuple[int, ...], ...]
    near: tuple[tuple[int, ...], ...]
    proven: bool


def best_falls(shape: BayShape, step_least: Ticks, step_most: Ticks) -> Falls:
    """Enumerate the spacings nearest to a steady fall with its step within the bounds [tick].

    Works in ticks times the common denominator of all slopes, so that all is whole numbers.
    The lines are taken in the order of what each costs at least, which ends it early.
    """
    scale = lcm(*range(1, shape.openings))
    lines = sorted(
        {
            _Line.of(shape, scale, slope, start)
            for slope in _slopes(shape, scale, step_least, step_most)
            for start in _starts(shape, scale, slope)
        },
        key=lambda line: (line.least, line.options),
    )
    best, slack, found = FAR, NEAR * shape.step * scale, dict[Steps, int]()
    for line in lines:
        if line.least > best + slack or len(found) >= KEPT_MOST:
            break
        cost, ways = line.nearest(best + slack)
        best = min(best, cost)
        for steps in ways:
            found[steps] = min(cost, found.get(steps, cost))
    score, covered = Fraction(best, scale), len(found) < KEPT_MOST
    return Falls(
        score,
        tuple(sorted(_marks(steps) for steps, cost in found.items() if cost == best)),
        tuple(sorted(_marks(steps) for steps, cost in found.items() if cost <= best + slack)),
        covered and score < 2 * shape.step,
    )


def _slopes(shape: BayShape, scale: int, least: Ticks, most: Ticks) -> list[int]:
    """Steps of lines through two heights that are whole marking steps apart, and both bounds."""
    slopes = {least * scale, most * scale}
    constants = [shape.constant(k) for k in range(shape.openings)]
    for i, low in enumerate(constants):
        for j in range(i + 1, len(constants)):
            rest, apart = low - constants[j], j - i
            first = -((rest - least * apart) // shape.step)
            last = (most * apart - rest) // shape.step
            slopes |= {(rest + shape.step * n) * scale // apart for n in range(first, last + 1)}
    return sorted(slopes)


def _starts(shape: BayShape, scale: int, slope: int) -> list[int]:
    """Starts of lines through a height, near the one whose line has the right sum."""
    n, step = shape.openings, shape.step * scale
    total = (shape.inside - shape.shelves * shape.thickness) * scale
    middle = Fraction(total + slope * (n * (n - 1) // 2), n)
    starts = set()
    for k in range(n):
        through = shape.constant(k) * scale + slope * k
        first = ceil((middle - step - through) / step)
        starts |= {through + step * i for i in range(first, first + 3)}
    return sorted(s for s in starts if abs(s - middle) <= step)


Steps: TypeAlias = tuple[int, ...]


@dataclass(frozen=True)
class _Line:
    """A fall, and for each opening the whole steps next to it with what they cost."""

    options: tuple[tuple[tuple[int, int], ...], ...]

    @staticmethod
    def of(shape: BayShape, scale: int, slope: int, start: int) -> _Line:
        options, step = [], shape.step * scale
        for k in range(shape.openings):
            ideal = start - slope * k - shape.constant(k) * scale
            near = range(ideal // step - 1, ideal // step + 3)
            options.append(tuple((abs(ideal - i * step), i) for i in near))
        return _Line(tuple(options))

    @property
    def least(self) -> int:
        """What the line costs at least, whatever the sum."""
        return sum(min(cost for cost, _ in choice) for choice in self.options)

    def nearest(self, most: int) -> tuple[int, list[Steps]]:
        """Least cost of steps that sum to nothing, up to `most`, and all choices of that cost."""
        tables: list[dict[int, int]] = [{0: 0}]
        for choice in reversed(self.options):
            table: dict[int, int] = {}
            for total, cost in tables[-1].items():
                for more, taken in choice:
                    at, new = total + taken, cost + more
                    if new <= most and new < table.get(at, most + 1):
                        table[at] = new
            tables.append(table)
        cost = tables[-1].get(0, most + 1)
        return cost, list(self._choices(tables[::-1], cost)) if cost <= most else []

    def _choices(self, tables: list[dict[int, int]], cost: int) -> Iterator[Steps]:
        stack: list[tuple[Steps, int, int]] = [((), 0, cost)]
        while stack:
            steps, total, left = stack.pop()
            if len(steps) == len(self.options):
                yield steps
                continue
            for more, taken in self.options[len(steps)]:
                if tables[len(steps) + 1].get(total - taken) == left - more:
                    stack.append(((*steps, taken), total - taken, left - more))


def _marks(steps: Steps) -> Steps:
    return tuple(accumulate(steps[:-1]))
