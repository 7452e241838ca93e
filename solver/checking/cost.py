"""Rules on counts and cost, added up from the sheets and sticks themselves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from solver.checking.compare import same
from solver.checking.findings import Code, Finding, finding
from solver.plan.plan import Cost
from solver.plan.stocked import Sheet, Stick


@dataclass(frozen=True)
class Bought:
    """What one option or cut plan buys, and the figures that it gives for it."""

    where: str
    sheets: Sequence[Sheet]
    sticks: Sequence[Stick]
    sheet_count: int
    sheet_bound: int
    cost: Cost

    @property
    def prices(self) -> list[Decimal | None]:
        """Price of everything bought; None where it is not known."""
        taken: list[Sheet | Stick] = [*self.sheets, *self.sticks]
        return [each.price for each in taken if not each.on_hand]

    @property
    def counted(self) -> Sequence[Sheet | Stick]:
        """What the count counts: sheets, or sticks where only mouldings were asked for."""
        return self.sheets or self.sticks


def _sum(bought: Sequence[Sheet | Stick]) -> Decimal:
    return sum((s.price or Decimal(0) for s in bought if not s.on_hand), Decimal(0))


def sheet_count(view: Bought) -> Iterator[Finding]:
    """The count is that of the sheets bought; those on hand do not count."""
    needs = sum(not s.on_hand for s in view.counted)
    yield from same(Code.COST_SHEET_COUNT, view.where, "sheet count", needs, view.sheet_count)


def sheet_bound(view: Bought) -> Iterator[Finding]:
    """The lower bound on the count is not above the count."""
    if not 0 <= view.sheet_bound <= view.sheet_count:
        yield finding(
            Code.COST_SHEET_BOUND,
            view.where,
            "bound on the sheet count",
            f"from 0 to {view.sheet_count}",
            str(view.sheet_bound),
        )


def sheets(view: Bought) -> Iterator[Finding]:
    """The cost of sheets is the sum of the prices of those bought."""
    yield from same(
        Code.COST_SHEETS, view.where, "cost of sheets", _sum(view.sheets), view.cost.sheets
    )


def mouldings(view: Bought) -> Iterator[Finding]:
    """The cost of mouldings is the sum of the prices of the sticks bought."""
    yield from same(
        Code.COST_MOULDINGS, view.where, "cost of mouldings", _sum(view.sticks), view.cost.mouldings
    )


def stock_bound(view: Bought) -> Iterator[Finding]:
    """The lower bound on the cost of stock is not above that cost."""
    most = view.cost.sheets + view.cost.mouldings
    if not 0 <= view.cost.stock_bound <= most:
        yield finding(
            Code.COST_STOCK_BOUND,
            view.where,
            "bound on sheets and mouldings",
            f"from 0 to {most}",
            str(view.cost.stock_bound),
        )


def total(view: Bought) -> Iterator[Finding]:
    """The total is that of sheets and mouldings, or more where other things are counted in."""
    stock, has = view.cost.sheets + view.cost.mouldings, view.cost.total
    if has < stock or (view.cost.total_is == "stock" and has != stock):
        yield finding(
            Code.COST_TOTAL, view.where, f"total of {view.cost.total_is}", str(stock), str(has)
        )


def complete(view: Bought) -> Iterator[Finding]:
    """The cost is complete exactly where everything bought has a price."""
    needs = None not in view.prices
    yield from same(
        Code.COST_COMPLETE, view.where, "cost marked as complete", needs, view.cost.complete
    )


RULES = (sheet_count, sheet_bound, sheets, mouldings, stock_bound, total, complete)
"""All rules on counts and cost."""
