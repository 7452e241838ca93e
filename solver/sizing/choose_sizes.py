"""The sizes of one combination of shelf counts, in three stages, and what is proven of them.

Stage 1 finds the fewest things left out, at the most of all sizes. Stage 2 finds the least price
of sizes at which as much fits, stage 3 the sizes of that price that are nearest to the wish. Why
this is exact, and its exceptions, stands in :mod:`solver.sizing`.

With prefer = "look" only sizes count that look as good as any, whatever they cost
(:mod:`solver.sizing.best_look`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from solver.job.job import Job
from solver.layout.fit import Loss
from solver.outcome import Limits, Verdict
from solver.sizing.best_look import BestLook
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
        Loss of what is left out at these sizes, None where no size is open or there is no layout;
        at no sizes is it less than the bound [mm2].
    axes, point
        The open sizes, and the index of the value chosen for each.
    look_proven
        Whether no sizes look better, where the look comes first.
    """

    job: Job
    depths: dict[str, Ticks]
    stock: StockAnswer
    bound: Decimal
    price_proven: bool
    sheet_bound: int
    distance: Ticks
    nearest: Ticks
    left: Loss | None
    left_bound: Loss
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
        Whether no sizes look better, where the look comes first.
    """

    grid: Grid
    pricing: Pricing
    fitting: Fitting
    boxes: BranchAndBound
    look_proven: bool = True

    def at_most(self, parted: int) -> SizeSearch:
        """Return the search of sizes at which all fits with so many places parted at most [-]."""
        fitting = self.fitting.at_most(parted)
        boxes = replace(self.boxes, fits=fitting.as_much, may=fitting.may)
        return replace(self, fitting=fitting, boxes=boxes)


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
    if fitting.left.loss is None:
        starts = [(high, high) for _, high in starts]
    boxes = BranchAndBound(
        grid, pricing, fitting.as_much, fitting.may, starts, cliffs_of(grid), limits
    )
    _least(fitting, boxes)
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
    return chosen_of(size_search(job, counts, buyer, limits, share=share))


def chosen_of(search: SizeSearch, cheapest: Cheapest | None = None) -> ChosenSizes:
    """Choose the sizes of least price, which may be known, and of these the nearest to the wish.

    Where the limit left none, the most sizes are taken. Raises CannotBeDoneError as above.
    """
    cheapest, nearest = _price_then_distance(search, cheapest or search.boxes.cheapest())
    grid, left = search.grid, search.fitting.left
    assert nearest.point is not None
    assert nearest.distance is not None
    job, depths = grid.settled(nearest.point)
    priced = search.pricing.at(nearest.point)
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
        left=left.loss,
        left_bound=left.bound,
        axes=grid.axes,
        point=nearest.point,
        look_proven=search.look_proven,
    )


def _least(fitting: Fitting, boxes: BranchAndBound) -> None:
    """Where less wide shelves might carry more, look for sizes at which the bound is met."""
    found, bound = fitting.left.loss, fitting.left.bound
    if found is None or not fitting.wide or bound >= found:
        return
    fitting.aim(bound)
    if boxes.cheapest().point is None:
        fitting.aim(found)


def _price_then_distance(search: SizeSearch, cheapest: Cheapest) -> tuple[Cheapest, Nearest]:
    """Settle the distance at the least price; a cheaper price met by chance is followed up."""
    boxes, pricing = search.boxes, search.pricing
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
