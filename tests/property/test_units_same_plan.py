"""A job in inches and the same job in millimetres, steps alike, give the same plan."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, given, settings

from cli.files.job_file import read_job
from solver.job.job import Job
from solver.outcome import Limits
from solver.planning.plan_job import plan_job
from tests.strategies import tiny_jobs

FOR_PEOPLE = {"note", "notes", "why", "text", "recommendation", "near_note", "advice_note", "near",
              "advice", "words", "unit", "job", "job_hash", "changes", "name", "strength",
              "hanging", "sentence"}  # fmt: skip
"""Keys whose text speaks in the job's unit, or that repeat the job."""


def figures(data: Any) -> Any:
    """Return the plan without its texts, and without where things start in their row.

    They start on whole sixteenths or millimetres, as the unit has it.
    """
    if isinstance(data, dict):
        keys = FOR_PEOPLE | ({"x"} if "headroom" in data and "item" in data else set())
        if data.get("name") == "composition":
            keys = keys | {"value"}
        return {key: figures(value) for key, value in data.items() if key not in keys}
    return [figures(value) for value in data] if isinstance(data, list) else data


def in_other_unit(job: Job) -> Job:
    """The same lengths under the other unit."""
    unit = "mm" if job.unit == "in" else "in"
    return job.model_copy(update={"head": job.head.model_copy(update={"unit": unit})})


@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
@given(tiny_jobs(may_lie=True))
def test_the_unit_of_a_job_changes_its_words_only(job: Job) -> None:
    plans = [plan_job(one, Limits(work=0.5)) for one in (job, in_other_unit(job))]

    first, second = (figures(plan.model_dump(mode="json", exclude={"timing"})) for plan in plans)

    assert first == second


INCHES = """
[job]
unit = "in"
marking_step = "1/16"
title = "hall"
currency = "USD"
[[case]]
name = "hall"
kind = "standing"
width = 30
height = "60-1/2"
depth = { least = 10, most = 11 }
shelves = [3, 4]
material = "ply"
back = "none"
pin_clearance = "1/8"
dado = "1/4"
[look]
headroom = 1
lift = "1/2"
gap = "1/2"
end_margin = "1/2"
front_margin = 0
clear_least = 6
eye_level = 62
guess_allowance = "1/4"
[[sheet]]
name = "ply"
material = "ply"
length = 96
width = 48
thickness = "23/32"
price = 92
[shop]
kerf = "1/8"
edge_trim = "1/4"
margin = "1/16"
cutting_step = "1/16"
mitre_capacity = 12
sled_capacity = 30
least_rip = 2
least_length = 8
least_offcut = [12, 3]
largest_panel = [96, 48]
[[item]]
name = "jug"
width = "5-1/2"
height = "8-3/4"
depth = 6
count = 7
weight = "3 lb"
[[item]]
name = "clock"
width = 9
height = "13-5/8"
depth = 5
count = 2
weight = "8 lb"
"""
_INCH = re.compile(r'(?<![\w"-])"?(\d+-\d+/\d+|\d+/\d+|\d+(?:\.\d+)?)"?(?=\s*(?:[,}\]]|$))')
COUNTS = ("count", "shelves", "price")


def in_millimetres(text: str) -> str:
    """Write every length of the job above in millimetres, each inch 25.4 of them."""
    lines = [line.replace('unit = "in"', 'unit = "mm"') for line in text.splitlines()]
    return "\n".join(
        line if line.startswith(COUNTS) or "=" not in line else _INCH.sub(_metric, line)
        for line in lines
    )


def _metric(match: re.Match[str]) -> str:
    whole, _, fraction = match[1].rpartition("-")
    top, slash, bottom = fraction.partition("/")
    value = int(top) / int(bottom) if slash else float(fraction)
    return f'"{(value + int(whole or 0)) * 25.4:.10g}"'


def test_a_job_file_in_inches_and_one_in_millimetres_give_the_same_plan(tmp_path: Path) -> None:
    plans = []
    for name, text in (("inch", INCHES), ("metric", in_millimetres(INCHES))):
        path = tmp_path / f"{name}.toml"
        path.write_text(text, "utf-8")
        job = read_job(str(path))
        assert job.unit == ("in" if name == "inch" else "mm")
        plans.append(plan_job(job, Limits(work=2)).model_dump(mode="json", exclude={"timing"}))

    assert [figures(plan["options"]) for plan in plans[:1]] == [
        figures(plan["options"]) for plan in plans[1:]
    ]
    assert plans[0]["options"][0]["cases"]
