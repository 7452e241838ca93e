"""What a command works out of a plan, as a JSON file."""

from __future__ import annotations

import json
from collections.abc import Mapping

from cli.output import write_text
from solver.plan import Plan


def write_answer(
    path: str, kind: str, plan: Plan, data: Mapping[str, object], *, force: bool
) -> None:
    """Write `data` under its schema's name, the plan's unit and the hash of its job.

    `path` is a file, or ``-`` for standard output; InputError where it cannot be written.
    """
    head = {"schema": f"casewright/{kind}/1", "unit": plan.unit, "job_hash": plan.job_hash}
    text = json.dumps({**head, **data}, ensure_ascii=False, indent=1)
    write_text(path, text + "\n", force=force)
