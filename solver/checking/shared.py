"""Rules on an option that is built in a batch: its parts come from the sheets of the batch.

Whether those sheets hold them is seen from the batch (:mod:`solver.checking.batch_built`).
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checking.compare import same
from solver.checking.findings import Code, Finding, finding
from solver.checking.trim import moulded
from solver.checking.views import OptionView
from solver.stocked import SharedStock


def own_stock(view: OptionView, _: SharedStock) -> Iterator[Finding]:
    """It has no sheets, sticks, settings, sets and counts of its own."""
    option = view.option
    some = [*option.sheets, *option.mouldings, *option.settings, *option.sets]
    has = len(some), option.sheet_count, option.sheet_bound
    what = "sheets of its own, their count and bound"
    yield from same(Code.SHARED_OWN, view.where, what, (0, 0, 0), has)


def carried(view: OptionView, shared: SharedStock) -> Iterator[Finding]:
    """Every part, and every piece of moulding, is said to be on some sheet, or stick."""
    needs = {part.id for part in view.option.parts}
    yield from same(Code.SHARED_PARTS, view.where, "parts", sorted(needs), sorted(shared.sheets))
    if view.whole:
        pieces = sorted(ident for case in view.cases for ident in moulded(case))
        has = sorted(shared.mouldings)
        yield from same(Code.SHARED_PARTS, view.where, "pieces of moulding", pieces, has)
    least = min([*shared.sheets.values(), *shared.mouldings.values()], default=1)
    if least < 1:
        yield finding(Code.SHARED_PARTS, view.where, "number of a sheet", "at least 1", str(least))


def cost(view: OptionView, _: SharedStock) -> Iterator[Finding]:
    """Its cost is its share of sheets and of mouldings, in the currency of the job."""
    found = view.option.cost
    if found is None:
        return
    total = found.sheets + found.mouldings
    yield from same(Code.COST_TOTAL, view.where, "share in all", total, found.total)
    if not 0 <= found.stock_bound <= total:
        needs = f"from 0 to {total}"
        yield finding(
            Code.COST_STOCK_BOUND, view.where, "bound on the price", needs, str(found.stock_bound)
        )


RULES = (own_stock, carried, cost)
"""All rules on what an option shares."""
