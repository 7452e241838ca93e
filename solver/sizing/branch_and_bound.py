"""Branch and bound over sizes: the least price, then the nearest to the wish, both proven.

The sizes at which as much fits are an up-set: larger sizes fit as much. The sizes that cost no more
than a price are a down-set, where the same parts are made: smaller ones cost no more. So a box of
sizes shrinks from below by what does not fit and from above by what is too dear, on one axis at a
time and by halving. It is fathomed where its least corner fits, where its bound is no better than
what was found, or where its nearest point both fits and is cheap. Only what is left is split, at a
cliff of the sheets where one is near the middle. What a limit left unsettled is given up with its
bound (`hold`), so that the bound told holds all the same.
"""

from __future__ import annotations

import heapq
from bisect import bisect_left
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Protocol, TypeAlias

from solver.outcome import Limits, Verdict
from solver.sizing.pricing import INFINITE_COST, ZERO_COST, CostKey, StockCost
from solver.sizing.size_grid import Point, moved, moved_towards, not_above
from solver.units import Ticks

BOXES_MOST = 400
"""Boxes looked at in each stage before the bound of what is left is told instead [-]."""

Ask: TypeAlias = Callable[[Point], Verdict]


class Space(Protocol):
    """All choices of sizes: how far they are from the wish."""

    def distance(self, point: Point) -> Ticks:
        """Return how far the sizes are from the wished ones, all together [tick]."""

    def nearest(self, low: Point, high: Point) -> Point:
        """Return the point of a box that is nearest to the wish."""


class Prices(Protocol):
    """What the stock costs at a choice of sizes."""

    def at(self, point: Point) -> StockCost:
        """Return the cost at a point, and its bound, which holds for all larger sizes."""

    def alike(self, low: Point, high: Point) -> bool:
        """Whether the same parts are made everywhere in a box."""


Box: TypeAlias = tuple[Point, Point]
"""Least and most index on each axis, both in the box."""


@dataclass
class Cheapest:
    """Least price: where it is found, and a lower bound for all sizes that fit as much."""

    point: Point | None = None
    cost: CostKey = INFINITE_COST
    bound: CostKey = INFINITE_COST
    sheet_bound: int | None = None

    def offer(self, point: Point, cost: CostKey) -> None:
        """Take a point that fits, if it is cheaper."""
        if cost < self.cost:
            self.point, self.cost = point, cost

    def hold(self, bound: CostKey, sheets: int | None) -> None:
        """Note the bound of sizes that are not searched further: the proven bound drops to it."""
        self.bound = min(self.bound, bound)
        if sheets is not None:
            self.sheet_bound = sheets if self.sheet_bound is None else min(self.sheet_bound, sheets)


@dataclass
class Nearest:
    """Least distance from the wish: where it is found, and a lower bound for all cheap sizes."""

    point: Point | None = None
    distance: Ticks | None = None
    bound: Ticks | None = None

    def hold(self, bound: Ticks) -> None:
        """Note the distance of sizes that are not searched further: the bound drops to it."""
        self.bound = bound if self.bound is None else min(self.bound, bound)


