"""Money: what is rounded where, what adds up, what is named as missing."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from pydantic import ValidationError

from solver.costing.actuals import Entry, compare
from solver.costing.buy_list import buy_list
from solver.costing.estimate import estimate, payments, priced
from solver.costing.labour_tasks import works
from solver.errors import InputError
from solver.job.job import Job
from solver.job.labour_table import FORGOTTEN, TASKS
from solver.job.price_terms import ListPrice, PriceList, Terms
from solver.plan.estimated import Estimate, to_cents
from solver.plan.plan import Option
from tests.priced import option_of_kind, plan_of_kind

KIND = "hung, classical"


def with_terms(kind: str = KIND, **terms: Any) -> tuple[Job, Option]:
    job = plan_of_kind(kind).job
    priced_job = job.model_copy(update={"price": made_terms(**terms)})
    return priced_job, option_of_kind(kind)


def made_terms(**terms: Any) -> Terms:
    plain = {
        "overhead": 0,
        "profit": 0,
        "contingency": 0,
        "tax_on": "everything",
        "stages": [{"when": "at signing", "share": 50}, {"when": "at delivery", "share": 50}],
        "hours_a_day": 8,
        "valid_days": 30,
    }
    return Terms.model_validate({**plain, **terms})


def sums(made: Estimate) -> dict[str, Decimal]:
    return {line.what.partition(",")[0]: line.amount for line in made.sums}


@pytest.mark.parametrize(
    ("exact", "cents"), [("0.005", "0.01"), ("0.015", "0.02"), ("0.0049", "0.00"), ("2", "2.00")]
)
def test_money_is_rounded_half_up_to_the_cent(exact: str, cents: str) -> None:
    assert to_cents(Decimal(exact)) == Decimal(cents)


def test_an_hour_costs_what_it_costs_and_a_third_of_it_a_third() -> None:
    assert priced(Decimal(60), Decimal("68.00")) == Decimal("68.00")
    assert priced(Decimal(20), Decimal("68.00")) == to_cents(Decimal("68.00") / 3)
    assert priced(Decimal(20), None) is None


def test_lines_add_up_to_the_total_and_the_payments_to_it() -> None:
    stages = [{"when": f"stage {n}", "share": share} for n, share in enumerate((33.3, 33.3, 33.4))]
    job, option = with_terms(
        hourly=61.37, overhead=12.5, profit=7, contingency=3, tax=8.875, stages=stages
    )
    made = estimate(job, option)
    found = sums(made)
    assert found["labour"] == sum(line.amount or 0 for line in made.labour)
    assert found["extras"] == sum(line.amount or 0 for line in made.extras)
    direct = found["materials"] + found["labour"] + found["extras"]
    assert found["overhead"] == to_cents(direct * Decimal("12.5") / 100)
    assert found["profit"] == to_cents((direct + found["overhead"]) * 7 / 100)
    assert found["net"] == direct + found["overhead"] + found["profit"]
    assert found["tax"] == to_cents(found["net"] * Decimal("8.875") / 100)
    assert made.total == found["net"] + found["tax"]
    assert sum(one.amount for one in made.payments) == made.total


def test_payments_of_a_few_cents_are_never_below_nothing() -> None:
    terms = made_terms(stages=[{"when": str(n), "share": 10} for n in range(10)])
    for cents in range(30):
        total = Decimal(cents) / 100
        due = [one.amount for one in payments(terms, total)]
        assert sum(due) == total
        assert min(due) >= 0


def test_tax_on_materials_alone() -> None:
    job, option = with_terms(hourly=60, tax=10, tax_on="materials")
    found = sums(estimate(job, option))
    assert found["tax"] == to_cents(found["materials"] / 10)


def test_what_has_no_price_is_named_and_the_total_is_incomplete() -> None:
    made = estimate(*with_terms(tax=0))
    assert not made.complete
    assert made.missing[0] == "hour of work"
    assert "catch" in {line.key for line in made.buying.lines if line.missing}


def test_with_every_price_the_total_is_complete() -> None:
    job, option = with_terms(hourly=60, tax=0)
    every = {line.named for line in buy_list(job, option).lines}
    known = PriceList(prices=tuple(ListPrice(item=one, price=Decimal("1.00")) for one in every))
    assert estimate(job, option, known).complete
    less = tuple(one for one in known.prices if one.item != "bumper")
    assert len(less) == len(known.prices) - 1
    assert estimate(job, option, PriceList(prices=less)).missing == ("bumper",)


def test_the_forgotten_are_always_listed_with_an_amount_or_a_zero_and_why() -> None:
    for kind in (KIND, "standing", "wall", "built-in, strips"):
        made = estimate(*with_terms(kind, hourly=60))
        assert tuple(line.what for line in made.extras) == FORGOTTEN
        for line in made.extras:
            assert line.why
            assert (line.state == "none") == (line.amount == 0)
    standing = {line.what: line for line in estimate(*with_terms("standing", hourly=60)).extras}
    assert standing["lead-safe work"].amount == 0
    hung = {line.what: line for line in estimate(*with_terms(hourly=60)).extras}
    assert hung["lead-safe work"].minutes == TASKS["lead-safe work"].minutes


def test_an_amount_stands_for_the_hours_of_an_extra_and_zero_is_none() -> None:
    plain = estimate(*with_terms(hourly=60))
    given = estimate(*with_terms(hourly=60, extras={"delivery": 45, "patching": 0}))
    lines = {line.what: line for line in given.extras}
    assert (lines["delivery"].state, lines["delivery"].amount) == ("given", Decimal("45.00"))
    assert lines["patching"].state == "none"
    hours = TASKS["delivery"].minutes + TASKS["patching"].minutes
    assert given.minutes == plain.minutes - hours


def test_minutes_of_the_job_count_in_place_of_the_table() -> None:
    slow = estimate(*with_terms(labour={"banding": 40}))
    line = next(one for one in slow.labour if one.task == "banding")
    assert line.minutes == 40 * line.count
    assert line.source == "[price] labour"


def test_one_shelf_more_costs_what_it_costs() -> None:
    job, option = with_terms("standing", hourly=60)
    made = estimate(job, option)
    assert made.shelf is not None
    shelves = [part for part in option.parts if part.name == "shelf"]
    last = shelves[-1].id
    found = works(job, option)
    mine = [work for work in found if last in work.of]
    assert {"marking out", "pilot holes", "glue-up", "sheet cut"} <= {work.task for work in mine}
    joints = 2 * (TASKS["glue-up"].minutes + TASKS["pilot holes"].minutes)
    assert made.shelf.minutes > joints + TASKS["marking out"].minutes


def test_what_is_on_hand_is_taken_off_once_in_whole_packs() -> None:
    job, option = plan_of_kind(KIND).job, option_of_kind(KIND)
    need = {line.key: line for line in buy_list(job, option).lines}
    discs = [line for line in need.values() if line.key.startswith("sanding disc")]
    assert len(discs) > 1
    first = discs[0].need
    known = PriceList(prices=(ListPrice(item="sanding disc", pack=1, on_hand=first + 1),))
    after = {line.key: line for line in buy_list(job, option, known).lines}
    assert (after[discs[0].key].on_hand, after[discs[0].key].packs) == (first, 0)
    assert after[discs[1].key].packs == discs[1].need - 1
    packs = PriceList(prices=(ListPrice(item="sanding disc", pack=4, price=Decimal(3)),))
    bought = next(line for line in buy_list(job, option, packs).lines if line.key == discs[0].key)
    assert bought.packs == -(-first // 4)
    assert bought.amount == 3 * bought.packs


def test_a_price_of_the_job_counts_before_that_of_the_list() -> None:
    job, option = plan_of_kind(KIND).job, option_of_kind(KIND)
    stick = next(line for line in buy_list(job, option).lines if line.place == "mouldings")
    known = PriceList(prices=(ListPrice(item=stick.named, price=Decimal("999.00")),))
    again = next(line for line in buy_list(job, option, known).lines if line.key == stick.key)
    assert (again.each, again.priced_by) == (stick.each, "job")


def test_a_price_list_in_another_currency_is_refused() -> None:
    with pytest.raises(InputError, match="the price list is in EUR and the job in USD"):
        buy_list(plan_of_kind(KIND).job, option_of_kind(KIND), PriceList(currency="EUR"))


@pytest.mark.parametrize(
    ("terms", "says"),
    [
        ({"hourly": -5}, "-5 is not an amount"),
        ({"overhead": 101}, "101 is given; allowed: per cent from 0 to 100"),
        ({"tax": -1}, "-1 is given; allowed: per cent from 0 to 100"),
        ({"labour": {"glu-up": 3}}, "did you mean 'glue-up'"),
        ({"labour": {"glue-up": -3}}, "-3 is given; allowed: minutes for one from 0"),
        ({"extras": {"deliveries": 3}}, "did you mean 'delivery'"),
        ({"extras": {"delivery": -3}}, "-3 is not an amount"),
        ({"stages": [{"when": "a", "share": 40}]}, "the shares add up to 40; 100 is wanted"),
        ({"hours_a_day": 25}, "25 is given; allowed: working hours a day from 1 to 16"),
        ({"hourly": float("nan")}, "nan"),
    ],
)
def test_terms_that_cannot_be_say_the_number_and_what_is_allowed(
    terms: dict[str, Any], says: str
) -> None:
    with pytest.raises(ValidationError, match=says):
        made_terms(**terms)


def test_actual_beside_the_estimate_and_together() -> None:
    made = estimate(*with_terms(hourly=60))
    entries = [
        Entry("survey trip", Decimal("2.00"), None),
        Entry("mouldings", None, Decimal("50.00")),
        Entry("Making", Decimal("20.00"), Decimal("1200.00")),
    ]
    survey, mouldings, making, together = compare(made, entries)
    assert (survey.hours, survey.more_hours) == (Decimal("1.50"), Decimal("0.50"))
    sticks = sum(line.amount or 0 for line in made.buying.at("mouldings"))
    assert mouldings.more == Decimal("50.00") - sticks
    minutes = [line.minutes for line in made.labour if line.phase == "making"]
    assert making.hours == (sum(minutes, Decimal(0)) / 60).quantize(Decimal("0.01"))
    assert together.more_hours == (survey.more_hours or 0) + (making.more_hours or 0)
    assert together.more == (mouldings.more or 0) + (making.more or 0)


def test_actual_names_what_is_not_in_the_estimate_and_what_is_there_twice() -> None:
    made = estimate(*with_terms(hourly=60))
    with pytest.raises(InputError, match=r"'survay trip' is no line.*did you mean 'survey trip'"):
        compare(made, [Entry("survay trip", Decimal(1), None)])
    with pytest.raises(InputError, match="'labour' and 'banding' both count 'banding'"):
        compare(made, [Entry("banding", Decimal(1), None), Entry("labour", Decimal(9), None)])
    for name in ("materials", "labour", "extras", "making", "sheets"):
        assert compare(made, [Entry(name, Decimal(1), None)])[0].what == name


def test_no_float_is_in_an_estimate() -> None:
    def walk(value: Any) -> None:
        assert not isinstance(value, float)
        for one in value.values() if isinstance(value, dict) else ():
            walk(one)
        for one in value if isinstance(value, list | tuple) else ():
            walk(one)

    walk(estimate(*with_terms(hourly=60, tax=8.25)).model_dump())


def test_amounts_in_small_money_may_be_large() -> None:
    job, option = with_terms(hourly=999_999)
    made = estimate(job, option)
    labour = sums(made)["labour"]
    assert labour > 1_000_000
    assert labour == sum(line.amount or 0 for line in made.labour)
