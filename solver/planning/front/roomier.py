"""Sizes with more room than the cheapest: what they cost, and which of them may look better.

More width or depth never harms a layout (:mod:`solver.planning.fitting`), so at each price the
roomiest sizes have the best front of layouts. With one such size open they are found by
halving, price by price. With several, the roomiest sizes of all are looked at: what is not
better there is not better anywhere, else it is said that sizes between were not compared. The
same is said of open heights, of which more may do harm.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from solver.job import Job
from solver.layout.problem import build
from solver.layout.shapes import BayShape, LayoutProblem
from solver.planning.axes import Grid, Point
from solver.planning.front.lanes import Between, Level
from solver.planning.pricing import ENDLESS, Priced, Pricing
from solver.planning.stock import Buyer

LEVELS_MOST = 6
"""Most prices of one combination of shelf counts that are looked at [-]."""


@dataclass(frozen=True)
class Roomier:
    """Levels with more room than the cheapest, cheapest first, and what they answer for."""

    levels: tuple[Level, ...] = ()
    between: Between = Between.NONE


def roomier(job: Job, level: Level, buyer: Buyer) -> Roomier:
    """Return the levels of one combination of shelf counts over its cheapest one."""
    sized = level.sized
    if not sized.axes:
        return Roomier()
    grid = Grid(job, level.counts, sized.axes)
    heights = any(axis.what == "height" for axis in sized.axes)
    finder = _Finder(grid, Pricing(grid, buyer), level)
    if heights or len(sized.axes) > 1:
        if heights:
            return Roomier(between=Between.SOME)
        return Roomier(finder.different([grid.high]), Between.IF_BETTER)
    if not finder.pricing.alike(sized.point, grid.high):
        return Roomier(finder.different([grid.high]), Between.IF_BETTER)
    points = list(finder.tops())
    between = Between.NONE if points[-1] == grid.high else Between.SOME
    return Roomier(finder.different(points), between)


@dataclass(frozen=True)
class _Finder:
    grid: Grid
    pricing: Pricing
    cheapest: Level

    def tops(self) -> Iterator[Point]:
        """The roomiest size of each price, the only open size going up."""
        (at,), (last,) = self.cheapest.sized.point, self.grid.high
        for _ in range(LEVELS_MOST):
            cost = self.pricing.at((at,)).cost
            good, bad = at, last + 1
            while bad - good > 1:
                middle = (good + bad) // 2
                if self.pricing.at((middle,)).cost <= cost:
                    good = middle
                else:
                    bad = middle
            yield (good,)
            if good == last:
                return
            at = good + 1

    def different(self, points: list[Point]) -> tuple[Level, ...]:
        """The levels at these points that have more room than the one before, and can be cut."""
        found: list[Level] = []
        before = self.cheapest
        for point in points:
            priced = self.pricing.at(point)
            if priced.cost == ENDLESS:
                break
            level = self._level(point, priced)
            if room_of(level.problem) != room_of(before.problem):
                found.append(level)
                before = level
        return tuple(found)

    def _level(self, point: Point, priced: Priced) -> Level:
        job, depths = self.grid.settled(point)
        sized, stock = self.cheapest.sized, priced.bought
        distance = self.grid.distance(point)
        farther = all(axis.wished >= at for axis, at in zip(self.grid.axes, point, strict=True))
        here = replace(
            sized,
            job=job,
            depths=depths,
            stock=stock,
            bound=min(priced.bound[0], stock.price),
            price_proven=stock.proven,
            sheet_bound=min(sized.sheet_bound, stock.sheet_count),
            distance=distance,
            nearest=distance if farther and len(point) == 1 else 0,
            point=point,
        )
        share = self.cheapest.share
        problem = build(job, self.cheapest.counts, depths, share=share)
        return replace(self.cheapest, sized=here, problem=problem, sets=(), floor=sized.bound)


def room_of(problem: LayoutProblem) -> LayoutProblem:
    """Return the problem with depths and load limits that allow the same made equal."""
    depths = {form.depth for kind in problem.kinds for form in kind.forms}
    heaviest = sum(kind.mass * kind.count for kind in problem.kinds)

    def plain(bay: BayShape) -> BayShape:
        deep = max((depth for depth in depths if depth <= bay.deep), default=0)
        return replace(bay, deep=deep, front=0, load=min(bay.load, heaviest))

    bays = tuple(plain(bay) for bay in problem.bays)
    return replace(problem, bays=bays, lines_apart=())
