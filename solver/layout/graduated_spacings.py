"""The best graduated spacings of the marks alone, enumerated, and layouts on them.

They bound the rhythm, and mostly everything fits on them. Marks fall on whole steps, so that a
perfect fall of the clear heights is rarely possible. How near one can come is a question of
divisibility, slow for a solver and quick to enumerate: an optimal line passes through two of the
heights, or through one with a bound as its step, and every height is next to the line.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import accumulate
from math import lcm
from typing import NamedTuple, TypeAlias

from solver.layout import objective
from solver.layout.constraints import on_falls
from solver.layout.counting_cuts import leave_out_at_most
from solver.layout.layout_problem import BayShape, LayoutProblem
from solver.layout.objective import Objective
from solver.layout.stage_search import Search, make
from solver.layout.variables import classes_of
from solver.outcome import Limits, Verdict
from solver.units import Ticks

FALLS_WORK = 1.0
"""Work for one look at layouts on the best spacings [CP-SAT units]."""


class BestSpacings:
    """The best falls of each class of bays, from what marks allow at all."""

    def __init__(self, problem: LayoutProblem, limits: Limits, *, merge: bool) -> None:
        self._problem, self._limits, self._merge = problem, limits, merge
        wishes = problem.wishes
        self._classes = classes_of(problem, merge=merge)
        self._falls = {
            c: best_spacings(one.shape, wishes.step_least, wishes.step_most)
            for c, one in enumerate(self._classes)
        }
        self._laid_out: dict[int, Search | None] = {}

    @property
    def bound(self) -> Fraction:
        """No layout has a better rhythm [tick]."""
        if not all(found.proven for found in self._falls.values()):
            return Fraction(0)
        scores = (self._classes[c].times * found.score for c, found in self._falls.items())
        return sum(scores, Fraction(0))

    def fit_all(self) -> bool:
        """Whether a layout on them is found with nothing left out; no search for fit is needed."""
        return self._of(0) is not None

    def suggest(self, search: Search, goal: Objective, left: int) -> None:
        """Make a layout on them, with so many things left out, the solution of a search."""
        trial = self._of(left)
        if trial is not None:
            heights = {
                c: [trial.value(trial.v.height(c, k)) for k in range(one.shape.openings)]
                for c, one in enumerate(self._classes)
            }
            search.adopt(trial, goal, objective.fall_values(search.v, heights))

    def _of(self, left: int) -> Search | None:
        """A layout on the best spacings, or else on some nearly as good; looked for once."""
        if left not in self._laid_out:
            self._laid_out[left] = self._looked_for(left)
        return self._laid_out[left]

    def _looked_for(self, left: int) -> Search | None:
        best = {c: found.marks for c, found in self._falls.items()}
        near = {c: found.near for c, found in self._falls.items()}
        for marks in (best, near):
            v = make(self._problem, merge=self._merge)
            leave_out_at_most(v, left)
            on_falls(v, marks)
            trial = Search(v, self._limits)
            if trial.feasible(work=FALLS_WORK) is Verdict.YES:
                return trial
        return None


def spacings_of(problem: LayoutProblem, limits: Limits, *, merge: bool) -> BestSpacings | None:
    """Return the best falls where the rhythm is graduated; other rhythms have none."""
    if problem.wishes.rhythm != "graduated":
        return None
    return BestSpacings(problem, limits, merge=merge)


KEPT_MOST = 6000
"""Most spacings kept; they are tried all at once by the layout model."""
NEAR = 2
"""How many marking steps worse than the best a spacing may score and still be tried."""
FAR = 1 << 60


@dataclass(frozen=True)
class Spacings:
    """The least score of any spacing [tick], and spacings that have it, as marks.

    `near` holds more spacings, each the best on some line, at most `NEAR` marking steps
    worse. `proven` is False where the enumeration does not cover all spacings of that score.
    """

    score: Fraction
    marks: tuple[tuple[int, ...], ...]
    near: tuple[tuple[int, ...], ...]
    proven: bool


@lru_cache(maxsize=16)
def best_spacings(shape: BayShape, step_least: Ticks, step_most: Ticks) -> Spacings:
    """Enumerate the spacings nearest to a steady fall with its step within the bounds [tick].

    Works in ticks times the common denominator of all slopes, so that all is whole numbers.
    The lines are taken in the order of what each costs at least, which ends it early.
    """
    scale = lcm(*range(1, shape.openings))
    step = shape.step * scale
    lines = sorted(
        {
            _Line.of(shape, scale, slope, start)
            for slope in _slopes(shape, scale, step_least, step_most)
            for start in _starts(shape, scale, slope)
        }
    )
    best, slack, found = FAR, NEAR * step, dict[Steps, int]()
    for line in lines:
        if line.least > best + slack or len(found) >= KEPT_MOST:
            break
        cost, ways = line.nearest(step, best + slack)
        best = min(best, cost)
        for steps in ways:
            found[steps] = min(cost, found.get(steps, cost))
    score, covered = Fraction(best, scale), len(found) < KEPT_MOST
    return Spacings(
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
    middle = total + slope * (n * (n - 1) // 2)  # n times the start of the right sum
    starts = set()
    for k in range(n):
        through = shape.constant(k) * scale + slope * k
        first = -((n * (step + through) - middle) // (n * step))
        starts |= {through + step * i for i in range(first, first + 3)}
    return sorted(s for s in starts if abs(n * s - middle) <= n * step)


Steps: TypeAlias = tuple[int, ...]


class _Line(NamedTuple):
    """A fall: what it costs at least, whatever the sum of the steps, and where it lies.

    `lies` has for each opening how far the line is over a whole step, and that step.
    """

    least: int
    lies: tuple[tuple[int, int], ...]

    @staticmethod
    def of(shape: BayShape, scale: int, slope: int, start: int) -> _Line:
        step, lies, least = shape.step * scale, [], 0
        for k in range(shape.openings):
            whole, over = divmod(start - slope * k - shape.constant(k) * scale, step)
            least += min(over, step - over)
            lies.append((over, whole))
        return _Line(least, tuple(lies))

    def nearest(self, step: int, most: int) -> tuple[int, list[Steps]]:
        """Least cost of steps that sum to nothing, up to `most`, and all choices of that cost.

        From the nearest steps, whose sum is off by so many, the cheapest so many are moved by
        one: what a step costs is convex, so nothing is cheaper. Where that leaves a choice,
        all choices are tried.
        """
        taken = [whole + (2 * over > step) for over, whole in self.lies]
        off = sum(taken)
        if any(2 * over == step for over, _ in self.lies):
            return self._tried(step, most)
        way = -1 if off > 0 else 1
        moves = sorted(self._moves(step, way))
        count = abs(off)
        if count > len(moves):
            return most + 1, []
        cost = self.least + sum(more for more, _ in moves[:count])
        if cost > most:
            return most + 1, []
        if 0 < count < len(moves) and moves[count - 1][0] == moves[count][0]:
            return self._tried(step, most)
        for _, k in moves[:count]:
            taken[k] += way
        return cost, [tuple(taken)]

    def _moves(self, step: int, way: int) -> Iterator[tuple[int, int]]:
        """What it costs to move an opening by one more step, with the opening."""
        for k, (over, _) in enumerate(self.lies):
            if (2 * over > step) == (way < 0):  # across the line first
                yield abs(step - 2 * over), k
            yield step, k

    def _tried(self, step: int, most: int) -> tuple[int, list[Steps]]:
        """As `nearest`, from tables of what sums of the last openings cost.

        What an opening costs is counted from the least that it may cost, so that whatever is
        over what is left of `most` goes no further.
        """
        left, options = most - self.least, [self._options(step, *one) for one in self.lies]
        tables: list[dict[int, int]] = [{0: 0}]
        for choice in reversed(options):
            may = [one for one in choice if one[0] <= left]
            table: dict[int, int] = {}
            for total, cost in tables[-1].items():
                for more, taken in may:
                    at, new = total + taken, cost + more
                    if new <= left and new < table.get(at, left + 1):
                        table[at] = new
            tables.append(table)
        more_least = tables[-1].get(0)
        if more_least is None:
            return most + 1, []
        return self.least + more_least, list(_choices(options, tables[::-1], more_least))

    @staticmethod
    def _options(step: int, over: int, whole: int) -> list[tuple[int, int]]:
        """Whole steps next to the line, each with what it costs more than the nearest."""
        least = min(over, step - over)
        costs = (over + step, over, step - over, 2 * step - over)
        return [(cost - least, whole - 1 + n) for n, cost in enumerate(costs)]


def _choices(
    options: list[list[tuple[int, int]]], tables: list[dict[int, int]], cost: int
) -> Iterator[Steps]:
    """All ways to take a step of each opening at this cost."""
    stack: list[tuple[Steps, int, int]] = [((), 0, cost)]
    while stack:
        steps, total, left = stack.pop()
        if len(steps) == len(options):
            yield steps
            continue
        for more, taken in options[len(steps)]:
            if tables[len(steps) + 1].get(total - taken) == left - more:
                stack.append(((*steps, taken), total - taken, left - more))


def _marks(steps: Steps) -> Steps:
    return tuple(accumulate(steps[:-1]))
