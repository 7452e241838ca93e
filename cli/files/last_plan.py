"""The last plan of a job: kept beside the job file, and read again to start from."""

from __future__ import annotations

from pathlib import Path

from cli.files.answers import not_a_good_plan, read_plan
from cli.files.output import write_text
from solver.checking.check import check
from solver.errors import InputError
from solver.plan.plan import Option, Plan

ENDING = ".last-plan.json"


def last_path(job: str) -> Path:
    """Where the last plan of a job file is kept: `alcove.toml` has `alcove.last-plan.json`."""
    return Path(job).with_suffix(ENDING)


def keep(job: str, plan: Plan) -> str | None:
    """Keep a plan as the last one of a job file; return why that was not possible, if so.

    A place that cannot be written to does not spoil a plan: it only cannot be started from.
    """
    path = last_path(job)
    try:
        write_text(str(path), plan.to_json(), force=True)
    except InputError as error:
        return f"the plan is not kept as the last one: {error}"
    return None


def read_last(job: str, given: str | None) -> Plan:
    """Read the plan to start from: the one given, or the one kept beside the job file.

    Raises
    ------
    InputError
        Where there is none, or the file is no plan that passes the checker.
    """
    path = given if given is not None else str(last_path(job))
    if given is None and not Path(path).is_file():
        msg = (
            f"there is no last plan of this job ({path}); run casewright plan {job} first, "
            "or name one with --from"
        )
        raise InputError(msg, job)
    plan = read_plan(path)
    findings = check(plan)
    if findings:
        raise InputError(not_a_good_plan(plan, str(findings[0]), job), path)
    return plan


def has_last(job: str) -> bool:
    """Whether a last plan of a job file is kept."""
    return last_path(job).is_file()


def option_of(plan: Plan, name: str | None) -> Option | None:
    """The option of that name; None where no name is given."""
    if name is None:
        return None
    named = {option.name: option for option in plan.options if option.cases}
    if name not in named:
        msg = f"{name!r} is no option of the last plan with a layout; allowed: " + ", ".join(
            map(repr, named)
        )
        raise InputError(msg, "--option")
    return named[name]
