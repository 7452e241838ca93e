"""From the command line to planning again: which plan is started from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from cli.console import progress
from cli.deliver import make_plan
from cli.faults import job_kept
from cli.interrupt import run_stoppable
from cli.last_plan import has_last, option_of, read_last
from solver.band import as_measured
from solver.errors import InputError
from solver.job import Job
from solver.outcome import Limits
from solver.plan import Plan
from solver.planning.again import plan_again
from solver.planning.compare import comparison
from solver.planning.remark import remark
from solver.units import Ticks

Maker = Callable[[Job, Limits], Plan]


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


def maker(start: Start, *, held: bool, anew: bool) -> Maker | None:
    """Return what plans again from a plan; None where the job is planned from nothing.

    That is so without holds on the command line and without --from, and where holds are
    given but no plan has been kept yet. With `anew` nothing is kept but what is held, and the
    plan is compared with the last one all the same.
    """
    kept = start.job is not None and has_last(start.job)
    if anew:
        if start.given is None and not kept:
            msg = "--anew compares with a plan before; there is none yet, so leave it out"
            raise InputError(msg, start.job)
        return lambda job, limits: from_nothing(job, limits, start)
    if start.given is None and not (held and kept):
        if start.option is not None:
            msg = "--option goes with --from, or with --hold once the job has been planned"
            raise InputError(msg)
        return None
    return lambda job, limits: again(job, limits, start)


def again(job: Job, limits: Limits, start: Start) -> Plan:
    """Plan `job` again from the plan that `start` names."""
    last = read_last(start.job or "", start.given)
    job = as_measured(job, last)
    option = option_of(last, start.option)
    with job_kept(job), progress() as line:
        return run_stoppable(
            lambda: plan_again(job, last, limits, option=option), limits.stopper, line.show
        )


def from_nothing(job: Job, limits: Limits, start: Start) -> Plan:
    """Plan `job` from nothing, and compare the result with the plan that `start` names."""
    last = read_last(start.job or "", start.given)
    old = option_of(last, start.option) or next((o for o in last.options if o.cases), None)
    plan = make_plan(job, limits, near=False)
    new = plan.options[0]
    if old is None or not new.cases:
        return plan
    return plan.model_copy(update={"comparison": comparison(last, old, plan.job, new)})


def remarker(start: Start, thickness: Mapping[str, Ticks]) -> Maker:
    """Return what issues marks and parts again for measured thicknesses [tick], by material."""

    def make(job: Job, limits: Limits) -> Plan:
        last = read_last(start.job or "", start.given)
        option = option_of(last, start.option)
        with job_kept(job), progress() as line:
            return run_stoppable(
                lambda: remark(job, last, thickness, limits, option=option),
                limits.stopper,
                line.show,
            )

    return make
