"""Which point of a front is recommended, and what is said of it."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from functools import cache

from solver.plan.plan import Option
from solver.planning.recommend import choose
from solver.tradeoff.front_report import Shown, as_good, numbered, recommendation, unbeaten
from solver.tradeoff.price_levels import NEVER, Level
from solver.tradeoff.trade_off import trade_off
from tests.builders import make_job

PRICED = [
    {"name": "s", "material": "ply", "length": "96", "width": "48", "thickness": "3/4", "price": 90}
]


@cache
def sample() -> Option:
    job = make_job(case={"shelves": 3, "back": "none"}, sheet=PRICED)
    return trade_off(job).points[0].option


def option(price: str, parted: int) -> Option:
    """An option of three shelves."""
    one = sample()
    assert one.cost is not None
    assert one.scores is not None
    cost = {"total": Decimal(price), "sheets": Decimal(price)}
    return one.model_copy(
        update={
            "cost": one.cost.model_copy(update=cost),
            "scores": one.scores.model_copy(update={"places_parted": parted}),
        }
    )


def said(*options: Option, prefer: str = "price", stopped: bool = False) -> str:
    job = make_job(case={"shelves": 3}, sheet=PRICED, look={"price_slack": 10, "prefer": prefer})
    named: Sequence[Option] = [numbered(n, one) for n, one in enumerate(options, start=1)]
    return recommendation(job, named, choose(job, list(named)), stopped=stopped)


CHEAP = option("100.00", 3)


def test_fewer_places_parted_are_recommended_up_to_the_price_slack() -> None:
    assert said(CHEAP, option("110.00", 1)) == (
        "No. 2 (3 shelves) is recommended: one place parted, where no. 1 (3 shelves) parts three; "
        "it costs USD 10.00 more than the cheapest, no. 1 (3 shelves)."
    )


def test_a_cent_over_the_price_slack_the_cheapest_is_recommended() -> None:
    assert said(CHEAP, option("110.01", 0)) == (
        "No. 1 (3 shelves) is recommended: it is the cheapest; no. 2 (3 shelves) looks best "
        "(every kind on one shelf, where no. 1 (3 shelves) parts three) and costs USD 10.01 more."
    )


def test_whoever_prefers_the_look_gets_it_at_any_price() -> None:
    assert said(CHEAP, option("999.00", 1), prefer="look").startswith("No. 2 (3 shelves) is")


def test_the_sentence_of_an_only_option() -> None:
    only = "No. 1 (3 shelves) is recommended: it is the cheapest, and no other option"
    assert said(CHEAP) == f"{only} parts fewer places."
    assert said(CHEAP, stopped=True) == f"{only} found so far parts fewer places."


def test_what_costs_no_more_and_parts_no_more_is_as_good() -> None:
    cheap, dear = (0.0, Decimal(100)), (0.0, Decimal(110))
    assert as_good((cheap, 1), (dear, 1))
    assert as_good((cheap, 1), (cheap, 2))
    assert as_good((cheap, 1), (cheap, 1))
    assert not as_good((cheap, 2), (dear, 1))
    assert not as_good((dear, 1), (cheap, 2))
    assert as_good((cheap, 1), ((0.5, Decimal(0)), 1))  # an area is more than any price


def test_of_twins_the_better_looking_is_shown_and_what_is_beaten_is_not() -> None:
    """Options of the same price and places parted: more of its rows has a mirror image."""
    level = Level({"case": (3,)}, True, None, 0, None, NEVER)
    cheap, dear = option("100.00", 1), option("100.00", 2)
    assert cheap.scores is not None
    worse = cheap.scores.model_copy(update={"outline_missed": cheap.scores.outline_missed + 5})
    twin = Shown(level, cheap.model_copy(update={"scores": worse}))

    assert unbeaten([twin, Shown(level, dear), Shown(level, cheap)]) == [Shown(level, cheap)]
