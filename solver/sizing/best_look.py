"""At which sizes a case looks as good as at any, for prefer = "look".

What is compared is what is left out, then the stages from what the client asked for up to the
rhythm (:mod:`solver.layout`). None of them depends on the width or depth by itself, and a layout
stays allowed when a case gets wider or deeper, so the best of a box of widths and depths is that of
its most sizes. The steps may get better or worse with the height, and heights are enumerated.
Before the rhythm comes how much of what is wanted of it cannot be had: a limit on how steep it is,
a least step, a steady fall at all. A rhythm that is a marking step less steady is as good.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import dropwhile, islice, pairwise, takewhile
from typing import TypeAlias

from solver.layout.layout_engine import LayoutAnswer, solve_layout
from solver.layout.layout_problem import LayoutProblem
from solver.layout.look_scores import LookScores
from solver.layout.rhythm_stage import LEAST_STEP
from solver.layout.stage_search import Found
from solver.outcome import Limits, Status, Verdict
from solver.sizing.fitting import Fitting
from solver.sizing.size_grid import Grid, Point

Look: TypeAlias = tuple[int, ...]
"""Values of the stages, first wish first, the rhythm last; less is better. A shorter one bounds all
that begin with it."""


class BestLook:
    """Says for a combination of shelf counts at which sizes it looks as good as at any.

    Attributes
    ----------
    best
        The best look found; None before any.
    proven
        Whether no sizes look better.
    """

    def __init__(self, grid: Grid, fitting: Fitting, limits: Limits) -> None:
        self._fitting, self._limits = fitting, limits
        self._step = grid.job.head.marking_step
        self._looks: dict[tuple[Point, Point], tuple[Look | None, Look]] = {}
        self.best: Look | None = None
        self.proven = True

    def measure(self, boxes: Sequence[tuple[Point, Point]]) -> None:
        """Find the best look at the most sizes of the boxes that let as much fit."""
        fits = self._fitting
        found = [self._look(h, h)[0] for _, h in boxes if fits.as_much(h) is Verdict.YES]
        self.best = min((value for value in found if value is not None), default=None)
        if self.best is not None:
            may = [box for box in boxes if fits.may(*box) is not Verdict.NO]
            bounds = [self._look(*box)[1] for box in may]
            self.proven = all(bound >= self.best[: len(bound)] for bound in bounds)

    def as_good(self, point: Point) -> Verdict:
        """Whether as much fits at a point, in as good a look."""
        fits = self._fitting.as_much(point)
        return fits if fits is not Verdict.YES else self._judged(point, point)

    def may(self, low: Point, high: Point) -> Verdict:
        """Whether that may be so somewhere in a box; NO is proven for all of it."""
        fits = self._fitting.may(low, high)
        return fits if fits is not Verdict.YES else self._judged(low, high)

    def _judged(self, low: Point, high: Point) -> Verdict:
        if self.best is None:
            return Verdict.YES
        good = (*self.best[:-1], self.best[-1] + self._step)
        value, bound = self._look(low, high)
        if value is not None and value <= good:
            return Verdict.YES
        return Verdict.NO if bound > good[: len(bound)] else Verdict.UNSETTLED

    def _look(self, low: Point, high: Point) -> tuple[Look | None, Look]:
        """The best look at the most sizes of a box, and its bound."""
        key = (self._fitting.narrowest(low, high), high)
        if key not in self._looks:
            self._looks[key] = _look_of(self._fitting.roomiest(low, high), self._limits)
        return self._looks[key]


LATER = ("void", "roomy", "beside", "air", "sight", "heavy")
RHYTHMS = ("steady", "symmetric", "even", "to-fit", "graduated")
"""In their order: a symmetric rhythm is even within its half next."""


def _look_of(problem: LayoutProblem, limits: Limits) -> tuple[Look | None, Look]:
    answer = solve_layout(problem, limits, later=False)
    if not answer.marks_known:
        return None, ()
    compared = list(_compared(problem, answer))
    proven = takewhile(lambda one: one.proven, compared)
    first_open = dropwhile(lambda one: one.proven, compared)
    bounded = (*proven, *islice(first_open, 1))
    return tuple(map(_least, compared)), tuple(int(one.bound or 0) for one in bounded)


def _least(one: Found) -> int:
    """What a stage came to, less what does not count."""
    return int(max((one.value or 0) - one.within, one.bound or 0))


def _compared(problem: LayoutProblem, answer: LayoutAnswer) -> Iterator[Found]:
    stages = [(name, one) for name, one in answer.stages.items() if name not in LATER]
    rhythm = [answer.stages[name] for name in RHYTHMS if name in answer.stages]
    yield from (one for name, one in stages if name not in RHYTHMS)
    yield from (
        Found(Status.FEASIBLE, Fraction(missed), Fraction(0))
        for missed in _given_up(problem, answer)
    )
    no_fall = Fraction(int(bool(rhythm) and problem.wishes.rhythm not in answer.stages))
    yield Found(Status.OPTIMAL, no_fall, no_fall)
    yield from rhythm or [Found(Status.OPTIMAL, Fraction(0), Fraction(0))]


def _given_up(problem: LayoutProblem, answer: LayoutAnswer) -> tuple[bool, bool]:
    """Whether openings are steeper, or their steps smaller, than is wanted; that is not proven."""
    wishes, fewer = problem.wishes, False
    heights = [high for high, _ in LookScores(problem, answer.marks, answer.places).scored]
    if wishes.tallest == "top":
        heights = [high[::-1] for high in heights]
    steep = wishes.steepest is not None and any(
        100 * high[0] > round(100 * wishes.steepest) * high[-1] for high in heights
    )
    if wishes.rhythm == "graduated" and wishes.step is None:
        fewer = any(a - b < LEAST_STEP for high in heights for a, b in pairwise(high))
    return steep, fewer
