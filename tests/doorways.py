"""Doorways and hung jobs for tests of the survey, the sizes and the swing."""

from __future__ import annotations

from typing import Any

from solver.intake.load import load
from solver.job.assumed import explicit_defaults
from solver.job.doorway import Doorway
from solver.job.job import Job
from solver.units import Unit

OPENING = {"name": "pantry", "widths": ["28-1/4"], "heights": ["80"]}
"""A doorway in inches of which only the least is known."""


def doorway(unit: Unit = "in", **measures: Any) -> Doorway:
    """A doorway with the defaults of a job in that unit."""
    data = {**explicit_defaults("doorway", unit), **OPENING, **measures}
    return Doorway.model_validate(data, context={"unit": unit})


def placed_job(case: dict[str, Any], unit: Unit = "in", **measures: Any) -> Job:
    """A job of one case, or of several under `cases`, in one doorway."""
    cases = case.pop("cases", None) or [case]
    usual = {"name": "door case", "kind": "hung", "doorway": "pantry", "shelves": 5}
    data = {
        "job": {"unit": unit},
        "doorway": [{**OPENING, **measures}],
        "case": [{**usual, **one} for one in cases],
        "item": [{"name": "jug", "width": "4 in", "height": "6 in", "depth": "4 in"}],
    }
    return load(data, unit)
