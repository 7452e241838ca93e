"""The search over sizes against trying every size, on grids small enough to be tried whole.

What fits is an up-set, the price falls nowhere as sizes grow: both are drawn at random, and the
search has to find the least price, then the least distance from the wish, with and without a
point to start from.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.outcome import Limits, Verdict
from solver.sizing.branch_and_bound import BranchAndBound
from solver.sizing.pricing import CostKey, StockCost
from solver.sizing.size_grid import Point, not_above

SIDE = 9


@dataclass(frozen=True)
class Drawn:
    """Two or three open sizes of nine values each; sums over a limit buy one more sheet."""

    wish: Point
    weights: Point
    limits: tuple[int, ...]
    corners: tuple[Point, ...]

    def distance(self, point: Point) -> int:
        return sum(abs(a - b) for a, b in zip(point, self.wish, strict=True))

    def nearest(self, low: Point, high: Point) -> Point:
        return tuple(min(max(w, a), b) for w, a, b in zip(self.wish, low, high, strict=True))

    def cost(self, point: Point) -> CostKey:
        total = sum(w * at for w, at in zip(self.weights, point, strict=True))
        return Decimal(sum(total > limit for limit in self.limits)), 0

    def at(self, point: Point) -> StockCost:
        return StockCost(None, self.cost(point), self.cost(point))

    def alike(self, low: Point, high: Point) -> bool:
        return True

    def fits(self, point: Point) -> Verdict:
        good = any(not_above(corner, point) for corner in self.corners)
        return Verdict.YES if good else Verdict.NO

    def boxes(self, limits: Limits) -> BranchAndBound:
        low, high = tuple(0 for _ in self.wish), tuple(SIDE - 1 for _ in self.wish)
        return BranchAndBound(
            grid=self,
            pricing=self,
            fits=self.fits,
            may=lambda _, most: self.fits(most),
            starts=[(low, high)],
            cliffs=tuple(() for _ in self.wish),
            limits=limits,
        )

    def best(self) -> tuple[CostKey, int]:
        """Return the least price, and the least distance at it, by trying everything."""
        points = product(range(SIDE), repeat=len(self.wish))
        fitting = [point for point in points if self.fits(point) is Verdict.YES]
        return min((self.cost(point), self.distance(point)) for point in fitting)


@st.composite
def drawn(draw: st.DrawFn) -> Drawn:
    size = draw(st.integers(2, 3))
    point = st.tuples(*[st.integers(0, SIDE - 1)] * size)
    return Drawn(
        wish=draw(point),
        weights=draw(st.tuples(*[st.integers(1, 3)] * size)),
        limits=tuple(draw(st.lists(st.integers(0, 3 * SIDE * size), max_size=3))),
        corners=tuple(draw(st.lists(point, min_size=1, max_size=3))),
    )


@settings(max_examples=150, deadline=None)
@given(drawn(), st.booleans())
def test_price_then_distance_are_the_least_of_all_sizes(one: Drawn, started: bool) -> None:
    boxes = one.boxes(Limits(seconds=3600))
    cheapest = boxes.cheapest()
    nearest = boxes.nearest(cheapest.cost, cheapest.point if started else None)

    assert (cheapest.cost, nearest.distance) == one.best()
    assert nearest.bound is None or nearest.bound >= (nearest.distance or 0)
    assert nearest.point is not None
    assert one.fits(nearest.point) is Verdict.YES
    assert one.cost(nearest.point) == cheapest.cost
    assert one.distance(nearest.point) == nearest.distance


@settings(max_examples=100, deadline=None)
@given(drawn())
def test_where_the_limit_comes_what_it_is_told_is_no_further_away_and_its_bound_holds(
    one: Drawn,
) -> None:
    cheapest = one.boxes(Limits(seconds=3600)).cheapest()
    assert cheapest.point is not None
    late = one.boxes(Limits(seconds=0)).nearest(cheapest.cost, cheapest.point)

    assert late.point is not None
    assert one.distance(late.point) <= one.distance(cheapest.point)
    assert late.bound is not None or late.distance == one.best()[1]
    assert (late.bound or 0) <= one.best()[1]
