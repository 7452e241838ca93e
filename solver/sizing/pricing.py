"""What the stock costs at a choice of sizes, with a bound that holds for all larger sizes.

Also which sizes can be cut at all: those at which every part comes out of a sheet
(:func:`cuttable`).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from itertools import product

from solver.carcass.boards_of_case import fits_a_sheet
from solver.errors import CannotBeDoneError
from solver.sizing.fitting import enumerated
from solver.sizing.purchase import Buyer, StockAnswer, sheet_parts
from solver.sizing.size_grid import Grid, Point, moved

CostKey = tuple[Decimal, int]
"""Price, then the area bought of sheets without one [square tick]: what is compared."""
ZERO_COST: CostKey = (Decimal(0), 0)
INFINITE_COST: CostKey = (Decimal("Infinity"), 0)


@dataclass(frozen=True)
class StockCost:
    """The stock at one point: its cost, and a proven bound of it.

    Attributes
    ----------
    cost, bound
        Cost found, and proven least cost. The bound holds for all larger sizes of the same parts
        as well, since a pattern for larger parts also cuts smaller ones. Both are infinite where
        the parts cannot be cut; `refused` then says why.
    """

    stock: StockAnswer | None
    cost: CostKey
    bound: CostKey
    refused: CannotBeDoneError | None = None

    @property
    def bought(self) -> StockAnswer:
        """Return the stock; CannotBeDoneError where the parts cannot be cut."""
        if self.stock is None:
            assert self.refused is not None
            raise self.refused
        return self.stock


class Pricing:
    """Prices choices of sizes, each once."""

    def __init__(self, grid: Grid, buyer: Buyer) -> None:
        self._grid, self._buyer = grid, buyer
        self._known: dict[Point, StockCost] = {}
        self._part_ids: dict[Point, tuple[str, ...]] = {}

    def at(self, point: Point) -> StockCost:
        """Return the stock at a point."""
        if point not in self._known:
            job, depths = self._grid.settled(point)
            try:
                self._known[point] = _priced(self._buyer.stock(self._grid.counts, depths, job))
            except CannotBeDoneError as error:
                self._known[point] = StockCost(None, INFINITE_COST, INFINITE_COST, error)
        return self._known[point]

    def alike(self, low: Point, high: Point) -> bool:
        """Whether the same parts are made everywhere in a box, so that larger ones cost no less.

        A back too large for a sheet is cut in pieces; where it is whole at both ends it is
        whole between them, since only size decides.
        """
        return self._parts(low) == self._parts(high)

    def _parts(self, point: Point) -> tuple[str, ...]:
        if point not in self._part_ids:
            job, depths = self._grid.settled(point)
            parts = sheet_parts(job, self._grid.counts, depths)
            self._part_ids[point] = tuple(part.id for part in parts)
        return self._part_ids[point]


def _priced(stock: StockAnswer) -> StockCost:
    cost = (stock.price, stock.area_unpriced)
    return StockCost(stock, cost, cost if stock.proven else (stock.bound, 0))


Box = tuple[Point, Point]


def cuttable(grid: Grid, pricing: Pricing) -> list[Box]:
    """Return boxes that together hold every choice of sizes whose parts are not too large.

    Where none is, the box of the least sizes alone is returned, so that the cutting says why.
    """
    found: list[Box] = []
    waiting = _starts(grid)
    while waiting:
        low, high = waiting.pop()
        if _comes_out(grid, high) and _comes_out(grid, low):
            found.append((low, high))
        elif low != high and not (pricing.alike(low, high) and not _comes_out(grid, low)):
            waiting += _halves(grid, low, high)
    return _joined(found, enumerated(grid)) or [(grid.low, grid.low)]


def _starts(grid: Grid) -> list[Box]:
    """Return all sizes as one box, or one for each value of the axes that are enumerated."""
    apart = enumerated(grid)
    found: list[Box] = []
    for values in product(*(range(len(grid.axes[n].values)) for n in apart)):
        low, high = grid.low, grid.high
        for n, value in zip(apart, values, strict=True):
            low, high = moved(low, n, value), moved(high, n, value)
        found.append((low, high))
    return found


def _comes_out(grid: Grid, point: Point) -> bool:
    job, depths = grid.settled(point)
    return all(
        fits_a_sheet(job, part.material, part.length, part.width)
        for part in sheet_parts(job, grid.counts, depths)
    )


def _halves(grid: Grid, low: Point, high: Point) -> list[Box]:
    """Split a box on the axis that decides, where it stops to come out, else on the longest."""
    for axis in range(len(low)):
        there = moved(low, axis, high[axis])
        if low[axis] < high[axis] and _comes_out(grid, low) and not _comes_out(grid, there):
            good, bad = low[axis], high[axis]
            while bad - good > 1:
                middle = (good + bad) // 2
                if _comes_out(grid, moved(low, axis, middle)):
                    good = middle
                else:
                    bad = middle
            return [(low, moved(high, axis, good)), (moved(low, axis, bad), high)]
    axis = max(range(len(low)), key=lambda n: (high[n] - low[n], -n))
    middle = (low[axis] + high[axis]) // 2
    return [(low, moved(high, axis, middle)), (moved(low, axis, middle + 1), high)]


def _joined(boxes: list[Box], apart: tuple[int, ...]) -> list[Box]:
    """Join boxes that differ on one axis only and meet there, but not on those kept apart."""
    for n, one in enumerate(boxes):
        for other in boxes[n + 1 :]:
            both = _joint(one, other, apart)
            if both is not None:
                rest = [box for box in boxes if box not in (one, other)]
                return _joined([*rest, both], apart)
    return boxes


def _joint(one: Box, other: Box, apart: tuple[int, ...]) -> Box | None:
    differ = [n for n in range(len(one[0])) if (one[0][n], one[1][n]) != (other[0][n], other[1][n])]
    if len(differ) != 1 or differ[0] in apart:
        return None
    n = differ[0]
    if one[1][n] + 1 == other[0][n]:
        return one[0], other[1]
    return (other[0], one[1]) if other[1][n] + 1 == one[0][n] else None
