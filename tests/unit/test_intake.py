"""Reading jobs, alone and inside answers: what is left out is filled in, all of it is checked."""

from __future__ import annotations

import json
from typing import Any

import pytest
from pydantic import ValidationError

from solver.intake.load import load, read_json
from solver.plan.plan import Plan
from solver.plan.what_if_answer import WhatIf
from tests.builders import make_job
from tests.sample_plans import good_plan

UNKNOWN = {"case": "cellar", "shelf": 1, "mark": "300 mm"}


def _plan_data() -> dict[str, Any]:
    data: dict[str, Any] = json.loads(good_plan().to_json())
    return data


def _what_if_data(plan: dict[str, Any]) -> dict[str, Any]:
    return {
        "schema": "casewright/whatif/1",
        "asked": ["add 1 x jug"],
        "answer": "things move",
        "settled": True,
        "text": "",
        "stands": [],
        "plan": plan,
    }


def test_a_job_dumped_and_loaded_is_the_same() -> None:
    job = make_job()

    assert load(job.model_dump(by_alias=True)) == job


def test_what_does_not_go_together_is_a_fault_of_the_whole_job() -> None:
    data = make_job().model_dump(by_alias=True) | {"hold": [UNKNOWN]}

    with pytest.raises(ValidationError) as refused:
        load(data)

    (fault,) = refused.value.errors()
    assert fault["loc"] == ()
    assert fault["msg"].startswith("Value error, hold case = 'cellar' is not in the job")


def test_the_job_in_a_plan_is_checked_as_one_that_is_loaded() -> None:
    data = _plan_data()
    data["job"]["hold"] = [UNKNOWN]

    with pytest.raises(ValidationError, match="'cellar' is not in the job") as refused:
        read_json(Plan, json.dumps(data))

    assert [fault["loc"] for fault in refused.value.errors()] == [("job",)]


def test_so_is_the_job_in_a_plan_within_an_answer() -> None:
    data = _plan_data()
    data["job"]["hold"] = [UNKNOWN]

    with pytest.raises(ValidationError, match="'cellar' is not in the job") as refused:
        read_json(WhatIf, json.dumps(_what_if_data(data)))

    assert [fault["loc"] for fault in refused.value.errors()] == [("plan", "job")]


def test_a_plan_of_before_a_key_of_the_job_has_its_default() -> None:
    data = _plan_data()
    del data["job"]["shop"]["least_rip"]

    plan = read_json(Plan, json.dumps(data))

    assert plan.job.shop.least_rip == make_job(unit="mm").shop.least_rip


def test_a_plan_reads_as_it_was_written() -> None:
    assert read_json(Plan, good_plan().to_json()) == good_plan()
