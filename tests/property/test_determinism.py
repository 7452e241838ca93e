"""The same job gives the same bytes: again, and in another process that hashes otherwise."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from solver.job.job import Job
from solver.outcome import Limits
from solver.planning.plan_job import plan_job
from tests.builders import make_job
from tests.generators import generate_job

ROOT = Path(__file__).resolve().parents[2]
WORK = 0.5
ELSEWHERE = f"""
import sys
from solver.job.job import Job
from solver.outcome import Limits
from solver.planning.plan_job import plan_job
job = Job.model_validate_json(sys.stdin.read())
sys.stdout.write(plan_job(job, Limits(work={WORK})).to_json(timing=False))
"""


def plan_here(job: Job) -> str:
    return plan_job(job, Limits(work=WORK)).to_json(timing=False)


def plan_elsewhere(job: Job, hash_seed: str) -> str:
    done = subprocess.run(
        [sys.executable, "-c", ELSEWHERE],
        cwd=ROOT,
        env={**os.environ, "PYTHONHASHSEED": hash_seed},
        input=job.model_dump_json(by_alias=True),
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=True,
    )
    return done.stdout


def several_options() -> Job:
    """Groups, books, an open depth and two shelf counts, solved side by side."""
    things: list[dict[str, Any]] = [
        {"name": "jug", "width": "5", "height": "9", "depth": "5", "count": 3, "group": "blue"},
        {"name": "bowl", "width": "8", "height": "4", "depth": "7", "count": 3, "stack": 2},
        {"name": "book", "width": "1", "height": "10", "depth": "7", "count": 6, "gap": 0},
        {"name": "plate", "width": "9", "height": "9", "depth": "2", "group": "blue"},
    ]
    case = {"depth": {"least": "6", "most": "10"}, "shelves": [2, 3]}
    return make_job(case=case, items=things)


def test_a_job_planned_twice_gives_the_same_bytes() -> None:
    job = generate_job(6, 14)
    assert plan_here(job) == plan_here(job)


@pytest.mark.slow
@pytest.mark.parametrize("job", [several_options(), generate_job(8, 20, bays=2)])
def test_another_process_with_other_hashes_gives_the_same_bytes(job: Job) -> None:
    here = plan_here(job)
    assert plan_elsewhere(job, "1") == here
    assert plan_elsewhere(job, "4242") == here
