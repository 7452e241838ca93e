"""Rules on the stock taken and on its cost.

Sheets and sticks exist, at their price, and no more of them than there are. Counts and cost are
added up from the sheets and sticks themselves.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from solver.checking.findings import Code, Finding, finding
from solver.checking.have import is_stick_there, is_there, stick_lengths
from solver.checking.views import OptionView, same
from solver.job.materials import SheetStock, StickLength
from solver.plan.plan import Cost
from solver.plan.stocked import Sheet, Stick


@dataclass(frozen=True)
class Taken:
    """How many of one stock are bought and taken from what is on hand, and what there is."""

    where: str
    bought: int
    from_hand: int
    limit: int | None
    on_hand: int


@dataclass(frozen=True)
class Codes:
    """The codes of the rules on numbers, for sheets and for sticks."""

    limit: Code
    on_hand: Code
    on_hand_first: Code


SHEETS = Codes(Code.STOCK_LIMIT, Code.STOCK_ON_HAND, Code.STOCK_ON_HAND_FIRST)
STICKS = Codes(Code.STICK_LIMIT, Code.STICK_ON_HAND, Code.STICK_ON_HAND_FIRST)


def numbers(taken: Taken, codes: Codes) -> Iterator[Finding]:
    """No more is bought or taken than there is, and nothing is bought while some is on hand."""
    if taken.limit is not None and taken.bought > taken.limit:
        yield finding(
            codes.limit, taken.where, "number bought", f"at most {taken.limit}", str(taken.bought)
        )
    if taken.from_hand > taken.on_hand:
        yield finding(
            codes.on_hand,
            taken.where,
            "number taken from those on hand",
            f"at most {taken.on_hand}",
            str(taken.from_hand),
        )
    if taken.bought and taken.from_hand < taken.on_hand:
        yield finding(
            codes.on_hand_first,
            taken.where,
            "number taken from those on hand before any is bought",
            str(taken.on_hand),
            str(taken.from_hand),
        )


def price_allowed(stock: Decimal | None, has: Decimal | None, on_hand: bool) -> bool:
    """What is on hand costs nothing or names its stock's price; what is bought has that price."""
    return has == stock or (on_hand and (has is None or has == 0))


def sheet_where(where: str, number: int, sheet: Sheet | Stick) -> str:
    """Place of a sheet or stick for findings."""
    kind = "sheet" if isinstance(sheet, Sheet) else "stick"
    return f"{where}, {kind} {number} ({sheet.stock})"


def _sheets(view: OptionView) -> Iterator[tuple[str, Sheet, SheetStock]]:
    stocks = {stock.name: stock for stock in view.job.sheets}
    for number, sheet in enumerate(view.option.sheets, start=1):
        if sheet.stock in stocks:
            yield sheet_where(view.where, number, sheet), sheet, stocks[sheet.stock]


def unknown(view: OptionView) -> Iterator[Finding]:
    """Every sheet is of a stock of the job."""
    names = [stock.name for stock in view.job.sheets]
    for number, sheet in enumerate(view.option.sheets, start=1):
        if sheet.stock not in names and not is_there(view, sheet):
            where = sheet_where(view.where, number, sheet)
            yield finding(Code.STOCK_UNKNOWN, where, "stock", "in the job", repr(sheet.stock))


def size(view: OptionView) -> Iterator[Finding]:
    """A sheet has its stock's material and size."""
    for where, sheet, stock in _sheets(view):
        yield from same(
            Code.STOCK_SIZE,
            where,
            "material, length and width [tick]",
            (stock.material, stock.length, stock.width),
            (sheet.material, sheet.length, sheet.width),
        )


def price(view: OptionView) -> Iterator[Finding]:
    """A sheet that is bought has its stock's price."""
    for where, sheet, stock in _sheets(view):
        if not price_allowed(stock.price, sheet.price, sheet.on_hand):
            yield from same(Code.STOCK_PRICE, where, "price", stock.price, sheet.price)


