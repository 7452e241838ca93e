"""Rules on the plan as a whole, and on an option that is built in a batch."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from solver.checking.findings import Code, Finding, finding
from solver.checking.structure import option_where
from solver.checking.trim import moulded
from solver.checking.views import OptionView, same
from solver.plan.plan import Option, Plan
from solver.plan.stocked import SharedStock


def own_stock(view: OptionView, _: SharedStock) -> Iterator[Finding]:
    """It has no sheets, sticks, settings, sets and counts of its own."""
    option = view.option
    some = [*option.sheets, *option.mouldings, *option.settings, *option.sets]
    has = len(some), option.sheet_count, option.sheet_bound
    what = "sheets of its own, their count and bound"
    yield from same(Code.SHARED_OWN, view.where, what, (0, 0, 0), has)


def carried(view: OptionView, shared: SharedStock) -> Iterator[Finding]:
    """Every part and every piece of moulding has its sheet or stick of the batch."""
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
    has = view.option.cost
    if has is None:
        return
    total = has.sheets + has.mouldings
    yield from same(Code.COST_TOTAL, view.where, "share in all", total, has.total)
    if not 0 <= has.stock_bound <= total:
        needs = f"from 0 to {total}"
        yield finding(
            Code.COST_STOCK_BOUND, view.where, "bound on the price", needs, str(has.stock_bound)
        )


SHARED_RULES = (own_stock, carried, cost)
"""All rules on what an option shares."""


def unit(plan: Plan) -> Iterator[Finding]:
    """The plan is in the job's unit."""
    yield from same(Code.PLAN_UNIT, "plan", "unit", plan.job.unit, plan.unit)


def job_hash(plan: Plan) -> Iterator[Finding]:
    """The hash is that of the job as understood."""
    yield from same(Code.PLAN_JOB_HASH, "plan", "job_hash", plan.job.hash, plan.job_hash)


def no_options(plan: Plan) -> Iterator[Finding]:
    """There is at least one option, and no fewer than none is left out."""
    if not plan.options or plan.not_shown < 0:
        yield finding(
            Code.PLAN_NO_OPTIONS,
            "plan",
            "options shown and not shown",
            "at least 1 and at least 0",
            f"{len(plan.options)} and {plan.not_shown}",
        )


def repeated(plan: Plan) -> Iterator[Finding]:
    """Each combination of shelf counts, and each name, stands for one option."""
    seen: list[object] = []
    for option in plan.options:
        for key in (option.shelf_counts, option.name):
            if key in seen:
                yield finding(
                    Code.PLAN_REPEATED,
                    option_where(option),
                    "shelf counts and name",
                    "those of no other option",
                    str(key),
                )
            seen.append(key)


def recommended_first(plan: Plan) -> Iterator[Finding]:
    """The option that is recommended comes first; there is only one."""
    for place, option in enumerate(plan.options, start=1):
        if "recommended" in option.tags and place > 1:
            yield finding(
                Code.PLAN_RECOMMENDED_FIRST,
                option_where(option),
                "place of the recommended option",
                "1",
                str(place),
            )


def tags(plan: Plan) -> Iterator[Finding]:
    """Each mark stands once among several options, on one that fits everything.

    None of those is cheaper than the one marked cheapest. The only option may be one of a front,
    which has its marks from there.
    """
    fitting = [option for option in plan.options if option.fits_all]
    least_marked = bool(fitting) and len(plan.options) > 1
    for tag in ("recommended", "cheapest", "best-looking"):
        has = [option for option in plan.options if tag in option.tags]
        good = least_marked <= len(has) <= bool(fitting)
        if not good or any(option not in fitting for option in has):
            needs = "one that fits everything" if fitting else "none, as nothing fits everything"
            names = ", ".join(option.name for option in has) or "none"
            yield finding(Code.PLAN_TAGS, "plan", f"option marked {tag}", needs, names)
        elif tag == "cheapest" and has:
            least = min(map(_price, fitting))
            if _price(has[0]) > least:
                yield finding(
                    Code.PLAN_TAGS, option_where(has[0]), "price", str(least), str(_price(has[0]))
                )


def _price(option: Option) -> Decimal:
    """Price; where something has none, with the area of the sheets without one added."""
    cost, sheets = option.cost, option.sheets
    area = sum(s.length * s.width for s in sheets if not s.on_hand and s.price is None)
    return (cost.total if cost else Decimal(0)) + area


RULES = (unit, job_hash, no_options, repeated, recommended_first, tags)
"""All rules on the plan as a whole."""
