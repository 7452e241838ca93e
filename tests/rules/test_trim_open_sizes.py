"""Open sizes are decided with the mouldings of the trim: as cheap as the cheapest fixed size."""

from __future__ import annotations

from decimal import Decimal

import pytest

from solver.checking.check import check
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from solver.units import inches
from tests.trims import trim_job

# Front W + 2 x 1/2, returns 9 + 1/2, each 1 in over-long, and two cuts of 1/8:
#   W + 2 + 2 x 10-1/2 + 2 x 1/8 = W + 23-1/4 <= 48 up to W = 24-3/4.
WIDEST = 24
"""Whole inches: the widest case whose baseboard comes out of one stick of 48 in."""


def planned(width: object) -> Plan:
    base = {"name": "base", "width": "3-1/2", "thickness": "1/2"}
    job = trim_job(
        "standing",
        {"baseboard": "base"},
        case={"width": width, "height": "40", "depth": "9"},
        moulding=[{**base, "lengths": [{"length": "48", "price": "30"}]}],
        shop={"cutting_step": "1"},
    )
    return plan_job(job, Limits(seconds=20), near=False)


def price(plan: Plan) -> Decimal:
    cost = plan.options[0].cost
    assert cost is not None
    return cost.mouldings


@pytest.mark.parametrize(("width", "sticks"), [(WIDEST, 1), (WIDEST + 1, 2)])
def test_the_baseboard_of_one_width_takes_one_stick_and_of_the_next_two(
    width: int, sticks: int
) -> None:
    assert price(planned(str(width))) == 30 * sticks


def test_an_open_width_stops_where_the_baseboard_would_take_another_stick() -> None:
    """28 in are wished; at 24 the baseboard is one stick cheaper and the sheets cost the same."""
    plan = planned({"least": "22", "most": "28", "wish": "28"})
    option = plan.options[0]

    assert check(plan) == ()
    assert option.cases[0].outside.width == inches(WIDEST)
    assert price(plan) == min(price(planned(str(width))) for width in (22, WIDEST, 28))
