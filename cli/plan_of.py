"""The plan that a command shows or writes papers of: a saved one, the last one, or a new one."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from solver.job import Job
    from solver.plan import Option, Plan


def plan_of(path: str, seconds: float) -> Plan:
    """Read a plan (.json), or the job's last one where it is of this job; else plan the job.

    What only [price] says differently needs no new plan: nothing in it follows from that.

    Parameters
    ----------
    path
        A job file, or a plan as written by ``casewright plan --json``.
    seconds
        Limit of the planning, where that is needed [s].

    Raises
    ------
    InputError
        Where the file is neither, or the plan does not pass the checker.
    """
    from cli.answers import read_plan
    from cli.deliver import make_plan, refuse_if_wrong
    from cli.job_file import read_job
    from cli.last_plan import has_last, read_last
    from solver.outcome import Limits

    if path.endswith(".json"):
        given = read_plan(path)
        refuse_if_wrong(given)
        return given
    job = read_job(path)
    if has_last(path):
        last = read_last(path, None)
        if _but_price(last.job) == _but_price(job):
            return last.model_copy(update={"job": job, "job_hash": job.hash})
    made = make_plan(job, Limits(seconds=seconds), near=False)
    refuse_if_wrong(made)
    return made


def _but_price(job: Job) -> str:
    return job.model_copy(update={"price": None}).hash


def option_named(plan: Plan, name: str | None) -> Option:
    """Return the option of that name, left out the first with a layout.

    Raises InputError where there is no such option, CannotBeDoneError where there is no layout
    at all.
    """
    from solver.errors import CannotBeDoneError, InputError

    named = {option.name: option for option in plan.options if option.cases}
    if not named:
        msg = "there is no layout of this job; casewright plan says why and what would do"
        raise CannotBeDoneError(msg)
    if name is None:
        return next(iter(named.values()))
    if name not in named:
        msg = f"{name!r} is no option with a layout; allowed: {', '.join(map(repr, named))}"
        raise InputError(msg, "--option")
    return named[name]
