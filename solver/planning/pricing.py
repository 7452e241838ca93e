"""What the stock costs at some sizes, and what it costs at least at these and all larger ones."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from solver.errors import CannotBeDoneError
from solver.planning.axes import Grid, Point
from solver.planning.stock import Buyer, StockAnswer, sheet_parts

Key = tuple[Decimal, int]
"""Price, then the area bought of sheets without one [square tick]: what is compared."""
NOTHING: Key = (Decimal(0), 0)
ENDLESS: Key = (Decimal("Infinity"), 0)


@dataclass(frozen=True)
class Priced:
    """The stock at one point: its cost, and a proven bound of it.

    Attributes
    ----------
    cost, bound
        Found, and at least. The bound holds for all larger sizes of the same parts as well,
        since a pattern for larger parts also cuts smaller ones. Both are without end where
        the parts cannot be cut; `refused` then says why.
    """

    stock: StockAnswer | None
    cost: Key
    bound: Key
    refused: CannotBeDoneError | None = None

    @property
    def bought(self) -> StockAnswer:
        """Return the stock; CannotBeDoneError where the parts cannot be cut."""
        if self.stock is None:
            assert self.refused is not None
            raise self.refused
        return self.stock


class Pricing:
    """Prices points, each once."""

    def __init__(self, grid: Grid, buyer: Buyer) -> None:
        self._grid, self._buyer = grid, buyer
        self._known: dict[Point, Priced] = {}
        self._made: dict[Point, tuple[str, ...]] = {}

    def at(self, point: Point) -> Priced:
        """Return the stock at a point."""
        if point not in self._known:
            job, depths = self._grid.settled(point)
            try:
                self._known[point] = _priced(self._buyer.stock(self._grid.counts, depths, job))
            except CannotBeDoneError as error:
                self._known[point] = Priced(None, ENDLESS, ENDLESS, error)
        return self._known[point]

    def alike(self, low: Point, high: Point) -> bool:
        """Whether the same parts are made everywhere in a box, so that larger ones cost no less.

        A back too large for a sheet is cut in pieces; where it is whole at both ends it is
        whole between them, since only size decides.
        """
        return self._parts(low) == self._parts(high)

    def _parts(self, point: Point) -> tuple[str, ...]:
        if point not in self._made:
            job, depths = self._grid.settled(point)
            parts = sheet_parts(job, self._grid.counts, depths)
            self._made[point] = tuple(part.id for part in parts)
        return self._made[point]


def _priced(stock: StockAnswer) -> Priced:
    cost = (stock.price, stock.area_unpriced)
    return Priced(stock, cost, cost if stock.proven else (stock.bound, 0))