@dataclass
class BranchAndBound:
    """The search over the sizes of one combination of shelf counts, or of several jobs together.

    Attributes
    ----------
    fits
        Whether a point may be taken at all.
    may
        Whether any point of a box may be; a proven no holds for every box within it.
    cliffs
        For each axis the indices at which fewer strips or pieces come out of a sheet.
    """

    grid: Space
    pricing: Prices
    fits: Ask
    may: Callable[[Point, Point], Verdict]
    starts: list[Box]
    cliffs: tuple[tuple[int, ...], ...]
    limits: Limits
    _order: int = field(default=0)

    def cheapest(self) -> Cheapest:
        """Find the least price of any size that fits."""
        found = Cheapest()
        heap = [self._priced_box(box) for box in self.starts]
        heapq.heapify(heap)
        nodes = 0
        while heap:
            floor, _, box = heapq.heappop(heap)
            nodes += 1
            if floor >= found.cost or nodes > BOXES_MOST or self.limits.over:
                found.hold(floor, self._sheets(box[0]))
                continue
            for part in self._branch_on_price(box, found):
                heapq.heappush(heap, self._priced_box(part))
        if found.cost < found.bound:
            found.bound = found.cost
        return found

    def _priced_box(self, box: Box) -> tuple[CostKey, int, Box]:
        self._order += 1
        alike = self.pricing.alike(*box)
        return (self.pricing.at(box[0]).bound if alike else ZERO_COST), self._order, box

    def _sheets(self, point: Point) -> int | None:
        stock = self.pricing.at(point).stock
        return None if stock is None else stock.sheet_bound

    def _branch_on_price(self, box: Box, found: Cheapest) -> list[Box]:
        """Take what fits in a box, fathom it where nothing can be cheaper, return what is left."""
        low, high = box
        if not self._may_fit(box, lambda: found.hold(*self._bound_of(box))):
            return []
        if self.fits(high) is Verdict.YES:
            found.offer(high, self.pricing.at(high).cost)
        if self._fathomed(box, found):
            return []
        low = self._raised(low, high, lambda at: found.hold(*self._bound_of((at, high))))
        if self.fits(low) is Verdict.YES:
            found.offer(low, self.pricing.at(low).cost)
            if self.pricing.alike(low, high):
                found.hold(*self._bound_of((low, high)))
                return []
        if self._fathomed((low, high), found):
            return []
        if self.pricing.alike(low, high):
            found.hold(INFINITE_COST, self._sheets(low))
            high = self._lowered(low, high, lambda at: self.pricing.at(at).bound < found.cost)
        return [(low, high)] if (low, high) != box else self._split(box, None)

    def _fathomed(self, box: Box, found: Cheapest) -> bool:
        """Whether nothing in a box can be cheaper than the best found; its bound is noted."""
        if not self.pricing.alike(*box) or self.pricing.at(box[0]).bound < found.cost:
            return False
        found.hold(*self._bound_of(box))
        return True

    def _bound_of(self, box: Box) -> tuple[CostKey, int | None]:
        if not self.pricing.alike(*box):
            return ZERO_COST, 0
        return self.pricing.at(box[0]).bound, self._sheets(box[0])

    def _may_fit(self, box: Box, note_bound: Callable[[], None]) -> bool:
        verdict = self.may(*box)
        if verdict is Verdict.UNSETTLED:
            note_bound()
        return verdict is Verdict.YES

    def _raised(self, low: Point, high: Point, note_bound: Callable[[Point], None]) -> Point:
        """Raise each size to the least at which something fits with the others at their most.

        Where sizes are cut off without proof that nothing fits there, `note_bound` is called with
        the least corner of the box.
        """
        if self.fits(low) is Verdict.YES:
            return low
        raised = low
        for axis in range(len(low)):
            bad, good = low[axis] - 1, high[axis]
            while good - bad > 1:
                middle = (bad + good) // 2
                if self.may(raised, moved(high, axis, middle)) is Verdict.YES:
                    good = middle
                else:
                    bad = middle
            if bad >= low[axis]:
                last = self.may(raised, moved(high, axis, bad))
                if last is Verdict.UNSETTLED:
                    note_bound(raised)
            raised = moved(raised, axis, good)
        return raised

    def _lowered(self, low: Point, high: Point, may: Callable[[Point], bool]) -> Point:
        """Lower each size to the most that may be taken with the others at their least."""
        lowered = high
        for axis in range(len(low)):
            good, bad, step = low[axis], high[axis], 1
            if may(moved(low, axis, bad)):
                continue
            while bad - good > 1:
                middle = max(bad - step, (bad + good) // 2)
                step *= 2
                if may(moved(low, axis, middle)):
                    good = middle
                else:
                    bad = middle
            lowered = moved(lowered, axis, good)
        return lowered

    def _split(self, box: Box, at: tuple[int, int] | None) -> list[Box]:
        """Split a box in two: at (axis, first index of the upper part), else at a cliff."""
        low, high = box
        if not not_above(low, high) or low == high:
            return []
        axis, first = at or self._where(low, high)
        return [(low, moved(high, axis, first - 1)), (moved(low, axis, first), high)]

    def _where(self, low: Point, high: Point) -> tuple[int, int]:
        """The longest axis, at the cliff nearest to its middle, else at its middle."""
        axis = max(range(len(low)), key=lambda n: (high[n] - low[n], -n))
        middle = (low[axis] + high[axis] + 1) // 2
        near = [c for c in self.cliffs[axis] if low[axis] < c <= high[axis]]
        return axis, min(near, key=lambda c: abs(c - middle), default=middle)

    def nearest(self, cost: CostKey, start: Point | None = None) -> Nearest:
        """Find the size nearest to the wish that fits and costs no more.

        `start` is a point that does. Nearer ones are first sought from there, so that something
        near is found where the limit comes before the proof.
        """
        found = Nearest()
        if start is not None:
            wish = self.grid.nearest(*self._hull())
            found.point = moved_towards(start, wish, lambda at: self._admitted(at, cost))
            found.distance = self.grid.distance(found.point)
        heap = [self._distant_box(box) for box in self.starts]
        heapq.heapify(heap)
        nodes = 0
        while heap:
            distance, _, box = heapq.heappop(heap)
            nodes += 1
            if found.distance is not None and distance >= found.distance:
                break
            if nodes > BOXES_MOST or self.limits.over:
                found.hold(distance)
                continue
            for part in self._branch_on_distance(box, cost, found):
                heapq.heappush(heap, self._distant_box(part))
        return found

    def _hull(self) -> Box:
        """Return the box around all boxes that are searched."""
        lows, highs = zip(*self.starts, strict=True)
        return tuple(map(min, zip(*lows, strict=True))), tuple(map(max, zip(*highs, strict=True)))

    def _admitted(self, point: Point, cost: CostKey) -> bool:
        """Whether a point costs no more and fits, as far as the limit lets that be asked."""
        if self.limits.over or not any(
            not_above(a, point) and not_above(point, b) for a, b in self.starts
        ):
            return False
        return self._cheap(point, cost) is Verdict.YES and self.fits(point) is Verdict.YES

    def _cut_to_nearer(self, low: Point, high: Point, found: Nearest) -> Box:
        """Cut off a box, on each axis, the sizes that are no nearer to the wish than the best."""
        if found.distance is None:
            return low, high
        here, most = self.grid.nearest(low, high), found.distance
        for axis, at in enumerate(here):

            def nearer(index: int, axis: int = axis) -> bool:
                return self.grid.distance(moved(here, axis, index)) < most

            first = bisect_left(range(low[axis], at), True, key=nearer)
            beyond = bisect_left(range(at, high[axis]), True, key=lambda n: not nearer(n + 1))
            low, high = moved(low, axis, low[axis] + first), moved(high, axis, at + beyond)
        return low, high

    def _distant_box(self, box: Box) -> tuple[Ticks, int, Box]:
        self._order += 1
        return self.grid.distance(self.grid.nearest(*box)), self._order, box

    def _branch_on_distance(self, box: Box, cost: CostKey, found: Nearest) -> list[Box]:
        """Take the nearest point of a box if it fits and is cheap, else shrink or split the box."""
        low, high = box = self._cut_to_nearer(*box, found)
        here = self.grid.nearest(low, high)
        fits, cheap = self.fits(here), self._cheap(here, cost)
        if fits is Verdict.YES and cheap is Verdict.YES:
            found.point, found.distance = here, self.grid.distance(here)
            return []
        away = self.grid.distance(here)
        if not self._may_fit(box, lambda: found.hold(away)):
            return []
        low = self._raised(low, high, lambda _: found.hold(away))
        if self.pricing.alike(low, high):
            if not self._may_be_cheap(low, cost, lambda: found.hold(away)):
                return []
            high = self._lowered_by_price(low, high, cost, found)
        if (low, high) != box:
            return [(low, high)] if not_above(low, high) else []
        return self._split(box, self._split_beside(box, here, up=fits is not Verdict.YES))

    def _cheap(self, point: Point, cost: CostKey) -> Verdict:
        here = self.pricing.at(point)
        if here.cost <= cost:
            return Verdict.YES
        return Verdict.NO if here.bound > cost else Verdict.UNSETTLED

    def _may_be_cheap(self, low: Point, cost: CostKey, note_bound: Callable[[], None]) -> bool:
        verdict = self._cheap(low, cost)
        if verdict is Verdict.UNSETTLED:
            note_bound()
        return verdict is Verdict.YES

    def _lowered_by_price(self, low: Point, high: Point, cost: CostKey, found: Nearest) -> Point:
        """Lower each size to the most at which it may be cheap, with the others at their least.

        Sizes cut off without proof that they are dearer are noted with their distance; the other
        sizes are there at most what is left of their own axes.
        """
        lowered = self._lowered(low, high, lambda at: self._cheap(at, cost) is Verdict.YES)
        for axis, (was, now) in enumerate(zip(high, lowered, strict=True)):
            if now < was and self._cheap(moved(low, axis, now + 1), cost) is Verdict.UNSETTLED:
                beyond = moved(low, axis, now + 1), moved(lowered, axis, was)
                found.hold(self.grid.distance(self.grid.nearest(*beyond)))
        return lowered

    def _split_beside(self, box: Box, here: Point, *, up: bool) -> tuple[int, int] | None:
        """Where to split so that one part lies beyond the point that cannot be taken."""
        low, high = box
        if up:
            room = [(high[n] - here[n], -n) for n in range(len(here))]
        else:
            room = [(here[n] - low[n], -n) for n in range(len(here))]
        most, axis = max(room)
        if most == 0:
            return None
        return -axis, here[-axis] + (1 if up else 0)
