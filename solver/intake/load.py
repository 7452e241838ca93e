"""A job of what was written: the one way in, for job files, command lines and answers in JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from solver.intake.check_job import check
from solver.intake.filling import filled
from solver.intake.place_fill import placed
from solver.job.job import Job
from solver.units import Unit

Step = str | int
Answer = TypeVar("Answer", bound=BaseModel)


def load(raw: Mapping[str, Any], unit: Unit | None = None) -> Job:
    """Read a job: defaults filled in, sizes that are left to the place worked out, all checked.

    Parameters
    ----------
    raw
        The tables of a job file, or a job dumped to be changed.
    unit
        The unit of plain numbers; left out, they are ticks.

    Returns
    -------
    Job
        The job, complete.

    Raises
    ------
    ValidationError
        With everything that is wrong with single tables; else with the first thing that does
        not go together.
    """
    context = {"unit": unit}
    data = filled(dict(raw), unit)
    if isinstance(data.get("case"), list) and data.get("doorway"):
        with _faults_at((), raw):
            data = placed(data, raw.get("case") or raw.get("cases") or (), context)
    job = Job.model_validate(data, context=context)
    with _faults_at((), raw):
        check(job)
    return job


def read_json(model: type[Answer], text: str | bytes) -> Answer:
    """Read what this program wrote as JSON, such as a plan, and check every job in it.

    Raises
    ------
    ValidationError
        Where the text has not the form of the model, or a job in it is none that is accepted.
    """
    data = json.loads(text)
    complete = _with_defaults(data)
    answer = model.model_validate_json(text if complete == data else json.dumps(complete))
    for path in _jobs(data, ()):
        job: Any = answer
        for step in path:
            job = job[step] if isinstance(step, int) else getattr(job, step)
        with _faults_at(path, job):
            check(job)
    return answer


HOLD_JOBS = ("plan", "built", "jobs")
"""Keys of answers under which there are jobs: plans, and those of a batch."""


def _with_defaults(data: Any) -> Any:
    """Fill in what a file of an earlier version does not say of its jobs."""
    if isinstance(data, list):
        return [_with_defaults(one) for one in data]
    if not isinstance(data, dict):
        return data
    nested = {key: _with_defaults(data[key]) for key in HOLD_JOBS if key in data}
    own = {"job": filled(data["job"], "mm")} if isinstance(data.get("job"), dict) else {}
    return {**data, **nested, **own}


def _jobs(data: Any, path: tuple[Step, ...]) -> Iterator[tuple[Step, ...]]:
    """Where the jobs are in an answer."""
    if isinstance(data, list):
        for at, one in enumerate(data):
            yield from _jobs(one, (*path, at))
    elif isinstance(data, dict):
        if isinstance(data.get("job"), dict):
            yield (*path, "job")
        for key in HOLD_JOBS:
            yield from _jobs(data.get(key), (*path, key))


@contextmanager
def _faults_at(path: tuple[Step, ...], given: object) -> Iterator[None]:
    """Raise what is found wrong with a job as a fault of the form, at the job's place."""
    try:
        yield
    except ValueError as error:
        raise ValidationError.from_exception_data(
            Job.__name__,
            [{"type": "value_error", "loc": path, "input": given, "ctx": {"error": error}}],
        ) from None
