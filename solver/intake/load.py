"""A job of what was written: the one way in, for job files, command lines and answers in JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from solver.carcass.housings import check_housings, with_housings
from solver.intake.check_job import check_job
from solver.intake.place_fill import with_sizes_of_place
from solver.job.assumed import default_sheets, explicit_defaults
from solver.job.defaults import RHYTHM_ON_PINS
from solver.job.gone_keys import without_gone
from solver.job.job import Job
from solver.job.materials import SheetStock
from solver.units import TICKS_PER_MM, Unit, parse_length

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
    data = with_defaults(dict(raw), unit)
    if isinstance(data.get("case"), list) and data.get("doorway"):
        with _faults_at((), raw):
            data = with_sizes_of_place(data, raw.get("case") or raw.get("cases") or (), context)
    job = with_housings(Job.model_validate(data, context=context), _without_depth(raw))
    with _faults_at((), raw):
        check_housings(job)
        check_job(job)
    return job


def _without_depth(raw: Mapping[str, Any]) -> set[int]:
    """The cases, from 0, of which nothing says how deep their dadoes are."""
    cases = raw.get("case") or ()
    return {at for at, case in enumerate(cases) if isinstance(case, dict) and "dado" not in case}


def read_json(model: type[Answer], text: str | bytes) -> Answer:
    """Read what this program wrote as JSON, such as a plan, and check every job in it.

    Raises
    ------
    ValidationError
        Where the text has not the form of the model, or a job in it is none that is accepted.
        Housings that leave too little of an upright are left to the checker: they are a fault of
        a plan of before, which can still be shown.
    """
    data = json.loads(text)
    complete = _completed(data)
    answer = model.model_validate_json(text if complete == data else json.dumps(complete))
    for path in _paths_of_jobs(data, ()):
        job: Any = answer
        for step in path:
            job = job[step] if isinstance(step, int) else getattr(job, step)
        with _faults_at(path, job):
            check_job(job)
    return answer


KEYS_WITH_JOBS = ("plan", "built", "jobs")
"""Keys of answers under which there are jobs: plans, and those of a batch."""


def _completed(data: Any) -> Any:
    """Fill in the defaults of jobs in a file of an earlier version."""
    if isinstance(data, list):
        return [_completed(one) for one in data]
    if not isinstance(data, dict):
        return data
    nested = {key: _completed(data[key]) for key in KEYS_WITH_JOBS if key in data}
    own = {"job": with_defaults(data["job"], "mm")} if isinstance(data.get("job"), dict) else {}
    return {**data, **nested, **own}


def _paths_of_jobs(data: Any, path: tuple[Step, ...]) -> Iterator[tuple[Step, ...]]:
    """Where the jobs are in an answer."""
    if isinstance(data, list):
        for at, one in enumerate(data):
            yield from _paths_of_jobs(one, (*path, at))
    elif isinstance(data, dict):
        if isinstance(data.get("job"), dict):
            yield (*path, "job")
        for key in KEYS_WITH_JOBS:
            yield from _paths_of_jobs(data.get(key), (*path, key))


@contextmanager
def _faults_at(path: tuple[Step, ...], given: object) -> Iterator[None]:
    """Raise a ValueError about a job as a ValidationError at the job's place."""
    try:
        yield
    except ValueError as error:
        raise ValidationError.from_exception_data(
            Job.__name__,
            [{"type": "value_error", "loc": path, "input": given, "ctx": {"error": error}}],
        ) from None


THIN: int = 13 * TICKS_PER_MM
"""Sheets thinner than this are taken for backs where the job does not say [tick]."""


