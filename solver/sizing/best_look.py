"""With prefer = "look": only sizes that look as good as any, whatever they cost.

That is the rhythm, and of the layouts of as good a rhythm the most even headroom. A layout stays
allowed, its rhythm and its headroom what they are, when a case gets wider or deeper; so the best
look of a box of widths and depths is that of its most sizes. Heights change it either way and are
tried one by one. What nobody sees (`rhythm_slack`, `headroom_slack`) counts as equally good. Where
something is left out, only the rhythm counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from solver.layout.evenness import Evenness
from solver.layout.layout_engine import settle_marks
from solver.layout.layout_problem import LayoutProblem
from solver.layout.pareto_front import Trading
from solver.layout.pareto_points import Fineness
from solver.outcome import Limits, Verdict
from solver.sizing.axes import Grid, Point
from solver.sizing.fitting import Fitting


class Looking:
    """Says for a combination of shelf counts at which sizes it looks as good as at any.

    Attributes
    ----------
    best, even
        Best rhythm [tick], and the most even headroom with it.
    proven
        Whether no sizes have headroom that is seen to be more even.
    """

    def __init__(self, grid: Grid, fitting: Fitting, limits: Limits) -> None:
        self._fitting, self._limits = fitting, limits
        self._slack = grid.job.look.rhythm_slack
        self._unseen = grid.job.look.headroom_slack
        self._known: dict[tuple[Point, Point], Found] = {}
        self._evens: dict[tuple[Point, Point], Even] = {}
        self.best: Fraction | None = None
        self.even: Evenness | None = None
        self.proven = True

    def measure(self, boxes: Sequence[tuple[Point, Point]]) -> None:
        """Find the best look at the most sizes of the boxes that let as much fit."""
        most = [high for _, high in boxes if self._fitting.as_much(high) is Verdict.YES]
        values = [self._found(high, high)[0] for high in most]
        self.best = min((value for value in values if value is not None), default=None)
        if self.best is None or self._fitting.left.count:
            return
        fine = [high for high in most if self._rhythm_of(high, high) is not Verdict.NO]
        found = [self._even(high, high) for high in fine]
        self.even = min((value for value, _ in found if value is not None), default=None)
        least = min(bound for _, bound in found)
        self.proven = self.even is not None and self.even <= self._as_even(least)

    def as_good(self, point: Point) -> Verdict:
        """Whether as much fits at a point, in as good a look."""
        fits = self._fitting.as_much(point)
        return fits if fits is not Verdict.YES else self._judged(point, point)

    def may(self, low: Point, high: Point) -> Verdict:
        """Whether that may be so somewhere in a box; NO is proven for all of it."""
        fits = self._fitting.may(low, high)
        return fits if fits is not Verdict.YES else self._judged(low, high)

    def _judged(self, low: Point, high: Point) -> Verdict:
        rhythm = self._rhythm_of(low, high)
        if rhythm is not Verdict.YES or self.even is None:
            return rhythm
        value, bound = self._even(low, high)
        if value is not None and value <= self._as_even(self.even):
            return Verdict.YES
        return Verdict.NO if bound > self._as_even(self.even) else Verdict.UNSETTLED

    def _as_even(self, even: Evenness) -> Evenness:
        """The least even headroom that nobody tells from this."""
        return replace(even, spread=even.spread + self._unseen)

    def _rhythm_of(self, low: Point, high: Point) -> Verdict:
        if self.best is None:
            return Verdict.YES
        value, bound = self._found(low, high)
        if value is not None and value <= self.best + self._slack:
            return Verdict.YES
        return Verdict.NO if bound > self.best + self._slack else Verdict.UNSETTLED

    def _even(self, low: Point, high: Point) -> Even:
        """The most even headroom in as good a rhythm as at any sizes, and its bound."""
        assert self.best is not None
        key = (self._fitting.narrowest(low, high), high)
        if key not in self._evens:
            trading = Trading(self._fitting.roomiest(low, high), self._limits, Fineness(0, 0))
            self._evens[key] = trading.evenest(self.best + self._slack)
        return self._evens[key]

    def _found(self, low: Point, high: Point) -> Found:
        key = (self._fitting.narrowest(low, high), high)
        if key not in self._known:
            self._known[key] = _rhythm(self._fitting.roomiest(low, high), self._limits)
        return self._known[key]


Even = tuple[Evenness | None, Evenness]
"""Most even headroom found, and its bound."""
Found = tuple[Fraction | None, Fraction]
"""Best rhythm found and its bound [tick]."""


def _rhythm(problem: LayoutProblem, limits: Limits) -> Found:
    found = settle_marks(problem, limits).stages.get("rhythm")
    return (None, Fraction(0)) if found is None else (found.value, found.bound)
