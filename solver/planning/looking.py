"""With prefer = "look": only sizes at which the rhythm is as good as at any, whatever they cost.

A layout stays allowed, and its rhythm what it is, when a case gets wider or deeper; so the best
rhythm of a box of widths and depths is that of its most sizes. Heights change the rhythm either
way and are tried one by one. What nobody sees (`rhythm_slack`) counts as equally good.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from solver.layout.shapes import LayoutProblem
from solver.layout.solve import settle_marks
from solver.outcome import Limits
from solver.planning.axes import Grid, Point
from solver.planning.fitting import Fitting, Verdict


class Looking:
    """Says for a combination of shelf counts at which sizes it looks as good as at any."""

    def __init__(self, grid: Grid, fitting: Fitting, limits: Limits) -> None:
        self._fitting, self._limits = fitting, limits
        self._slack = grid.job.look.rhythm_slack
        self._known: dict[tuple[Point, Point], Found] = {}
        self.best: Fraction | None = None

    def measure(self, boxes: Sequence[tuple[Point, Point]]) -> None:
        """Find the best rhythm at the most sizes of the boxes that let as much fit."""
        values = [
            self._found(high, high)[0]
            for _, high in boxes
            if self._fitting.as_much(high) is Verdict.YES
        ]
        self.best = min((value for value in values if value is not None), default=None)

    def as_good(self, point: Point) -> Verdict:
        """Whether as much fits at a point, in as good a rhythm."""
        fits = self._fitting.as_much(point)
        return fits if fits is not Verdict.YES else self._judged(point, point)

    def may(self, low: Point, high: Point) -> Verdict:
        """Whether that may be so somewhere in a box; NO is proven for all of it."""
        fits = self._fitting.may(low, high)
        return fits if fits is not Verdict.YES else self._judged(low, high)

    def _judged(self, low: Point, high: Point) -> Verdict:
        if self.best is None:
            return Verdict.YES
        value, bound = self._found(low, high)
        if value is not None and value <= self.best + self._slack:
            return Verdict.YES
        return Verdict.NO if bound > self.best + self._slack else Verdict.UNSETTLED

    def _found(self, low: Point, high: Point) -> Found:
        key = (self._fitting.narrowest(low, high), high)
        if key not in self._known:
            self._known[key] = _rhythm(self._fitting.roomiest(low, high), self._limits)
        return self._known[key]


Found = tuple[Fraction | None, Fraction]
"""Best rhythm found and its bound [tick]."""


def _rhythm(problem: LayoutProblem, limits: Limits) -> Found:
    found = settle_marks(problem, limits).stages.get("rhythm")
    return (None, Fraction(0)) if found is None else (found.value, found.bound)
