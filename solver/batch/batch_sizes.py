"""The open sizes of all jobs of a batch, chosen together, and what all stock costs at them.

Exact for the same reasons as for one job (:mod:`solver.sizing.choose_sizes`): what fits in a job
depends on its own sizes only and is an up-set of them, and the parts of all jobs, larger, never
cost less. So the same branch and bound serves, on the axes of all jobs one after another. It
has a limit of time; what it leaves unsettled is stated with its bound. Shelf counts are not
chosen again: they are those recommended to each client.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import islice, product

from solver.batch.joint_cutting import ZERO, sheet_problem, stick_problem
from solver.batch.shared_stock import Listed, sheet_pools, stick_pools
from solver.cutting.cutting_answer import Answer
from solver.errors import CannotBeDoneError
from solver.job.job import Job, Shop
from solver.outcome import Limits, Status, Verdict
from solver.sizing.branch_and_bound import Box, BranchAndBound, Cheapest
from solver.sizing.choose_sizes import SizeSearch
from solver.sizing.pricing import INFINITE_COST, ZERO_COST, CostKey, StockCost
from solver.sizing.purchase import Cutter, sheet_parts
from solver.sizing.size_grid import Counts, Point, moved_towards
from solver.units import Ticks, Unit

STARTS_MOST = 64
"""Most boxes that the search starts from; with more, only each job's own sizes are used [-]."""
CHEAPEST_SHARE = 0.4
"""Share of the time for the least price [-]."""
TOWARDS_SHARE = 0.6
"""Share of the time then left for a first choice near the wishes; its proof has the rest [-]."""
WORK = 0.125
"""Work for one cutting while sizes are chosen, as a share of that for one stage of a plan [-]."""


@dataclass(frozen=True)
class SizesChosen:
    """Sizes chosen for all jobs, and what is proven.

    Attributes
    ----------
    point
        The sizes of all jobs, one after another.
    cost, bound
        What the stock costs at them, and its lower bound at any sizes.
    away, away_bound
        Distance of the sizes from those wished, in sum, and its lower bound at this price
        [tick].
    own_cost
        What the stock costs together at the sizes that each job has by itself.
    """

    point: Point
    cost: CostKey
    bound: CostKey
    away: Ticks
    away_bound: Ticks
    own_cost: CostKey

    @property
    def proven(self) -> bool:
        """Whether no sizes cost less."""
        return self.cost <= self.bound


def choose_together(together: Together, shop: Shop, unit: Unit, limits: Limits) -> SizesChosen:
    """Choose all open sizes of all jobs: the least price, then the nearest to the wishes.

    Never dearer than with the sizes that the jobs have by themselves.
    """
    pricing = JointPricing(together, shop, unit, replace(limits, work=limits.work * WORK))
    own = together.joined([client.point for client in together.clients])
    starts, every = _starts(together, own)
    boxes = _boxes(together, pricing, starts, limits.until(CHEAPEST_SHARE))
    cheapest = boxes.cheapest()
    cheapest.offer(own, pricing.at(own).cost)
    assert cheapest.point is not None
    point, cost = _towards(together, pricing, cheapest, own, limits.until(TOWARDS_SHARE))
    nearest = replace(boxes, limits=limits).nearest(cost)
    if nearest.point is not None:
        point = nearest.point
        cost = min(cost, pricing.at(point).cost)
    away = together.distance(point)
    least = nearest.bound if nearest.bound is not None else nearest.distance
    return SizesChosen(
        point=point,
        cost=cost,
        bound=min(cheapest.bound, cost) if every else ZERO_COST,
        away=away,
        away_bound=min(away, least or 0) if every else 0,
        own_cost=pricing.at(own).cost,
    )


def _boxes(
    together: Together, pricing: JointPricing, starts: list[Box], limits: Limits
) -> BranchAndBound:
    searches = [client.search for client in together.clients]

    def fits(point: Point) -> Verdict:
        pairs = zip(searches, together.split(point), strict=True)
        return _all(search.boxes.fits(at) for search, at in pairs)

    def may(low: Point, high: Point) -> Verdict:
        pairs = zip(searches, together.split(low), together.split(high), strict=True)
        return _all(search.boxes.may(a, b) for search, a, b in pairs)

    return BranchAndBound(
        grid=together,
        pricing=pricing,
        fits=fits,
        may=may,
        starts=starts,
        cliffs=tuple(cliff for search in searches for cliff in search.boxes.cliffs),
        limits=limits,
    )


def _all(verdicts: Iterable[Verdict]) -> Verdict:
    """Return yes where all say yes, no as soon as one says no."""
    every = Verdict.YES
    for verdict in verdicts:
        if verdict is Verdict.NO:
            return verdict
        if verdict is Verdict.UNSETTLED:
            every = verdict
    return every


def _starts(together: Together, own: Point) -> tuple[list[Box], bool]:
    """Return boxes that hold all sizes of all jobs, and True.

    Where there would be too many boxes: one with the sizes each job has by itself, and False.
    """
    of_jobs = [client.search.boxes.starts for client in together.clients]
    whole = list(islice(product(*of_jobs), STARTS_MOST + 1))
    if len(whole) > STARTS_MOST:
        return [(own, own)], False
    return [
        (together.joined([low for low, _ in box]), together.joined([high for _, high in box]))
        for box in whole
    ], True


