"""Lengths, weights and money in models: read by where they come from, written as plain numbers."""

from __future__ import annotations

import json
from decimal import Decimal
from typing import Any

import pytest
from pydantic import TypeAdapter, ValidationError

from solver.quantities import Length, Mass, Model, Money, MoneyDifference
from solver.units import GRAMS_PER_POUND, TICKS_PER_INCH, TICKS_PER_MM


class Thing(Model):
    """One of each quantity."""

    length: Length = 0
    mass: Mass = 0
    money: Money = Decimal(0)


def from_file(**values: Any) -> Thing:
    return Thing.model_validate(values, context={"unit": "in"})


@pytest.mark.parametrize(
    ("value", "ticks"),
    [
        (7, 7 * TICKS_PER_INCH),
        (7.5, 15 * TICKS_PER_INCH // 2),
        ("7-1/2", 15 * TICKS_PER_INCH // 2),
        ("18 mm", 18 * TICKS_PER_MM),
        (1e-2, round(TICKS_PER_INCH / 100)),
    ],
)
def test_a_number_of_a_job_file_is_in_the_jobs_unit(value: Any, ticks: int) -> None:
    assert from_file(length=value).length == ticks


def test_a_number_of_a_plan_is_in_millimetres_and_whole_ticks() -> None:
    assert Thing.model_validate_json('{"length": 0.396875}').length == 127
    with pytest.raises(ValidationError, match="not a whole number of ticks"):
        Thing.model_validate_json('{"length": 0.1234567}')


def test_a_number_of_python_is_in_ticks() -> None:
    assert Thing(length=127).length == 127


@pytest.mark.parametrize("value", [True, None, float("nan"), float("inf"), [], {}, "x", -1])
def test_what_is_no_length_is_refused(value: Any) -> None:
    with pytest.raises(ValidationError):
        from_file(length=value)


def test_weights_of_a_file_are_pounds_in_an_inch_job() -> None:
    assert from_file(mass=6).mass == round(6 * GRAMS_PER_POUND)
    assert from_file(mass="2.7 kg").mass == 2700
    with pytest.raises(ValidationError, match="a weight is wanted, not True"):
        from_file(mass=True)


@pytest.mark.parametrize(
    ("value", "amount"),
    [(92, "92"), (92.5, "92.50"), ("92.50", "92.50"), ("$92.50", "92.50"), ("0", "0")],
)
def test_money_is_read_as_whole_cents(value: Any, amount: str) -> None:
    assert from_file(money=value).money == Decimal(amount)


@pytest.mark.parametrize("value", [True, None, "92x", -1, "0.005", 1_000_000, float("nan")])
def test_what_is_no_amount_of_money_is_refused(value: Any) -> None:
    with pytest.raises(ValidationError, match=r"money|amount"):
        from_file(money=value)


def test_json_holds_millimetres_grams_and_two_places() -> None:
    thing = Thing(length=TICKS_PER_INCH, mass=2700, money=Decimal("92.5"))
    written = thing.model_dump_json()
    assert json.loads(written) == {"length": 25.4, "mass": 2700, "money": "92.50"}
    assert Thing.model_validate_json(written) == thing


def test_an_unknown_key_is_refused_and_a_model_cannot_be_changed() -> None:
    with pytest.raises(ValidationError, match="Extra inputs"):
        from_file(lenght=7)
    with pytest.raises(ValidationError, match="frozen"):
        Thing().length = 1  # type: ignore[misc]


@pytest.mark.parametrize(("text", "amount"), [("-85.00", "-85.00"), ("12.5", "12.50"), ("0", "0")])
def test_a_difference_of_money_may_be_below_zero(text: str, amount: str) -> None:
    read = TypeAdapter(MoneyDifference).validate_python(text)
    assert read == Decimal(amount)
