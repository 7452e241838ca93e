"""The worked plan in fixtures, read as plain JSON, keeps every sentence of the format."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest

from tests.plan_format import assert_plan_format, load
from tests.sample_plans import FIXTURE, good_plan, good_text


def worked() -> dict[str, Any]:
    return load(FIXTURE.read_text(encoding="utf-8"))


def option(data: dict[str, Any]) -> Any:
    return data["options"][0]


def bay(data: dict[str, Any]) -> Any:
    return option(data)["cases"][0]["bays"][0]


def test_the_worked_plan_keeps_the_format() -> None:
    assert_plan_format(worked())


def test_the_worked_plan_is_the_one_made_by_hand() -> None:
    assert FIXTURE.read_text(encoding="utf-8") == good_text()


def test_the_worked_plan_comes_back_from_its_file_as_it_was() -> None:
    plan = good_plan()

    read = type(plan).model_validate_json(FIXTURE.read_text(encoding="utf-8"))

    assert read == plan
    assert read.job.hash == plan.job_hash


Break = Callable[[dict[str, Any]], Any]
BROKEN: dict[str, tuple[Break, str]] = {
    "a length between two ticks": (
        lambda data: bay(data).update(x=Decimal("18.001")),
        "x 18.001 is a whole number of ticks",
    ),
    "money as a number": (
        lambda data: option(data)["cost"].update(total=Decimal("130.90")),
        "total Decimal",
    ),
    "a mass with a fraction": (
        lambda data: bay(data)["openings"][0].update(load=Decimal("0.5")),
        "load 0.5 is whole grams",
    ),
    "a thing that overhangs": (
        lambda data: bay(data)["openings"][0]["items"][0].update(x=Decimal(541)),
        "figurine 1 overhangs",
    ),
    "a thing on nothing": (
        lambda data: bay(data)["openings"][1]["items"][1].update(on=3),
        "bowl 2 stands on a thing below it",
    ),
    "a part not cut": (
        lambda data: option(data)["sheets"][0]["pieces"].pop(),
        "every part is cut once",
    ),
    "pieces that touch": (
        lambda data: option(data)["sheets"][0]["pieces"][1].update(x=Decimal(1006)),
        "a kerf apart",
    ),
    "an infeasible option without a reason": (
        lambda data: option(data).update(status="infeasible"),
        "infeasible says why",
    ),
}


@pytest.mark.parametrize(("change", "text"), BROKEN.values(), ids=BROKEN)
def test_the_reader_refuses(change: Break, text: str) -> None:
    data = worked()
    change(data)

    with pytest.raises(AssertionError, match=text):
        assert_plan_format(data)


def test_openings_that_do_not_add_up_are_refused() -> None:
    data = worked()
    bay(data)["openings"][2]["height"] += Decimal("0.003125")

    with pytest.raises(AssertionError):
        assert_plan_format(data)
