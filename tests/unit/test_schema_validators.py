"""Plans once more, by a validator generated from the published schema by a library."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import fastjsonschema
import pytest

from cli.commands.schema import Kind, schema_text
from cli.files.job_file import read_job
from solver.outcome import Limits
from solver.planning.plan_job import plan_job
from tests.sample_plans import FIXTURE

JOBS = Path(__file__).parents[2] / "fixtures" / "jobs"


def validator(kind: Kind) -> Any:
    return fastjsonschema.compile(json.loads(schema_text(kind)))


def test_the_worked_plan_passes_the_generated_validator() -> None:
    assert validator("plan")(json.loads(FIXTURE.read_text("utf-8")))


@pytest.mark.parametrize("name", ["symmetric", "pantry-door", "too-tall"])
def test_plans_of_the_fixtures_pass_the_generated_validator(name: str) -> None:
    plan = plan_job(read_job(str(JOBS / f"{name}.toml")), Limits(seconds=3))

    assert validator("plan")(json.loads(plan.to_json()))


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("schema",), "casewright/plan/9"),
        (("unit",), "cm"),
        (("options", 0, "sheet_count"), "three"),
        (("options", 0, "status"), "perfect"),
        (("options", 0, "cases", 0, "outside", "width"), None),
    ],
)
def test_it_refuses_what_is_no_plan(path: tuple[Any, ...], value: Any) -> None:
    plan = json.loads(FIXTURE.read_text("utf-8"))
    inner = plan
    for key in path[:-1]:
        inner = inner[key]
    inner[path[-1]] = value

    with pytest.raises(fastjsonschema.JsonSchemaException):
        validator("plan")(plan)
