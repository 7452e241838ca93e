"""A survey read back: a TOML file with [job] unit and [[doorway]] tables, or a whole job."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import Field, ValidationError

from cli.files import read_bytes
from cli.job_errors import as_error, faults_of
from cli.job_file import read_job
from cli.job_keys import Fault, control_faults, key_faults, shape_faults
from cli.toml_text import line_numbers, parse_toml
from solver.assumed import explicit_defaults
from solver.doorway import Doorway
from solver.errors import InputError, ManyInputsError
from solver.job import Job
from solver.quantities import Model
from solver.units import Unit


class _Doorways(Model):
    """The tables of a survey."""

    doorways: Annotated[tuple[Doorway, ...], Field(min_length=1)] = Field(alias="doorway")


@dataclass(frozen=True)
class Survey:
    """Doorways as measured, and the job that they are part of, where there is one."""

    unit: Unit
    doorways: tuple[Doorway, ...]
    job: Job | None = None


def read_survey(path: str) -> Survey:
    """Read a survey or a job file.

    Parameters
    ----------
    path
        A TOML file. One with cases is read as a job, with all its rules.

    Returns
    -------
    Survey
        The doorways, and the job where the file is one.

    Raises
    ------
    InputError
        Where it cannot be read, with all faults, each with its line.
    """
    try:
        text = read_bytes(path).decode("utf-8-sig")
    except UnicodeDecodeError:
        msg = "a letter is not in UTF-8; save the file as UTF-8"
        raise InputError(msg, path) from None
    raw = parse_toml(text, path)
    if "case" in raw:
        job = read_job(path)
        return Survey(job.unit, _some(job.doorways, path), job)
    return _read(raw, path, text)


def _some(doorways: tuple[Doorway, ...], path: str) -> tuple[Doorway, ...]:
    if not doorways:
        msg = "there is no [[doorway]] in it; add one with widths and heights"
        raise InputError(msg, path)
    return doorways


def _read(raw: dict[str, Any], path: str, text: str) -> Survey:
    lines = line_numbers(text)

    def refuse(faults: list[Fault]) -> None:
        errors = [as_error(fault, raw, path, lines) for fault in faults]
        if errors:
            raise errors[0] if len(errors) == 1 else ManyInputsError(errors)

    refuse(shape_faults(raw))
    unit = raw.get("job", {}).get("unit")
    if unit not in ("in", "mm"):
        refuse([Fault(("job", "unit"), 'write unit = "in" or unit = "mm" under [job]')])
    if not raw.get("doorway"):
        _some((), path)
    filled = [{**explicit_defaults("doorway", unit), **one} for one in raw["doorway"]]
    faults = [*key_faults(raw), *control_faults(raw)]
    try:
        read = _Doorways.model_validate({"doorway": filled}, context={"unit": unit})
    except ValidationError as error:
        refuse([*faults, *faults_of(error, raw)])
        raise
    refuse(faults)
    return Survey(unit, read.doorways)
