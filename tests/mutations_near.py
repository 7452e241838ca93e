"""The part of :mod:`tests.mutations` that is about near misses and changes that would do."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from solver.checking.findings import Code
from solver.plan.plan import Change as WouldDo
from solver.plan.plan import Plan
from solver.plan.slack_and_advice import Alteration, NearMiss
from tests.edits import both, in_option, more, put
from tests.mutations_cutting import Change
from tests.two_bays_job import DEPTH, MARGIN, mm

BY = mm(2)
"""Two cutting steps of a millimetre."""


def nearly(plan: Plan) -> Plan:
    """The good plan with a near miss: 2 mm less depth, and 10.00 less to pay for one sheet less."""
    cost = plan.options[0].cost
    assert cost is not None
    one = NearMiss(
        alters=(Alteration(what="depth", by=BY, less=True, to=mm(DEPTH) - BY),),
        gains="saves",
        shelf_counts=plan.options[0].shelf_counts,
        sheets_saved=1,
        saves=Decimal("10.00"),
        total=cost.total - Decimal("10.00"),
        slack=mm(MARGIN),
        smallest=True,
        text="2 mm less depth",
    )
    return plan.model_copy(update={"near": (one,)})


def _near(path: str, value: Any) -> Change:
    return both(nearly, lambda plan: put(plan, f"near.0.{path}", value))


def _would_do(change: WouldDo) -> Change:
    return in_option("changes", (change,))


_LESS_HEADROOM = WouldDo(
    what="headroom",
    by=mm(1) // 2,
    alters=(Alteration(what="headroom", by=mm(1) // 2, less=True),),
    text="half a marking step less headroom",
    proven=True,
)
_LEAVE_ONE = WouldDo(what="leave out", leaves={"jug": 1}, text="leave out 1 x jug", proven=True)

NEAR: dict[Code, Change] = {
    Code.NEAR_CHANGE: _near("alters.0.to", more(1)),
    Code.NEAR_SAVING: _near("saves", Decimal("10.01")),
    Code.NEAR_SHEETS: _near("sheets_saved", 99),
    Code.NEAR_GAINS: _near("gains", "more shelves"),
    Code.NEAR_COUNTS: _near("shelf_counts", lambda old: {"hall": (0, *old["hall"][1:])}),
    Code.NEAR_LETS_IN: _near("lets_in", {"jug": 1}),
    Code.NEAR_SLACK: _near("slack", more(-1)),
    Code.CHANGE_AMOUNT: _would_do(_LESS_HEADROOM),
    # nothing is left out, so there is nothing to leave out
    Code.CHANGE_LEAVES: _would_do(_LEAVE_ONE),
}