def with_defaults(data: dict[str, Any], numbers: Unit | None) -> dict[str, Any]:
    """Return the raw job with every default of :mod:`solver.job.defaults` filled in.

    Keys are those of the job file. Nothing that the user wrote is changed, but keys that are
    gone are dropped.
    `numbers` is the unit of plain numbers, None where they are ticks.
    """
    data = without_gone(data)
    head = data.get("job")
    if not isinstance(head, dict) or head.get("unit") not in ("in", "mm"):
        return data
    unit: Unit = head["unit"]
    sheets = data.get("sheet") or _with_unit(default_sheets(unit), unit)
    data["job"] = {**explicit_defaults("job", unit), **head}
    if isinstance(data.get("doorway"), list | tuple):
        data["doorway"] = [_table_with_defaults("doorway", one, unit) for one in data["doorway"]]
    if isinstance(data.get("look", {}), dict):
        data["look"] = {**_look_defaults(unit, data.get("case")), **data.get("look", {})}
    if isinstance(data.get("shop", {}), dict):
        data["shop"] = {**explicit_defaults("shop", unit), **data.get("shop", {})}
    for table in ("site", "finish", "price"):
        if isinstance(data.get(table), dict):
            data[table] = {**explicit_defaults(table, unit), **data[table]}
    if isinstance(data.get("case"), list | tuple) and isinstance(sheets, list | tuple):
        sheets = _with_back(list(sheets), data["case"], unit, numbers)
        data["case"] = [_filled_case(case, unit, numbers, sheets) for case in data["case"]]
    data["sheet"] = sheets
    return data


def _look_defaults(unit: Unit, cases: Any) -> dict[str, Any]:
    """The defaults of [look]; the rhythm is another where every case stands on pins."""
    look = explicit_defaults("look", unit)
    fixings = [_fixing(case, unit) for case in cases] if isinstance(cases, list | tuple) else []
    on_pins = bool(fixings) and all(fixing == "pins" for fixing in fixings)
    return {**look, "rhythm": RHYTHM_ON_PINS} if on_pins else look


def _fixing(case: Any, unit: Unit) -> Any:
    usual = explicit_defaults("case", unit)["fixing"]
    return case.get("fixing", usual) if isinstance(case, dict) else usual


def _table_with_defaults(table: str, one: Any, unit: Unit) -> Any:
    return {**explicit_defaults(table, unit), **one} if isinstance(one, dict) else one


def _with_unit(sheets: list[dict[str, Any]], unit: Unit) -> list[dict[str, Any]]:
    return [
        {
            key: f"{value} {unit}" if key in ("length", "width", "thickness") else value
            for key, value in sheet.items()
        }
        for sheet in sheets
    ]


def _thickness(sheet: Any, unit: Unit, numbers: Unit | None) -> int:
    """Thickness of a sheet as far as it can be read [tick]; 0 where it cannot."""
    if isinstance(sheet, SheetStock):
        return sheet.thickness
    value = sheet.get("thickness")
    if isinstance(value, dict):
        value = value.get("most")
    if isinstance(value, int) and numbers is None:
        return value
    try:
        return parse_length(str(value), unit if isinstance(value, str) else numbers or unit)
    except ValueError:
        return 0


def _material(sheet: Any) -> Any:
    return sheet.get("material") if isinstance(sheet, dict) else sheet.material


def _with_back(sheets: list[Any], cases: Any, unit: Unit, numbers: Unit | None) -> list[Any]:
    """Add the default back sheet where a case leaves its back open and no thin sheet is listed."""
    wanted = any(isinstance(case, dict) and "back" not in case for case in cases)
    if wanted and not any(0 < _thickness(sheet, unit, numbers) < THIN for sheet in sheets):
        return [*sheets, _with_unit(default_sheets(unit), unit)[1]]
    return sheets


def _filled_case(case: Any, unit: Unit, numbers: Unit | None, sheets: list[Any]) -> Any:
    if not isinstance(case, dict):
        return case
    thick = [s for s in sheets if _thickness(s, unit, numbers) >= THIN] or sheets
    thin = [s for s in sheets if 0 < _thickness(s, unit, numbers) < THIN]
    chosen = {"material": _material(thick[0]), "back": _material(thin[0]) if thin else "none"}
    complete = {**explicit_defaults("case", unit), **chosen, **case}
    for table in ("trim", "light"):
        if isinstance(case.get(table), dict):
            complete[table] = {**explicit_defaults(f"case.{table}", unit), **case[table]}
    return complete
