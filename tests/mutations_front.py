"""For each rule on trade-off fronts, a change that breaks it in a good front, and what is found."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any, TypeAlias

from solver.checking.findings import Code
from solver.plan.built import Opening
from solver.plan.plan import Option, Plan, Timing
from solver.plan.price_front import FrontPoint, TradeOff
from solver.rules_version import RULES
from tests import edits
from tests.edits import in_option, more, put
from tests.mutations_look import stage, up_to_date
from tests.mutations_slack import slack_up_to_date
from tests.sample_plans import STOCK, good_plan
from tests.two_bays_job import BAY, mm

Change: TypeAlias = Callable[[TradeOff], TradeOff]
DEARER = Decimal("9.60") - Decimal("7.40")
"""What a stick of 2400 mm costs more than one of 1800 mm."""
BAY_1, BAY_2 = "cases.0.bays.0", "cases.0.bays.1"
LAST = "openings.2"


def good_front() -> TradeOff:
    """The front itself: the cheaper option is recommended, the dearer parts fewer things.

    The dearer one is the good plan with lips from a longer stick; in the cheaper one a book stands
    apart from the others, in the opening that is empty in the good plan.
    """
    plan = good_plan()
    cheap, dear = _parted(plan).options[0], _longer_stick(plan).options[0]
    assert cheap.scores is not None
    assert dear.scores is not None
    return TradeOff(
        version=plan.version,
        rules=RULES,
        unit=plan.unit,
        job=plan.job,
        job_hash=plan.job_hash,
        complete=True,
        stopped=False,
        points=(
            _point(1, cheap, 2, Decimal(0), ("recommended", "cheapest")),
            _point(2, dear, 1, DEARER, ("best-looking",)),
        ),
        recommendation="No. 1 (2 shelves) is recommended: it is the cheapest",
        timing=Timing(seconds=0.5),
    )


def _point(
    number: int, option: Option, parted: int, more_money: Decimal, tags: tuple[str, ...]
) -> FrontPoint:
    return FrontPoint(
        number=number,
        price=STOCK + more_money,
        price_bound=STOCK + more_money,
        area=0.0,
        places_parted=parted,
        parted_bound=parted,
        proven=True,
        premium=more_money,
        option=option.model_copy(update={"tags": tags}),
    )


def _parted(plan: Plan) -> Plan:
    """The last book of the good plan in the empty opening of the other bay."""
    openings = plan.options[0].cases[0].bays
    book = openings[1].openings[2].items[-1].model_copy(update={"x": mm(12)})
    both_bays = edits.both(
        in_option(f"{BAY_2}.{LAST}", lambda old: _with_items(old, old.items[:-1])),
        in_option(f"{BAY_1}.{LAST}", lambda old: _with_items(old, (book,))),
        in_option("scores.fill_least", 30 / BAY),
        in_option("scores.headroom_typical", mm(289 - 211)),
        in_option("scores.outline_missed", MISSED),
    )
    return up_to_date(both_bays(plan))


MISSED = round(100 * (1 + 91560 / 105000 + 1 + 22080 / 24000 + (64736 - 9360) / 64736 + 1) / 6, 1)
"""As in the good plan, and one book at the left of its bay [%]."""


def _with_items(opening: Opening, items: tuple[Any, ...]) -> Opening:
    return opening.model_copy(
        update={
            "items": items,
            "fill": sum(thing.width for thing in items) / mm(BAY),
            "load": sum(thing.mass for thing in items),
        }
    )


def _longer_stick(plan: Plan) -> Plan:
    """The stick that is bought is the longer one."""
    dear = Decimal("9.60")
    changes = (
        in_option("mouldings.1.length", mm(2400)),
        in_option("mouldings.1.price", dear),
        in_option("cost.mouldings", dear),
        in_option("cost.total", more(DEARER)),
        in_option("cost.stock_bound", more(DEARER)),
        in_option(f"{stage('price')}.value", str(STOCK + DEARER)),
        in_option(f"{stage('price')}.bound", str(STOCK + DEARER)),
    )
    return slack_up_to_date(edits.both(*changes)(plan))


def change(path: str, value: Any) -> Change:
    """A change at a dotted path of the front."""
    return lambda front: put(front, path, value)


def both(*changes: Change) -> Change:
    """Several changes, one after the other."""

    def made(front: TradeOff) -> TradeOff:
        for one in changes:
            front = one(front)
        return front

    return made


def _dearer(front: TradeOff) -> TradeOff:
    """The dearer option said to cost more than its sheets and sticks, with all that follows."""
    keys = ("price", "price_bound", "premium")
    return both(*(change(f"points.1.{key}", more(Decimal(1))) for key in keys))(front)


def _beaten(front: TradeOff) -> TradeOff:
    """The dearer option said to part as much as the cheaper one."""
    return both(change("points.1.places_parted", 2), change("points.1.parted_bound", 2))(front)


FRONT: dict[Code, tuple[Change, set[Code]]] = {
    Code.FRONT_PRICE: (_dearer, set()),
    Code.FRONT_PARTED: (change("points.0.places_parted", 3), {Code.FRONT_BOUND}),
    Code.FRONT_ORDER: (change("points.0.number", 2), set()),
    Code.FRONT_BEATEN: (_beaten, {Code.FRONT_PARTED}),
    Code.FRONT_BOUND: (change("points.0.price_bound", more(Decimal("0.01"))), set()),
    Code.FRONT_MARKS: (change("points.1.option.tags", ()), set()),
    Code.FRONT_PREMIUM: (change("points.1.premium", more(Decimal(1))), set()),
    Code.FRONT_COMPLETE: (change("stopped", True), set()),
}
"""By rule: what breaks it, and which other rules that breaks too."""
