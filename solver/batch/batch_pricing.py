"""What the stock of all jobs together costs at a choice of all their open sizes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.batch.joint_cutting import ZERO, sheet_problem, stick_problem
from solver.batch.pools import Listed, sheet_pools, stick_pools
from solver.cutting.answer import Answer
from solver.errors import CannotBeDoneError
from solver.job.job import Job, Shop
from solver.outcome import Limits, Status
from solver.sizing.axes import Counts, Point
from solver.sizing.choose_sizes import SizeSearch
from solver.sizing.pricing import ENDLESS, Priced
from solver.sizing.purchase import Cutter, sheet_parts
from solver.units import Ticks, Unit


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
        self._known: dict[Point, Priced] = {}
        self._listed: dict[tuple[str, Point], Listed] = {}
        self._cutter = Cutter(limits)

    def at(self, point: Point) -> Priced:
        """Return the cost of all stock at a point."""
        if point not in self._known:
            try:
                self._known[point] = self._priced(point)
            except CannotBeDoneError as error:
                self._known[point] = Priced(None, ENDLESS, ENDLESS, error)
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

    def _priced(self, point: Point) -> Priced:
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
        return Priced(None, cost, cost if proven else least)

    def _of(self, client: Client, point: Point) -> Listed:
        key = client.name, point
        if key not in self._listed:
            self._listed[key] = client.listed(point)
        return self._listed[key]
