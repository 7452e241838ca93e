"""From the command line to planning again: which plan is started from, and how."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from cli.deliver import Planner, planner
from cli.last_plan import has_last, option_of, read_last
from cli.pipeline import Tell
from solver.errors import InputError
from solver.job import Job
from solver.outcome import Limits
from solver.plan import Option, Plan
from solver.thickness import as_measured
from solver.units import Ticks


@dataclass(frozen=True)
class Start:
    """What is started from, as given on the command line.

    Attributes
    ----------
    job
        The job file; None for a list of things.
    given
        The plan named by --from.
    option
        The name of its option.
    """

    job: str | None
    given: str | None
    option: str | None

    def read(self) -> tuple[Plan, Option | None]:
        """Read the plan that is started from, and its option where one is named."""
        last = read_last(self.job or "", self.given)
        return last, option_of(last, self.option)


def starts(start: Start, *, held: bool, anew: bool) -> bool:
    """Whether a plan is started from; if not, the job is planned from nothing.

    That is so without holds on the command line and without --from, and where holds are
    given but no plan has been kept yet. With `anew` there must be a plan to compare with.
    """
    kept = start.job is not None and has_last(start.job)
    if anew and start.given is None and not kept:
        msg = "--anew compares with a plan before; there is none yet, so leave it out"
        raise InputError(msg, start.job)
    if anew or start.given is not None or (held and kept):
        return True
    if start.option is not None:
        msg = "--option goes with --from, or with --hold once the job has been planned"
        raise InputError(msg)
    return False


def planner_again(job: Job, limits: Limits, start: Start) -> Planner:
    """Return what plans `job` again from the plan that `start` names."""
    from solver.planning.again import plan_again  # CP-SAT is loaded where something is planned

    last, option = start.read()
    measured = as_measured(job, last)
    return lambda _tell: plan_again(measured, last, limits, option=option)


def planner_anew(job: Job, limits: Limits, start: Start) -> Planner:
    """Return what plans `job` from nothing, and compares the result with a plan before.

    Nothing is kept of that plan but what is held.
    """
    from solver.planning.compare import comparison  # CP-SAT is loaded where something is planned

    last, named = start.read()
    old = named or next((option for option in last.options if option.cases), None)
    make = planner(job, limits, near=False)

    def compared(tell: Tell) -> Plan:
        plan = make(tell)
        new = plan.options[0]
        if old is None or not new.cases:
            return plan
        return plan.model_copy(update={"comparison": comparison(last, old, plan.job, new)})

    return compared


def planner_measured(
    job: Job, limits: Limits, start: Start, thickness: Mapping[str, Ticks]
) -> Planner:
    """Return what issues marks and parts again for measured thicknesses [tick], by material."""
    from solver.planning.remeasured import (
        remeasured_plan,  # CP-SAT is loaded where something is planned
    )

    last, option = start.read()
    return lambda _tell: remeasured_plan(job, last, thickness, limits, option=option)
