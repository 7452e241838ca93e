"""A job file to a Job: every fault of it at once, each with its line."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pydantic import ValidationError

from cli.toml_text import parse_toml
from solver.errors import InputError
from solver.job import Job


def read_job(path: str) -> Job:
    """Read a job file."""
    raw: dict[str, Any] = parse_toml(Path(path).read_text("utf-8"), path)
    unit = raw.get("job", {}).get("unit")
    if unit not in ("in", "mm"):
        msg = 'the unit is missing; write unit = "in" or unit = "mm" under [job]'
        raise InputError(msg, path)
    try:
        return Job.model_validate(raw, context={"unit": unit})
    except ValidationError as error:
        raise InputError(str(error), path) from None
