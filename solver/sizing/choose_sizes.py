"""The sizes of one combination of shelf counts, in three stages, and what is proven of them.

Stage 1 finds the fewest things left out, at the most of all sizes. Stage 2 finds the least price
of sizes at which as much fits, stage 3 the sizes of that price that are nearest to the wish. Why
this is exact, and its exceptions, stands in :mod:`solver.sizing`.

With prefer = "look" (:class:`BestLook`) only sizes count that look as good as any, whatever they
cost: in rhythm, and of the layouts of as good a rhythm in even headroom. A layout stays allowed
when a case gets wider or deeper, so the best look of a box of widths and depths is that of its
most sizes. Heights change it either way and are enumerated. What nobody sees (`rhythm_slack`,
`headroom_slack`) counts as equally good. Where something is left out, only the rhythm counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from solver.job.job import Job
from solver.layout.evenness import Evenness
from solver.layout.fit import FewestLeft
from solver.layout.layout_engine import settle_marks
from solver.layout.layout_problem import LayoutProblem
from solver.layout.pareto_front import ParetoSearch
from solver.layout.pareto_points import Fineness
from solver.outcome import Limits, Status, Verdict
from solver.sizing.branch_and_bound import BranchAndBound, Cheapest, Nearest
from solver.sizing.combinations import Counts
from solver.sizing.fitting import Fitting
from solver.sizing.pricing import Pricing, cuttable
from solver.sizing.purchase import Buyer, StockAnswer
from solver.sizing.size_grid import Axis, Grid, Point, axes_of, cliffs_of
from solver.units import Ticks

AGAIN_MOST = 3
"""How often a cheaper price, met by chance while looking for the nearest size, is followed up."""


@dataclass(frozen=True)
class ChosenSizes:
    """Sizes chosen for one combination of shelf counts, the stock at them, and what is proven.

    Attributes
    ----------
    job
        The job with these sizes, its bays as many as there are counts.
    depths
        Inside depth of each case [tick].
    stock
        Sheets and mouldings at these sizes.
    bound
        No sizes that let as much fit cost less.
    price_proven
        Whether that bound is met, by area where there are no prices.
    sheet_bound
        No such sizes take fewer sheets [-].
    distance, nearest
        How far all open sizes are from the wished ones together, and its proven bound [tick].
    left, left_bound
        Things left out at these sizes, None where no size is open or there is no layout; at no
        sizes are fewer left out than the bound [-].
    axes, point
        The open sizes, and the index of the value chosen for each.
    look_proven
        Whether no sizes have headroom that is seen to be more even, where the look comes first.
    """

    job: Job
    depths: dict[str, Ticks]
    stock: StockAnswer
    bound: Decimal
    price_proven: bool
    sheet_bound: int
    distance: Ticks
    nearest: Ticks
    left: int | None
    left_bound: int
    axes: tuple[Axis, ...]
    point: Point
    look_proven: bool = True

    @property
    def size_proven(self) -> bool:
        """Whether no sizes of this price, proven least, are nearer to the wish."""
        return self.price_proven and self.distance <= self.nearest


@dataclass(frozen=True)
class SizeSearch:
    """What is asked about the open sizes of one combination of shelf counts.

    Attributes
    ----------
    grid, pricing
        The choices of sizes, and what the stock costs at them.
    fitting
        What fits at which of them.
    boxes
        The search; `fits` and `may` are those of the look where it comes first.
    look_proven
        Whether no sizes have headroom that is seen to be more even, where the look comes first.
    """

    grid: Grid
    pricing: Pricing
    fitting: Fitting
    boxes: BranchAndBound
    look_proven: bool = True


def size_search(
    job: Job, counts: Counts, buyer: Buyer, limits: Limits, *, share: bool
) -> SizeSearch:
    """Measure what fits at most, for a combination of shelf counts."""
    grid = Grid(job, counts, axes_of(job, counts))
    pricing = Pricing(grid, buyer)
    fitting = Fitting(grid, limits, share=share)
    if not grid.axes:
        return SizeSearch(grid, pricing, fitting, _nothing_open(grid, pricing, limits))
    starts = cuttable(grid, pricing)
    fitting.measure(starts)
    if fitting.left.count is None:
        starts = [(high, high) for _, high in starts]
    boxes = BranchAndBound(
        grid, pricing, fitting.as_much, fitting.may, starts, cliffs_of(grid), limits
    )
    _fewest(fitting, boxes)
    if job.look.prefer != "look":
        return SizeSearch(grid, pricing, fitting, boxes)
    best_look = BestLook(grid, fitting, limits)
    best_look.measure(starts)
    boxes = replace(boxes, fits=best_look.as_good, may=best_look.may)
    return SizeSearch(grid, pricing, fitting, boxes, best_look.proven)


def _nothing_open(grid: Grid, pricing: Pricing, limits: Limits) -> BranchAndBound:
    """Return the search where there is one choice of sizes, which is taken."""

    def yes(*_: Point) -> Verdict:
        return Verdict.YES

    return BranchAndBound(grid, pricing, yes, yes, [((), ())], (), limits)


def choose_sizes(
    job: Job, counts: Counts, buyer: Buyer, limits: Limits, *, share: bool
) -> ChosenSizes:
    """Choose every open size of every case for one combination of shelf counts.

    Raises
    ------
    CannotBeDoneError
        Where the parts cannot be cut at any sizes that let as much fit.
    """
    grid = Grid(job, counts, axes_of(job, counts))
    if not grid.axes:
        pricing = Pricing(grid, buyer)
        return _sized(
            grid,
            pricing,
            _price_of_fixed_sizes(pricing),
            Nearest((), 0),
            FewestLeft(Status.UNKNOWN, None, 0),
        )
    search = size_search(job, counts, buyer, limits, share=share)
    cheapest, nearest = _price_then_distance(search.boxes, search.pricing)
    sized = _sized(search.grid, search.pricing, cheapest, nearest, search.fitting.left)
    return replace(sized, look_proven=search.look_proven)


def _fewest(fitting: Fitting, boxes: BranchAndBound) -> None:
    """Where less wide shelves might carry more, look for sizes that leave fewer things out."""
    most, bound = fitting.left.count, fitting.left.bound
    if most is None or not fitting.wide:
        return
    for count in range(bound, most):
        fitting.aim(count)
        if boxes.cheapest().point is not None:
            return
    if bound < most:
        fitting.aim(most)


def _price_then_distance(boxes: BranchAndBound, pricing: Pricing) -> tuple[Cheapest, Nearest]:
    """Settle price, then distance; a cheaper price met by chance is followed up."""
    cheapest = boxes.cheapest()
    if cheapest.point is None:  # the limit came first, or nothing can be cut
        cheapest.point = boxes.starts[0][1]
        return cheapest, Nearest(cheapest.point, boxes.grid.distance(cheapest.point), 0)
    nearest = Nearest()
    for _ in range(AGAIN_MOST):
        nearest = boxes.nearest(cheapest.cost, cheapest.point)
        assert nearest.point is not None  # at worst the point it starts from
        if pricing.at(nearest.point).cost == cheapest.cost:
            break
        cheapest.offer(nearest.point, pricing.at(nearest.point).cost)
    return cheapest, nearest


def _price_of_fixed_sizes(pricing: Pricing) -> Cheapest:
    """Return the price where no size is open."""
    priced = pricing.at(())
    return Cheapest((), priced.cost, priced.bound, priced.bought.sheet_bound)


def _sized(
    grid: Grid, pricing: Pricing, cheapest: Cheapest, nearest: Nearest, left: FewestLeft
) -> ChosenSizes:
    assert nearest.point is not None
    assert nearest.distance is not None
    job, depths = grid.settled(nearest.point)
    priced = pricing.at(nearest.point)
    bound = nearest.distance if nearest.bound is None else min(nearest.bound, nearest.distance)
    return ChosenSizes(
        job=job,
        depths=depths,
        stock=priced.bought,
        bound=min(cheapest.bound, priced.cost)[0],
        price_proven=priced.cost <= cheapest.bound,
        sheet_bound=min(cheapest.sheet_bound or 0, priced.bought.sheet_count),
        distance=nearest.distance,
        nearest=bound,
        left=left.count,
        left_bound=left.bound,
        axes=grid.axes,
        point=nearest.point,
    )


class BestLook:
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
        self._rhythm_slack = grid.job.look.rhythm_slack
        self._headroom_slack = grid.job.look.headroom_slack
        self._rhythms: dict[tuple[Point, Point], RhythmBound] = {}
        self._evenness: dict[tuple[Point, Point], EvennessBound] = {}
        self.best: Fraction | None = None
        self.even: Evenness | None = None
        self.proven = True

    def measure(self, boxes: Sequence[tuple[Point, Point]]) -> None:
        """Find the best look at the most sizes of the boxes that let as much fit."""
        most = [high for _, high in boxes if self._fitting.as_much(high) is Verdict.YES]
        values = [self._best_rhythm(high, high)[0] for high in most]
        self.best = min((value for value in values if value is not None), default=None)
        if self.best is None or self._fitting.left.count:
            return
        fine = [high for high in most if self._rhythm_of(high, high) is not Verdict.NO]
        found = [self._most_even(high, high) for high in fine]
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
        value, bound = self._most_even(low, high)
        if value is not None and value <= self._as_even(self.even):
            return Verdict.YES
        return Verdict.NO if bound > self._as_even(self.even) else Verdict.UNSETTLED

    def _as_even(self, even: Evenness) -> Evenness:
        """The least even headroom that nobody tells from this."""
        return replace(even, spread=even.spread + self._headroom_slack)

    def _rhythm_of(self, low: Point, high: Point) -> Verdict:
        if self.best is None:
            return Verdict.YES
        value, bound = self._best_rhythm(low, high)
        if value is not None and value <= self.best + self._rhythm_slack:
            return Verdict.YES
        return Verdict.NO if bound > self.best + self._rhythm_slack else Verdict.UNSETTLED

    def _most_even(self, low: Point, high: Point) -> EvennessBound:
        """The most even headroom in as good a rhythm as at any sizes, and its bound."""
        assert self.best is not None
        key = (self._fitting.narrowest(low, high), high)
        if key not in self._evenness:
            trading = ParetoSearch(self._fitting.roomiest(low, high), self._limits, Fineness(0, 0))
            self._evenness[key] = trading.evenest(self.best + self._rhythm_slack)
        return self._evenness[key]

    def _best_rhythm(self, low: Point, high: Point) -> RhythmBound:
        key = (self._fitting.narrowest(low, high), high)
        if key not in self._rhythms:
            self._rhythms[key] = _best_rhythm_at(self._fitting.roomiest(low, high), self._limits)
        return self._rhythms[key]


EvennessBound = tuple[Evenness | None, Evenness]
"""Most even headroom found, and its bound."""
RhythmBound = tuple[Fraction | None, Fraction]
"""Best rhythm found and its bound [tick]."""


def _best_rhythm_at(problem: LayoutProblem, limits: Limits) -> RhythmBound:
    found = settle_marks(problem, limits).stages.get("rhythm")
    return (None, Fraction(0)) if found is None else (found.value, found.bound)