def shop(view: OptionView) -> Iterator[Finding]:
    """A sheet is cut with the shop's kerf, edge trim and margin."""
    needs = view.job.shop.kerf, view.job.shop.edge_trim, view.job.shop.margin
    for number, sheet in enumerate(view.option.sheets, start=1):
        if is_there(view, sheet):
            continue
        yield from same(
            Code.STOCK_SHOP,
            sheet_where(view.where, number, sheet),
            "kerf, edge trim and margin [tick]",
            needs,
            (sheet.kerf, sheet.edge_trim, sheet.margin),
        )


def sheet_numbers(view: OptionView) -> Iterator[Finding]:
    """As many sheets of each stock as can be had, those on hand first."""
    taken = Counter((sheet.stock, sheet.on_hand) for sheet in view.option.sheets)
    for stock in view.job.sheets:
        bought, from_hand = taken[stock.name, False], taken[stock.name, True]
        where = f"{view.where}, {stock.name}"
        counted = Taken(where, bought, from_hand, stock.limit, stock.on_hand)
        yield from numbers(counted, SHEETS)


def _lengths(view: OptionView) -> dict[tuple[str, int], StickLength]:
    return {
        (moulding.name, stick.length): stick
        for moulding in view.job.mouldings
        for stick in moulding.lengths
    }


def _sticks(view: OptionView) -> Iterator[tuple[str, Stick]]:
    for number, stick in enumerate(view.option.mouldings, start=1):
        yield sheet_where(view.where, number, stick), stick


def stick_unknown(view: OptionView) -> Iterator[Finding]:
    """Every stick is of a moulding of the job, in a length in which it is sold."""
    lengths = _lengths(view)
    for where, stick in _sticks(view):
        known = (stick.stock, stick.length) in lengths or is_stick_there(view, stick)
        if not known:
            has = f"{stick.stock!r}, {stick.length} ticks"
            yield finding(Code.STICK_UNKNOWN, where, "moulding and length", "in the job", has)


def stick_price(view: OptionView) -> Iterator[Finding]:
    """A stick that is bought has the price of its length."""
    lengths = _lengths(view)
    for where, stick in _sticks(view):
        stock = lengths.get((stick.stock, stick.length))
        if stock and not price_allowed(stock.price, stick.price, stick.on_hand):
            yield from same(Code.STICK_PRICE, where, "price", stock.price, stick.price)


def stick_kerf(view: OptionView) -> Iterator[Finding]:
    """A stick is cut with the shop's kerf."""
    for where, stick in _sticks(view):
        yield from same(Code.STICK_KERF, where, "kerf [tick]", view.job.shop.kerf, stick.kerf)


def stick_numbers(view: OptionView) -> Iterator[Finding]:
    """As many sticks of each length as can be had, those on hand first."""
    taken = Counter((s.stock, s.length, s.on_hand) for s in view.option.mouldings)
    lengths, there = _lengths(view), stick_lengths(view)
    for (name, length), stock in lengths.items():
        bought, from_hand = taken[name, length, False], taken[name, length, True]
        where = f"{view.where}, {name}, {length} ticks long"
        on_hand = stock.on_hand + there[name, length]
        yield from numbers(Taken(where, bought, from_hand, stock.limit, on_hand), STICKS)
    for (name, length), number in there.items():
        where = f"{view.where}, {name}, {length} ticks long"
        if (name, length) not in lengths and taken[name, length, True] > number:
            has = str(taken[name, length, True])
            yield finding(Code.STICK_ON_HAND, where, "number taken", f"at most {number}", has)


RULES: tuple[Callable[[OptionView], Iterator[Finding]], ...] = (
    unknown,
    size,
    price,
    shop,
    sheet_numbers,
    stick_unknown,
    stick_price,
    stick_kerf,
    stick_numbers,
)
"""All rules on stock."""


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


COST_RULES = (sheet_count, sheet_bound, sheets, mouldings, stock_bound, total, complete)
"""All rules on counts and cost."""
