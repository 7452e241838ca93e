"""Whether as much fits at some sizes as at any: asked once each, answers reused.

What fits at some sizes fits at larger ones too, in the same openings, since clear width, depth,
standard load and shelf lines allow no less there; so places parted, which a question may limit,
are no more at larger sizes either. There are two exceptions. With a most clear height a higher case
may have no shelf positions at all, so heights are then tried one by one (:func:`enumerated`). And a
wider shelf sags more: where a sag limit may be felt, a box of sizes is asked about with its most
sizes but the sag limits of its least widths (:meth:`Fitting.may`). No sizes in the box let more fit
than that.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from solver.carcass.boards_of_case import load_limit, mass_of
from solver.carcass.outline import depth_wanted
from solver.job.case import Case, SizeRange
from solver.job.job import Job
from solver.layout.fit import (
    NOTHING,
    LeastLoss,
    Loss,
    at_most,
    fits_within,
    least_loss,
    least_parted,
)
from solver.layout.layout_problem import BayShape, Holding, LayoutProblem
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Status, Verdict
from solver.sizing.size_grid import Axis, Grid, Point, moved, not_above
from solver.strength.beams import MIDSPAN_SHARE
from solver.strength.shelf_beams import sag_load


def sags_first(job: Job, case: Case) -> bool:
    """Whether the sag limit of a case is felt at its most width and least depth.

    Load limits grow with the width and sag limits shrink, so that less width is no worse.
    """
    total = sum(mass_of(job, item)[0] * item.count for item in job.items)
    if not isinstance(case.width, SizeRange):
        return False
    depth = depth_wanted(job, case)
    deep = depth.least if isinstance(depth, SizeRange) else depth
    bays = case.bay_counts[0]
    wide = case.width.most // bays
    found = [sag_load(job, case, wide, deep, index) for index in (0, 1)]
    least = min((one for one in found if one is not None), default=None)
    felt = min(total, load_limit(job, wide, deep)) * MIDSPAN_SHARE[0]
    return least is not None and least * MIDSPAN_SHARE[1] < felt


AT_LENGTH_MOST = 2
"""Questions that may stay open before the next ones are given a first look only [-]."""
LOOKS_MOST = 12
"""Questions that may stay open before no more are asked [-]."""


def enumerated(grid: Grid) -> tuple[int, ...]:
    """Return the axes whose values are tried one by one.

    Heights, with a most clear height; or where the look comes first, since the rhythm may be
    better or worse with more height.
    """
    look = grid.job.look
    if look.clear_most is None and look.prefer != "look":
        return ()
    return tuple(n for n, axis in enumerate(grid.axes) if axis.what == "height")


def sagging(grid: Grid) -> tuple[int, ...]:
    """Return the widths on which less may fit at more, since a sag limit may be felt there."""
    felt = {case.name for case in grid.job.cases if sags_first(grid.job, case)}
    return tuple(
        n for n, axis in enumerate(grid.axes) if axis.what == "width" and axis.case in felt
    )


@dataclass(frozen=True)
class _KnownAnswer:
    point: Point
    verdict: Verdict


class MonotoneAnswers:
    """A question whose answer stays yes when sizes grow, on all axes but those enumerated."""

    def __init__(self, axes: tuple[Axis, ...], apart: tuple[int, ...]) -> None:
        self._free = tuple(n for n in range(len(axes)) if n not in apart)
        self._apart = apart
        self._known: list[_KnownAnswer] = []

    def __call__(self, point: Point, ask: Callable[[], Verdict]) -> Verdict:
        """Answer from what is known, or ask and remember."""
        for one in self._known:
            if one.point == point or self._follows(one, point):
                return one.verdict
        verdict = ask()
        self._known.append(_KnownAnswer(point, verdict))
        return verdict

    def learn(self, point: Point, verdict: Verdict) -> None:
        """Remember an answer that is known already."""
        if verdict is not Verdict.UNSETTLED:
            self._known.append(_KnownAnswer(point, verdict))

    def _follows(self, one: _KnownAnswer, point: Point) -> bool:
        if any(one.point[n] != point[n] for n in self._apart):
            return False
        there = [one.point[n] for n in self._free]
        here = [point[n] for n in self._free]
        if one.verdict is Verdict.YES:
            return not_above(there, here)
        return one.verdict is Verdict.NO and not_above(here, there)


class Fitting:
    """Says for a combination of shelf counts what fits at which sizes.

    With `parted`, what fits with so many places parted at most [-].
    """

    def __init__(
        self, grid: Grid, limits: Limits, *, share: bool, parted: int | None = None
    ) -> None:
        self._grid, self._limits, self._share, self._parted = grid, limits, share, parted
        self.wide = sagging(grid)
        self._as_much = self._unknown()
        self._verdicts: dict[tuple[LayoutProblem, Loss], Verdict] = {}
        self._unsettled = 0
        self.left = LeastLoss(Status.UNKNOWN, None, NOTHING)
        """Least loss at any sizes."""

    def problem(self, point: Point) -> LayoutProblem:
        """Return the layout problem at a point."""
        job, depths = self._grid.settled(point)
        problem = build(job, self._grid.counts, depths, share=self._share)
        return at_most(problem, self._parted)

    def at_most(self, parted: int) -> Fitting:
        """Return the same, of layouts that leave nothing out, with so many places parted [-]."""
        one = Fitting(self._grid, self._limits, share=self._share, parted=parted)
        one.aim(NOTHING)
        return one

    def least_parted(self, boxes: Sequence[tuple[Point, Point]]) -> int:
        """Bound the places parted of any sizes in the boxes, nothing left out [-]."""
        problems = [self.roomiest(low, high) for low, high in boxes]
        return min(least_parted(one, self._limits, NOTHING)[1] for one in problems)

    def _unknown(self) -> MonotoneAnswers:
        return MonotoneAnswers(self._grid.axes, (*enumerated(self._grid), *self.wide))

    def measure(self, boxes: Sequence[tuple[Point, Point]]) -> None:
        """Find the least loss at the largest sizes of the boxes, with a bound."""
        found, bounds = [], []
        for low, high in boxes:
            one = self._least_loss(self.problem(high))
            found.append(one)
            if one.loss == NOTHING:
                bounds.append(NOTHING)
                break
            if any(low[n] != high[n] for n in self.wide):
                one = self._least_loss(self.roomiest(low, high))
            if one.status is not Status.INFEASIBLE:
                bounds.append(one.bound)
        nowhere = all(one.status is Status.INFEASIBLE for one in found)
        best = min(
            (one for one in found if one.loss is not None),
            key=lambda one: one.loss or NOTHING,
            default=LeastLoss(Status.INFEASIBLE if nowhere else Status.UNKNOWN, None, NOTHING),
        )
        self.left = replace(best, bound=min(bounds, default=NOTHING))
        for (_, high), one in zip(boxes, found, strict=False):
            self._as_much.learn(high, _verdict(one, self.left.loss))

    def aim(self, loss: Loss) -> None:
        """Ask from now on for no more than `loss` left out."""
        self.left = replace(self.left, loss=loss)
        self._as_much = self._unknown()

    def may(self, low: Point, high: Point) -> Verdict:
        """Whether no more may be left out somewhere in a box; NO is proven for all of it."""
        if all(low[n] == high[n] for n in self.wide):
            return self.as_much(high)
        return self._asked(self.roomiest(low, high))

    def narrowest(self, low: Point, high: Point) -> Point:
        """Return the most sizes of a box, but the least widths where sag may be felt."""
        for n in self.wide:
            high = moved(high, n, low[n])
        return high

    def roomiest(self, low: Point, high: Point) -> LayoutProblem:
        """Return the problem of the most sizes of a box with the sag limits of its least widths."""
        problem, stiff = self.problem(high), self.problem(self.narrowest(low, high))
        pairs = zip(problem.bays, stiff.bays, strict=True)
        return replace(problem, bays=tuple(replace(bay, sag=other.sag) for bay, other in pairs))

    def as_much(self, point: Point) -> Verdict:
        """Whether no more is left out at a point than has to be."""
        return self._as_much(point, lambda: self._asked(self.problem(point)))

    def _asked(self, problem: LayoutProblem) -> Verdict:
        loss = self.left.loss
        return Verdict.YES if loss is None else self._fits(problem, loss)

    def _least_loss(self, problem: LayoutProblem) -> LeastLoss:
        """Ask first whether everything fits, which is mostly so and soon answered."""
        return least_loss(problem, self._limits, self._fits(problem, NOTHING))

    def _fits(self, problem: LayoutProblem, loss: Loss) -> Verdict:
        """Ask once of all problems that allow the same, at length while that still settles it."""
        key = _normalized(problem), loss
        if key not in self._verdicts:
            if self._unsettled >= LOOKS_MOST:
                return Verdict.UNSETTLED
            look = self._unsettled >= AT_LENGTH_MOST
            self._verdicts[key] = fits_within(problem, loss, self._limits, look=look)
            self._unsettled += self._verdicts[key] is Verdict.UNSETTLED
        return self._verdicts[key]


def _verdict(one: LeastLoss, loss: Loss | None) -> Verdict:
    """Say whether what was found at a point is as much as anywhere."""
    if one.loss == loss:
        return Verdict.YES
    return Verdict.NO if loss is not None and one.bound > loss else Verdict.UNSETTLED


def _normalized(problem: LayoutProblem) -> LayoutProblem:
    """Return the problem with every depth and load limit that allow the same made equal."""
    depths = sorted({form.depth for kind in problem.kinds for form in kind.forms})
    heaviest = sum(kind.mass * kind.count for kind in problem.kinds)

    def plain(bay: BayShape) -> BayShape:
        deep = max((d for d in depths if d <= bay.deep), default=0)
        # one thing by itself may count up to MOST times as much as spread evenly
        felt = min(bay.load, heaviest) * MIDSPAN_SHARE[0] // MIDSPAN_SHARE[1] + 1
        sags = tuple(None if one is None or one >= felt else one for one in bay.sag)
        return replace(
            bay, deep=deep, front=0, load=min(bay.load, heaviest), sag=(sags[0], sags[1])
        )

    bays = tuple(plain(bay) for bay in problem.bays)
    return replace(problem, bays=bays, lines_apart=(), holding=Holding())
