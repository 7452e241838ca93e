"""Each rule on trade-off fronts finds the one change that breaks it; the good front is clean."""

from __future__ import annotations

from decimal import Decimal

import pytest

from solver.checking.findings import Code
from solver.checking.front import check_front
from solver.plan.price_front import TradeOff
from tests.edits import more, put
from tests.mutations_front import FRONT, good_front


def test_the_good_front_has_no_findings() -> None:
    assert check_front(good_front()) == ()


def test_the_good_front_is_a_trade_off() -> None:
    cheap, dear = good_front().points

    assert cheap.places_parted == 1 + 1  # the clocks in two openings, and a book by itself
    assert dear.places_parted == 1
    assert dear.premium == Decimal("9.60") - Decimal("7.40")


def test_a_twin_is_found() -> None:
    twin = put(good_front(), "points", lambda points: (points[0], points[0]))

    assert Code.FRONT_BEATEN in {finding.code for finding in check_front(twin)}


@pytest.mark.parametrize("code", FRONT, ids=lambda code: code.value)
def test_exactly_the_broken_rule_is_found(code: Code) -> None:
    change, also = FRONT[code]

    found = {finding.code for finding in check_front(change(good_front()))}

    assert found == {code} | also


def test_a_fault_in_one_option_is_found_and_its_number_told() -> None:
    broken = put(good_front(), "points.1.option.sheet_count", more(1))

    found = check_front(broken)

    assert {finding.code for finding in found} == {Code.COST_SHEET_COUNT}
    assert all(finding.where.startswith("no. 2, option '2 shelves'") for finding in found)


def test_a_cheapest_option_that_is_not_is_found() -> None:
    tags = ("recommended",), ("cheapest", "best-looking")
    swapped = put(good_front(), "points.0.option.tags", tags[0])

    found = check_front(put(swapped, "points.1.option.tags", tags[1]))

    assert {finding.code for finding in found} == {Code.FRONT_MARKS}


def test_a_front_survives_being_written_and_read() -> None:
    front = good_front()

    assert TradeOff.model_validate_json(front.to_json()) == front
    assert front.points[0].price == Decimal("130.90")