def _towards(
    together: Together, pricing: JointPricing, cheapest: Cheapest, own: Point, limits: Limits
) -> tuple[Point, CostKey]:
    """Move the cheapest sizes towards the wish while they cost no more: all at once, then each.

    Only larger sizes are tried, at which as much fits. Returns the sizes and their cost.
    """
    assert cheapest.point is not None
    start, cost = cheapest.point, cheapest.cost

    def as_cheap(point: Point) -> bool:
        return not limits.over and pricing.at(point).cost <= cost

    if together.distance(own) < together.distance(start) and as_cheap(own):
        start = own
    wish = _upward(together, start)
    return moved_towards(start, wish, as_cheap), cost


def _upward(together: Together, start: Point) -> Point:
    """Return the wish, on each axis where it is larger than the sizes found."""
    axes = [axis for client in together.clients for axis in client.search.grid.axes]
    return tuple(max(at, axis.wished) for at, axis in zip(start, axes, strict=True))


@dataclass(frozen=True)
class Client:
    """A job of the batch, with its shelf counts, and the search over its own open sizes.

    Attributes
    ----------
    point
        The sizes that it has when it is planned by itself.
    """

    name: str
    job: Job
    counts: Counts
    search: SizeSearch
    point: Point

    def listed(self, point: Point) -> Listed:
        """Return all that is cut for it at some sizes."""
        settled, depths = self.search.grid.settled(point)
        parts = sheet_parts(settled, self.counts, depths)
        return Listed(self.name, settled, self.counts, depths, parts)


@dataclass(frozen=True)
class Together:
    """The open sizes of all jobs, one after another, as one choice."""

    clients: tuple[Client, ...]

    def split(self, point: Point) -> list[Point]:
        """Return the sizes of each job."""
        found, first = [], 0
        for client in self.clients:
            last = first + len(client.search.grid.axes)
            found.append(point[first:last])
            first = last
        return found

    def joined(self, points: Sequence[Point]) -> Point:
        """Return the sizes of all jobs as one choice."""
        return tuple(at for point in points for at in point)

    def distance(self, point: Point) -> Ticks:
        """Return how far the sizes are from those wished, all jobs together [tick]."""
        pairs = zip(self.clients, self.split(point), strict=True)
        return sum(client.search.grid.distance(own) for client, own in pairs)

    def nearest(self, low: Point, high: Point) -> Point:
        """Return the point of a box that is nearest to the wishes."""
        grids = [client.search.grid for client in self.clients]
        pairs = zip(grids, self.split(low), self.split(high), strict=True)
        return self.joined([grid.nearest(a, b) for grid, a, b in pairs])


class JointPricing:
    """Prices choices of all sizes, each once; every list of parts is cut once.

    A bound holds for all larger sizes as well: the same parts, larger, never cost less.
    """

    def __init__(self, together: Together, shop: Shop, unit: Unit, limits: Limits) -> None:
        self._together, self._shop, self._unit = together, shop, unit
        self._known: dict[Point, StockCost] = {}
        self._listed: dict[tuple[str, Point], Listed] = {}
        self._cutter = Cutter(limits)

    def at(self, point: Point) -> StockCost:
        """Return the cost of all stock at a point."""
        if point not in self._known:
            try:
                self._known[point] = self._priced(point)
            except CannotBeDoneError as error:
                self._known[point] = StockCost(None, INFINITE_COST, INFINITE_COST, error)
        return self._known[point]

    def alike(self, low: Point, high: Point) -> bool:
        """Whether the same parts are made everywhere in a box."""
        own = zip(
            self._together.clients,
            self._together.split(low),
            self._together.split(high),
            strict=True,
        )
        return all(client.search.pricing.alike(a, b) for client, a, b in own)

    def _priced(self, point: Point) -> StockCost:
        pairs = zip(self._together.clients, self._together.split(point), strict=True)
        listed = [self._of(client, own) for client, own in pairs]
        cut = [
            self._cutter.sheets(sheet_problem(pool, self._shop, self._unit))
            for pool in sheet_pools(listed)
        ]
        area = sum(
            sheet.length * sheet.width
            for answer in cut
            for sheet in answer.stock
            if sheet.price is None and not sheet.on_hand
        )
        sticks = [
            self._cutter.sticks(stick_problem(pool, self._shop, self._unit))
            for pool in stick_pools(listed)
        ]
        answers: list[Answer] = [*cut, *sticks]
        cost = sum((one.cost for one in answers), ZERO), area
        proven = all(one.status is Status.OPTIMAL for one in answers)
        least = sum((one.cost_bound for one in answers), ZERO), 0
        return StockCost(None, cost, cost if proven else least)

    def _of(self, client: Client, point: Point) -> Listed:
        key = client.name, point
        if key not in self._listed:
            self._listed[key] = client.listed(point)
        return self._listed[key]
