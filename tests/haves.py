"""Jobs with something there already."""

from __future__ import annotations

from functools import cache
from typing import Any

from solver.intake.load import load
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from tests.batches import LIPS, client_job

WORK = Limits(work=0.5, seconds=3600)

ROWS: list[dict[str, Any]] = [
    {"what": "cut", "name": "alcove/side-left"},
    {"what": "cut", "name": "alcove/shelf-1", "length": "44 in", "width": "9.5 in"},
    {"what": "short", "name": "alcove/top", "length": "20 in", "width": "9.5 in"},
    {"what": "offcut", "material": "oak ply 18", "length": "60 in", "width": "20 in"},
    {"what": "fixed", "name": "alcove/shelf-2", "mark": "24 in"},
    {"what": "spoiled", "name": "alcove/bottom"},
    {"what": "cut", "name": "alcove/lip-1"},
    {"what": "offcut", "material": "bead", "length": "60 in"},
    {"what": "cut", "name": "alcove/side-right"},
]
"""Of everything one: what serves as it is, is cut down, is stock, is held, is gone."""


def with_rows(job: Job, *rows: dict[str, Any]) -> Job:
    """Return the job with what is there."""
    return load({**job.model_dump(by_alias=True), "have": list(rows)})


def lipped_job() -> Job:
    """A job of one case with lips."""
    return client_job(1, case=LIPS["case"], moulding=LIPS["moulding"])


@cache
def good_have() -> Plan:
    """A plan around all of ROWS."""
    return plan_job(with_rows(lipped_job(), *ROWS), WORK)
