"""The published schemas are those of the models, and our own files keep to them."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest

from cli.commands.schema import Kind, schema_text
from tests.sample_plans import FIXTURE
from tests.small_schema import faults

ROOT = Path(__file__).parent.parent.parent
JOB_FILES = sorted([*(ROOT / "fixtures" / "jobs").glob("*.toml"), *ROOT.glob("cli/demo/*.toml")])
KINDS: tuple[Kind, ...] = ("plan", "cut", "job", "tradeoff")


def kept(kind: str) -> dict[str, Any]:
    text = (ROOT / "cli" / "schemas" / f"{kind}.schema.json").read_text(encoding="utf-8")
    schema: dict[str, Any] = json.loads(text)
    return schema


@pytest.mark.parametrize("kind", KINDS)
def test_the_kept_schema_is_that_of_the_models(kind: Kind) -> None:
    path = ROOT / "cli" / "schemas" / f"{kind}.schema.json"

    assert path.read_text(encoding="utf-8") == schema_text(kind), (
        f"casewright schema {kind} > {path.relative_to(ROOT)}"
    )


def test_the_worked_plan_keeps_to_the_schema_of_plans() -> None:
    plan = json.loads(FIXTURE.read_text(encoding="utf-8"))

    assert faults(plan, kept("plan"), kept("plan")) == []


def test_there_are_job_files_to_hold_against_the_schema() -> None:
    assert len(JOB_FILES) >= 2


@pytest.mark.parametrize("path", JOB_FILES, ids=lambda path: path.stem)
def test_a_job_file_keeps_to_the_schema_of_jobs(path: Path) -> None:
    job = tomllib.loads(path.read_text(encoding="utf-8"))

    assert faults(job, kept("job"), kept("job")) == []


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"job": {"unit": "cm"}}, ".job.unit: 'cm' breaks enum"),
        ({"job": {"unit": "mm", "colour": "red"}}, ".job.colour is not known"),
        ({"item": []}, ".item: [] breaks minItems"),
    ],
)
def test_the_schema_of_jobs_refuses(change: dict[str, Any], fault: str) -> None:
    job = {
        "job": {"unit": "mm"},
        "case": [{"name": "a", "width": 750, "height": "1.5 m", "shelves": 3}],
        "item": [{"name": "jug", "width": 1, "height": 2, "depth": 3}],
    }

    assert faults(job, kept("job"), kept("job")) == []
    assert any(fault in text for text in faults({**job, **change}, kept("job"), kept("job")))


@pytest.mark.parametrize("kind", KINDS)
def test_no_description_speaks_of_the_unit_inside_the_program(kind: Kind) -> None:
    assert "[tick" not in json.dumps(kept(kind))
