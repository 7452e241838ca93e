"""At which sizes a case looks as good as at any, for prefer = "look".

What is compared are the stages from what the client asked for up to the rhythm
(:mod:`solver.layout`). A layout stays allowed when a case gets wider or deeper, so the best of a
box of widths and depths is that of its most sizes; the steady fall may come and go with the
height, and heights are enumerated. A rhythm that is a marking step less steady is as good.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from solver.layout.layout_engine import LayoutAnswer, solve_layout
from solver.layout.layout_problem import LayoutProblem
from solver.layout.stage_search import Found
from solver.outcome import Limits, Verdict
from solver.sizing.fitting import Fitting
from solver.sizing.size_grid import Grid, Point

Look: TypeAlias = tuple[int, ...]
"""Values of the stages, first wish first; less is better. A shorter one bounds all that begin
with it."""


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
        most = [high for _, high in boxes if self._fitting.as_much(high) is Verdict.YES]
        found = [self._look(high, high) for high in most]
        self.best = min((value for value, _ in found if value is not None), default=None)
        if self.best is not None:
            self.proven = all(bound >= self.best[: len(bound)] for _, bound in found)

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


def _look_of(problem: LayoutProblem, limits: Limits) -> tuple[Look | None, Look]:
    answer = solve_layout(problem, limits, later=False)
    if not answer.marks_known:
        return None, ()
    return tuple(int(one.value or 0) for one in _compared(answer)), _bound(answer)


def _compared(answer: LayoutAnswer) -> list[Found]:
    later = ("fit", "void", "roomy", "beside", "air", "sight", "heavy")
    return [one for name, one in answer.stages.items() if name not in later]


def _bound(answer: LayoutAnswer) -> Look:
    """The bounds as far as they hold: of the first stage that is not proven, and no further."""
    bounds: list[int] = []
    for one in _compared(answer):
        bounds.append(int(one.bound or 0))
        if not one.proven:
            break
    return tuple(bounds)
