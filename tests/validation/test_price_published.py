"""Prices, counts and waste as others have printed them."""

from __future__ import annotations

from decimal import Decimal

import pytest

from solver.costing.buy_list import buy_list, waste
from solver.costing.estimate import payments
from solver.intake.load import load
from solver.outcome import Limits
from solver.plan.bought import BuyList
from solver.planning.plan_job import plan_job
from solver.trim.trim_pieces import with_waste
from tests.unit.test_estimate import made_terms


@pytest.fixture(scope="module")
def metric_case() -> BuyList:
    """The case of paperzz.com 7843242, "Bookshelf (bronze level)": 800 x 2000, 25 mm MDF.

    Its sides are 396 wide over a back of 6; four shelves on pins and one fixed one, for which
    one more on pins stands here; 2 mm clearance; sheets of 2400 x 1200 at $80 and $38.
    """
    job = load(
        {
            "job": {"unit": "mm", "currency": "NZD"},
            "case": [
                {
                    "name": "bookshelf",
                    "width": 800,
                    "height": 2000,
                    "depth": 391,
                    "raised_bottom": 80,
                    "shelves": 5,
                    "fixing": "pins",
                    "pin_clearance": 2,
                    "material": "MDF 25",
                    "back": "MDF 6",
                }
            ],
            "item": [{"name": "book", "width": 30, "height": 240, "depth": 200, "weight": "1 kg"}],
            "sheet": [
                {"name": name, "material": name, "length": 2400, "width": 1200, "grain": "any"}
                | {"thickness": thick, "price": price}
                for name, thick, price in (("MDF 25", 25, 80), ("MDF 6", 6, 38))
            ],
        },
        "mm",
    )
    plan = plan_job(job, Limits(seconds=20), near=False)
    return buy_list(plan.job, plan.options[0])


def test_two_sheets_of_25_mm_and_one_of_6_mm_at_the_printed_prices(metric_case: BuyList) -> None:
    """Printed: 2 sheets at $80, 1 at $38."""
    assert [(line.packs, line.amount) for line in metric_case.at("sheets")] == [
        (2, Decimal(2 * 80)),
        (1, Decimal(38)),
    ]
    assert metric_case.total == Decimal(2 * 80 + 38)


def test_four_shelf_supports_for_each_shelf(metric_case: BuyList) -> None:
    """Printed: 16 supports for 4 adjustable shelves; here five shelves lie on pins."""
    pins = next(line for line in metric_case.lines if line.key.startswith("shelf pin"))
    assert pins.need - pins.spare == 5 * 16 // 4


def test_waste_is_of_what_is_bought_so_need_is_divided_by_one_less_waste() -> None:
    """Printed: 100 ft at 30 % waste is 143 ft (woodweb.com Quantifying the Waste Factor)."""
    assert with_waste(100, Decimal("0.30")) == 143
    assert waste(Decimal(100), Decimal(143)).quantize(Decimal("0.01")) == Decimal("0.30")
    assert waste(Decimal(100), Decimal(100)) == 0


def test_area_of_the_printed_case_is_two_thirds_of_its_two_sheets() -> None:
    """Parts of practice: 3.78 m2 of 5.76 m2; 34 % waste, and need / (1 - waste) buys both."""
    parts = [(2000, 396)] * 2 + [(750, 385)] * 2 + [(750, 390)] + [(748, 385)] * 4
    parts += [(850, 105), (420, 105), (420, 105)]
    need, sheets = sum(long * wide for long, wide in parts), 2 * 2400 * 1200
    assert round(need / 1_000_000, 2) == 3.78
    lost = waste(Decimal(need), Decimal(sheets))
    assert lost.quantize(Decimal("0.01")) == Decimal("0.34")
    assert abs(with_waste(need, lost) - sheets) <= 1


@pytest.mark.parametrize(
    ("shares", "total", "due"),
    [
        ((50, 50), 1000, (500, 500)),  # half and half: a maker's blog, lumberjocks.com 12767
        ((25, 25, 50), 1000, (250, 250, 500)),  # 25 % + 25 %: linearfinewoodworking.com terms
        ((40, 50, 10), 1000, (400, 500, 100)),  # daedalwoodworking.com process
    ],
)
def test_deposits_seen(shares: tuple[int, ...], total: int, due: tuple[int, ...]) -> None:
    terms = made_terms(stages=[{"when": str(n), "share": s} for n, s in enumerate(shares)])
    assert tuple(one.amount for one in payments(terms, Decimal(total))) == due
