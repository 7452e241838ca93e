"""Small jobs for tests: every argument has a default, lengths are texts in the job's unit."""

from __future__ import annotations

from typing import Any

from solver.intake.load import load
from solver.job.job import Job


def make_job(
    *,
    unit: str = "in",
    case: dict[str, Any] | list[dict[str, Any]] | None = None,
    items: list[dict[str, Any]] | None = None,
    **tables: Any,
) -> Job:
    """Build a job; `case` is merged into one plain case of 30 x 60 x 8 in (750 x 1500 x 200 mm)."""
    plain: dict[str, Any] = (
        {"name": "case", "width": "30", "height": "60", "depth": "8", "shelves": 3}
        if unit == "in"
        else {"name": "case", "width": "750", "height": "1500", "depth": "200", "shelves": 3}
    )
    cases = case if isinstance(case, list) else [case or {}]
    size = "4" if unit == "in" else "100"
    thing = {"name": "jug", "width": size, "height": size, "depth": size, "weight": "1 kg"}
    data = {
        "job": {"unit": unit, **tables.pop("job", {})},
        "case": [{**plain, **one} for one in cases],
        "item": items if items is not None else [thing],
        **tables,
    }
    return load(data, "in" if unit == "in" else "mm")
