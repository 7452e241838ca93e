"""Each rule on trade-off fronts finds the one change that breaks it; the good front is clean."""

from __future__ import annotations

from decimal import Decimal

import pytest

from solver.checking.findings import Code
from solver.checking.front import check_front
from solver.plan.price_front import TradeOff
from solver.units import inches
from tests.edits import more, put
from tests.mutations_front import FRONT, good_front


def test_the_good_front_has_no_findings() -> None:
    assert check_front(good_front()) == ()


def test_the_good_front_is_a_trade_off() -> None:
    """Three shelves are even (4 x 7 in); of two, three openings of 28 in are off by 2/3+1/3+1/3."""
    cheap, even = good_front().points

    off = inches("28") / 3 - inches("9"), inches("10") - inches("28") / 3
    assert cheap.rhythm_sum == pytest.approx(2 * off[0] + off[1], abs=1)
    assert even.rhythm_sum == 0
    assert even.premium == even.price - cheap.price > 0


@pytest.mark.parametrize("code", FRONT, ids=lambda code: code.value)
def test_exactly_the_broken_rule_is_found(code: Code) -> None:
    change, also = FRONT[code]

    found = {finding.code for finding in check_front(change(good_front()))}

    assert found == {code} | also


def test_a_fault_in_one_option_is_found_and_its_number_told() -> None:
    broken = put(good_front(), "points.1.option.sheet_count", more(1))

    found = check_front(broken)

    assert {finding.code for finding in found} == {Code.COST_SHEET_COUNT}
    assert all(finding.where.startswith("no. 2, option '3 shelves'") for finding in found)


def test_a_cheapest_option_that_is_not_is_found() -> None:
    tags = ("recommended",), ("cheapest", "best-looking")
    swapped = put(good_front(), "points.0.option.tags", tags[0])

    found = check_front(put(swapped, "points.1.option.tags", tags[1]))

    assert {finding.code for finding in found} == {Code.FRONT_MARKS}


def test_a_front_survives_being_written_and_read() -> None:
    front = good_front()

    assert TradeOff.model_validate_json(front.to_json()) == front
    assert front.points[0].price == Decimal("65.00")
