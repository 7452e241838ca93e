"""For each rule on trade-off fronts, a change that breaks it in a good front, and what is found."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from functools import cache
from typing import Any, TypeAlias

from solver.checking.findings import Code
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.price_front import TradeOff
from solver.tradeoff.trade_off import trade_off
from tests.builders import make_job
from tests.edits import more, put

Change: TypeAlias = Callable[[TradeOff], TradeOff]
BOARDS = {"material": "ply", "width": "24", "thickness": "3/4"}


def uneven_or_dearer() -> Job:
    """Two shelves are cheaper; with three, the openings come out even on marks of whole inches.

    From the bottom end to the underside of the top are 28 in: four times 7, but not three times
    any whole inches.
    """
    return make_job(
        job={"marking_step": "1 in"},
        case={
            "shelves": [2, 3],
            "back": "none",
            "width": "22",
            "height": "28-3/4",
            "depth": "8",
        },
        sheet=[
            {**BOARDS, "name": "long", "length": "60", "price": 40},
            {**BOARDS, "name": "short", "length": "24", "price": 25},
        ],
        look={
            "rhythm": "even",
            "price_slack": 10,
        },
        item=[{"name": "cup", "width": "9", "height": "3", "depth": "5", "count": 4}],
    )


@cache
def good_front() -> TradeOff:
    """The front itself: the cheaper one is recommended, the other looks better."""
    return trade_off(uneven_or_dearer(), Limits(work=0.5))


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
    """The dearer option said to cost a dollar more than its sheets, with all that follows."""
    keys = ("price", "price_bound", "premium")
    return both(*(change(f"points.1.{key}", more(Decimal(1))) for key in keys))(front)


def _beaten(front: TradeOff) -> TradeOff:
    """The dearer option made no better to look at than the cheaper one."""
    worse = front.points[0].rhythm
    return both(
        change("points.1.rhythm", worse),
        change("points.1.headroom", front.points[0].headroom),
    )(front)


FRONT: dict[Code, tuple[Change, set[Code]]] = {
    Code.FRONT_PRICE: (_dearer, set()),
    Code.FRONT_RHYTHM: (change("points.0.rhythm", more(2)), set()),
    Code.FRONT_HEADROOM: (
        both(change("points.0.headroom", more(1)), change("points.0.headroom_bound", more(1))),
        set(),
    ),
    Code.FRONT_ORDER: (change("points.0.number", 2), set()),
    Code.FRONT_BEATEN: (_beaten, {Code.FRONT_RHYTHM, Code.FRONT_HEADROOM, Code.FRONT_BOUND}),
    Code.FRONT_BOUND: (change("points.0.price_bound", more(Decimal("0.01"))), set()),
    Code.FRONT_MARKS: (change("points.1.option.tags", ()), set()),
    Code.FRONT_PREMIUM: (change("points.1.premium", more(Decimal(1))), set()),
    Code.FRONT_COMPLETE: (change("stopped", True), set()),
}
"""By rule: what breaks it, and which other rules that breaks too."""
