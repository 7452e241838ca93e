"""The survey of a place: a blank page to fill in by hand, and what was measured read back.

A survey is a TOML file with [job] unit and [[doorway]] tables, or a whole job. The blank page
follows the order of the work on site.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import Field, ValidationError

from cli.files.job_file import read_job
from cli.files.job_key_errors import Fault, control_faults, key_faults, shape_faults
from cli.files.job_value_errors import as_error, faults_of
from cli.files.reading import read_bytes
from cli.files.toml_text import line_numbers, parse_toml
from cli.screen.wording import UNIT_NAMES
from solver.doorway.old_door import DUTIES
from solver.errors import InputError, ManyInputsError
from solver.job.assumed import explicit_defaults
from solver.job.doorway import Doorway
from solver.job.job import Job
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
        return Survey(job.unit, _not_empty(job.doorways, path), job)
    return _survey_of(raw, path, text)


def _not_empty(doorways: tuple[Doorway, ...], path: str) -> tuple[Doorway, ...]:
    if not doorways:
        msg = "there is no [[doorway]] in it; add one with widths and heights"
        raise InputError(msg, path)
    return doorways


def _survey_of(raw: dict[str, Any], path: str, text: str) -> Survey:
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
        _not_empty((), path)
    filled = [{**explicit_defaults("doorway", unit), **one} for one in raw["doorway"]]
    faults = [*key_faults(raw), *control_faults(raw)]
    try:
        read = _Doorways.model_validate({"doorway": filled}, context={"unit": unit})
    except ValidationError as error:
        refuse([*faults, *faults_of(error, raw)])
        raise
    refuse(faults)
    return Survey(unit, read.doorways)


WIDTH, LINES_MOST = 80, 60
"""Columns and lines that a sheet of A4 and of Letter both take at ten to the inch [-]."""


def blank_form(unit: Unit) -> str:
    """Return the text of the form; `unit` is that of every length [-]."""
    lines = [
        f"SURVEY OF A DOORWAY OR ALCOVE   lengths in {UNIT_NAMES[unit]}; write every one down",
        _line("Client", "Place", "Date", "By"),
        "",
        _line("Widths    top", "middle", "bottom"),
        _line("Heights   left", "right", "centre"),
        _line("Diagonals bottom left to top right", "bottom right to top left"),
        _line("Jamb depth", "Stop, in from the jamb", "comes off?"),
        _line("Ceiling, lowest", "Wall by hinge", "by latch"),
        "",
        "Plumb: how far the top leans, over what length (level or bob)",
        _line("Hinge jamb  into / away from opening", "to room / back", "over"),
        _line("Latch jamb  into / away from opening", "to room / back", "over"),
        "",
        _line("Hinge side  left / right, seen from the room", "swings  out / in"),
        _line("Old mortises, head down to top of each  1", "2", "3"),
        _line("Leaf height", "width", "corner radius", "backset"),
        "",
        _line("Floor covering here", "in the swing"),
        _line("Pile and pad", "highest point in the whole swing"),
        "",
        "Casing and trim        width     thickness     reveal or cover",
        _line("  hinge side, room", "", ""),
        _line("  latch side, room", "", ""),
        _line("  behind", "", ""),
        "",
        "In the swing: heater, light, switch, rug, door, furniture",
        "  what            from hinge jamb   out from wall   width   depth   bottom   top",
        *("  " + "_" * (WIDTH - 2) for _ in range(3)),
        _line("Room in front, to what is opposite", "room behind"),
        _line("What is behind it"),
        _line("Year of the house", "Old paint tested?"),
        "",
        "The old door                                                  yes / no / unknown",
        *(f"  {duty.question} ".ljust(WIDTH - 10, ".") + "_" * 10 for duty in DUTIES),
        _line("  Way out or fire door: cleared by"),
        "",
        "Way in: doors, lifts, stairs    clear width   height   before a turn   after it",
        *("  " + "_" * (WIDTH - 2) for _ in range(2)),
        _line("Photos: front, hinge jamb, latch jamb, floor, behind", "Notes"),
    ]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _line(*labels: str) -> str:
    """Labels with blanks behind them that fill the width evenly."""
    blank = max(6, (WIDTH - sum(len(label) + 3 for label in labels) + 2) // len(labels))
    return "  ".join(f"{label} {'_' * blank}" for label in labels)[:WIDTH]
