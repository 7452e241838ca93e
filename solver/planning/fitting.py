"""Whether as much fits at some sizes as at the most of them: asked rarely, remembered well.

What fits at some sizes fits at larger ones too, where the rules allow it (see
:func:`enumerated`). So a size that does, or is proven not to do, answers for all that are
larger, or smaller, in every direction.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum

from solver.case import Case, SizeRange
from solver.geometry import load_limit, mass_of
from solver.job import Job, depth_wanted
from solver.layout.fit import fits_within
from solver.layout.holding import Holding
from solver.layout.problem import BayShape, LayoutProblem, build
from solver.layout.solve import Left, fewest_left
from solver.outcome import Limits, Status
from solver.planning.axes import Axis, Grid, Point, within
from solver.strength.of_job import sag_load


class Verdict(Enum):
    """Answer to a question about one choice of sizes."""

    YES = "yes"
    NO = "no"
    UNSETTLED = "unsettled"
    """Not found by the limit, nor proven not to be."""


def enumerated(grid: Grid) -> tuple[int, ...]:
    """Return the axes on which more room may do harm, so that each value is tried by itself.

    With a most clear height a higher case may have no shelf positions at all. A wider shelf
    sags more, so that it may bear less. Otherwise width and depth never harm: run, depth for
    things and load limit grow with them, and shelf lines do not depend on them.
    """
    heights = grid.job.look.clear_most is not None
    widths = _may_sag(grid.job)
    return tuple(
        n
        for n, axis in enumerate(grid.axes)
        if (heights and axis.what == "height") or (widths and axis.what == "width")
    )


def _may_sag(job: Job) -> bool:
    """Whether at the most width some shelf's sag limit is less than its load limit.

    Load limits grow with the width and sag limits shrink, so that less width is no worse.
    """
    total = sum(mass_of(job, item)[0] * item.count for item in job.items)
    return any(_sags_first(job, case, total) for case in job.cases)


def _sags_first(job: Job, case: Case, total: int) -> bool:
    """Whether the sag limit of a case is felt at its most width and least depth."""
    if not isinstance(case.width, SizeRange):
        return False
    depth = depth_wanted(job, case)
    deep = depth.least if isinstance(depth, SizeRange) else depth
    bays = case.bay_counts[0]
    wide = case.width.most // bays
    found = [sag_load(job, case, wide, deep, index) for index in (0, 1)]
    least = min((one for one in found if one is not None), default=None)
    return least is not None and least < min(total, load_limit(job, wide, deep))


@dataclass(frozen=True)
class _Known:
    point: Point
    verdict: Verdict


class Monotone:
    """A question whose answer stays yes when sizes grow, on all axes but those enumerated."""

    def __init__(self, axes: tuple[Axis, ...], apart: tuple[int, ...]) -> None:
        self._free = tuple(n for n in range(len(axes)) if n not in apart)
        self._apart = apart
        self._known: list[_Known] = []

    def __call__(self, point: Point, ask: Callable[[], Verdict]) -> Verdict:
        """Answer from what is known, or ask and remember."""
        for one in self._known:
            if one.point == point or self._follows(one, point):
                return one.verdict
        verdict = ask()
        self._known.append(_Known(point, verdict))
        return verdict

    def learn(self, point: Point, verdict: Verdict) -> None:
        """Remember an answer that is known already."""
        if verdict is not Verdict.UNSETTLED:
            self._known.append(_Known(point, verdict))

    def _follows(self, one: _Known, point: Point) -> bool:
        if any(one.point[n] != point[n] for n in self._apart):
            return False
        there = [one.point[n] for n in self._free]
        here = [point[n] for n in self._free]
        if one.verdict is Verdict.YES:
            return within(there, here)
        return one.verdict is Verdict.NO and within(here, there)


class Fitting:
    """Says for a combination of shelf counts what fits at which sizes."""

    def __init__(self, grid: Grid, limits: Limits, *, share: bool) -> None:
        self._grid, self._limits, self._share = grid, limits, share
        self._as_much = Monotone(grid.axes, enumerated(grid))
        self._same: dict[LayoutProblem, Verdict] = {}
        self.left: Left = Left(Status.UNKNOWN, None, 0)

    def problem(self, point: Point) -> LayoutProblem:
        """Return the layout problem at a point."""
        job, depths = self._grid.settled(point)
        return build(job, self._grid.counts, depths, share=self._share)

    def measure(self, points: list[Point]) -> None:
        """Find the fewest things left out at any of the points, which hold all sizes below them."""
        found = []
        for point in points:
            found.append(_fewest_left(self.problem(point), self._limits))
            if found[-1].count == 0:
                break
        counted = [one for one in found if one.count is not None]
        best = min(counted, key=lambda one: one.count or 0, default=found[-1])
        self.left = replace(best, bound=min(one.bound for one in found))
        for point, one in zip(points, found, strict=False):
            self._as_much.learn(point, _verdict(one, self.left.count))

    def as_much(self, point: Point) -> Verdict:
        """Whether no more is left out at a point than has to be."""
        return self._as_much(point, lambda: self._asked(self.problem(point)))

    def _asked(self, problem: LayoutProblem) -> Verdict:
        plain = _plain(problem)
        if plain not in self._same:
            self._same[plain] = self._solved(problem)
        return self._same[plain]

    def _solved(self, problem: LayoutProblem) -> Verdict:
        count = self.left.count
        if count is None:
            return Verdict.YES
        status = fits_within(problem, count, self._limits)
        if status is Status.OPTIMAL:
            return Verdict.YES
        return Verdict.NO if status is Status.INFEASIBLE else Verdict.UNSETTLED


def _verdict(one: Left, count: int | None) -> Verdict:
    """Say whether what was found at a point is as much as anywhere."""
    if one.count == count:
        return Verdict.YES
    return Verdict.NO if count is not None and one.bound > count else Verdict.UNSETTLED


def _fewest_left(problem: LayoutProblem, limits: Limits) -> Left:
    """Ask first whether everything fits, which is mostly so and soon answered."""
    if fits_within(problem, 0, limits) is Status.OPTIMAL:
        return Left(Status.OPTIMAL, 0, 0)
    return fewest_left(problem, limits)


def _plain(problem: LayoutProblem) -> LayoutProblem:
    """Return the problem with every depth and load limit that allow the same made equal."""
    depths = sorted({form.depth for kind in problem.kinds for form in kind.forms})
    heaviest = sum(kind.mass * kind.count for kind in problem.kinds)

    def plain(bay: BayShape) -> BayShape:
        deep = max((d for d in depths if d <= bay.deep), default=0)
        sag = tuple(None if one is None or one >= bay.load else one for one in bay.sag)
        sags = tuple(None if one is None or one >= heaviest else one for one in sag)
        return replace(
            bay, deep=deep, front=0, load=min(bay.load, heaviest), sag=(sags[0], sags[1])
        )

    bays = tuple(plain(bay) for bay in problem.bays)
    return replace(problem, bays=bays, notes=(), holding=Holding())
