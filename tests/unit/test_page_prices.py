"""The price on the client page: the estimate where it is whole, else the boards; never mixed."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from cli.files.price_file import read_prices
from cli.page.option_differences import prices
from cli.page.page_file import page_html
from solver.costing.estimate import estimate
from solver.plan.plan import Plan
from tests.sample_display import sample_plan

LIST = Path(__file__).parents[2] / "fixtures" / "prices" / "sample-usd.csv"


def paid_by_the_hour(hourly: str | None) -> Plan:
    plan = sample_plan()
    amount = None if hourly is None else Decimal(hourly)
    terms = plan.job.terms.model_copy(update={"hourly": amount})
    return plan.model_copy(update={"job": plan.job.model_copy(update={"price": terms})})


def test_where_everything_has_a_price_it_is_what_the_estimate_says() -> None:
    plan = paid_by_the_hour("60")
    first, second = plan.options[:2]
    known = read_prices(str(LIST))

    found = prices(plan, (first, second), known)

    assert found.amounts == {
        one.name: estimate(plan.job, one, known).total for one in (first, second)
    }
    assert found.what == "work and materials, without tax"
    assert f"${found.amounts[first.name]:,.2f}" in page_html(plan, known)


def test_where_an_hour_has_no_price_only_the_boards_are_priced_and_that_is_said() -> None:
    plan = paid_by_the_hour(None)
    first, second = plan.options[:2]

    found = prices(plan, (first, second), None)

    assert found.amounts == {one.name: one.cost.total for one in (first, second) if one.cost}
    assert found.what == "sheets"


def test_without_any_price_no_amount_is_shown() -> None:
    plan = sample_plan()
    first = plan.options[0]
    assert first.cost is not None
    free = first.cost.model_copy(update={"total": Decimal("0.00"), "complete": False})
    option = first.model_copy(update={"cost": free})
    shown = plan.model_copy(update={"options": (option,)})

    found = prices(shown, (option,), None)

    assert not found.is_known(option)
    assert found.text(option) == "no prices given"
    assert "$0.00" not in page_html(shown)
    assert "<span>cheapest</span>" not in page_html(shown)
