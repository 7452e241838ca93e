"""Which point of a front is recommended, and what is said of it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from functools import cache

from solver.job.job import Job
from solver.layout.evenness import Evenness
from solver.layout.pareto_points import Fineness
from solver.outcome import Limits
from solver.sizing.purchase import Buyer
from solver.tradeoff.front_report import Choice, choose, recommendation_sentence, unbeaten
from solver.tradeoff.price_levels import Candidate, start_search
from solver.units import Ticks, inches
from tests.builders import make_job

LOOK = {"rhythm": "even", "price_slack": 10}
PRICED = [
    {"name": "s", "material": "ply", "length": "96", "width": "48", "thickness": "3/4", "price": 90}
]


def job(**look: object) -> Job:
    return make_job(case={"shelves": 3, "back": "none"}, look={**LOOK, **look}, sheet=PRICED)


@cache
def sample() -> Candidate:
    counts = {"case": (3,)}
    plain = job()
    lane = start_search(
        plain, counts, Buyer(plain, Limits()), Limits(), Fineness(0, 0), lambda _: None
    )
    return lane.candidates[0]


def option(price: str, rhythm: Ticks, headroom: Ticks, empty: int = 0) -> Candidate:
    """An option of three shelves, so four openings; the rhythm is that of all of them."""
    one = sample()
    stock = replace(one.level.sized.stock, sheets_price=Decimal(price), sticks_price=Decimal(0))
    level = replace(one.level, sized=replace(one.level.sized, stock=stock))
    even = Evenness(empty, headroom)
    return Candidate(level, replace(one.traded, rhythm=Fraction(rhythm), even=even))


DEAR = option("110.00", inches("1"), 0)
CHEAP = option("100.00", inches("3"), 0)


def test_a_better_look_is_recommended_up_to_the_price_slack() -> None:
    assert choose(job(), [CHEAP, DEAR]) == Choice(recommended=1, cheapest=0, looks=1)


def test_a_cent_over_the_price_slack_the_cheapest_is_recommended() -> None:
    over = option("110.01", inches("1"), 0)
    assert choose(job(), [CHEAP, over]) == Choice(recommended=0, cheapest=0, looks=1)


def test_whoever_prefers_the_look_gets_it_at_any_price() -> None:
    over = option("999.00", inches("1"), 0)
    assert choose(job(prefer="look"), [CHEAP, over]).recommended == 1


def test_a_rhythm_that_nobody_sees_to_be_better_costs_nothing() -> None:
    # An eighth over four openings is as much as nobody sees in each: 1/32 in.
    better = option("105.00", inches("3") - inches("1/8"), 0)
    assert choose(job(), [CHEAP, better]) == Choice(0, 0, 0)


def test_a_rhythm_seen_to_be_better_is_recommended() -> None:
    better = option("105.00", inches("3") - inches("1/8") - 4, 0)
    assert choose(job(), [CHEAP, better]) == Choice(1, 0, 1)


def test_of_two_rhythms_alike_the_more_even_headroom_is_recommended() -> None:
    uneven = option("100.00", inches("3"), inches("1/2") + 1)
    even = option("104.00", inches("3"), 0)
    assert choose(job(), [uneven, even]).recommended == 1


def test_of_two_headrooms_alike_the_cheaper_is_recommended() -> None:
    uneven = option("100.00", inches("3"), inches("1/2"))
    even = option("104.00", inches("3"), 0)
    assert choose(job(), [uneven, even]) == Choice(0, 0, 0)


def test_an_empty_opening_is_worse_than_any_uneven_headroom() -> None:
    empty = option("100.00", inches("3"), 0, empty=1)
    full = option("104.00", inches("3"), inches("5"))
    assert choose(job(), [empty, full]).recommended == 1


def test_the_sentence_of_an_only_option() -> None:
    said = recommendation_sentence(job(), [CHEAP], choose(job(), [CHEAP]))
    assert said == "No. 1 (3 shelves) is recommended: no other option is as good in anything."


def test_the_sentence_where_one_option_is_best_in_all_that_is_seen() -> None:
    points = [option("100.00", inches("3"), inches("1/2")), option("104.00", inches("3"), 0)]
    said = recommendation_sentence(job(), points, choose(job(), points))
    assert said == "No. 1 (3 shelves) is recommended: it is the cheapest and the best-looking."


def test_the_sentence_tells_what_the_cheapest_would_save() -> None:
    said = recommendation_sentence(job(), [CHEAP, DEAR], choose(job(), [CHEAP, DEAR]))
    assert said == (
        "No. 2 (3 shelves) is recommended: the best look within 10 % of the cheapest "
        "(even rhythm off by 1 in over all openings, headroom within 0 in); "
        "no. 1 (3 shelves) is the cheapest and saves USD 10.00."
    )


def test_the_sentence_tells_what_the_best_looking_would_cost() -> None:
    points = [CHEAP, option("150.00", inches("1"), 0)]
    said = recommendation_sentence(job(), points, choose(job(), points))
    assert said.startswith("No. 1 (3 shelves) is recommended: it is the cheapest (")
    assert said.endswith(
        "no. 2 (3 shelves) looks best (even rhythm off by 1 in over all openings, "
        "headroom within 0 in) and costs USD 50.00 more."
    )


def test_what_is_beaten_in_all_three_is_left_out_and_twins_come_once() -> None:
    worse = option("110.00", inches("1"), 1)
    assert unbeaten([DEAR, CHEAP, worse, option("110.00", inches("1"), 0)]) == [CHEAP, DEAR]


def test_what_is_better_in_one_thing_alone_is_kept() -> None:
    dearer_but_evener = option("111.00", inches("3"), 0)
    uneven = option("100.00", inches("3"), 1)
    assert unbeaten([dearer_but_evener, uneven]) == [uneven, dearer_but_evener]
