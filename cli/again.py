"""From the command line to planning again: which plan is started from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cli.console import progress
from cli.faults import job_kept
from cli.interrupt import run_stoppable
from cli.last_plan import has_last, option_of, read_last
from solver.errors import InputError

if TYPE_CHECKING:
    from solver.job import Job
    from solver.outcome import Limits
    from solver.plan import Plan
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


def maker(start: Start, *, held: bool) -> Maker | None:
    """Return what plans again from a plan; None where the job is planned from nothing.

    That is so without holds on the command line and without --from, and where holds are
    given but no plan has been kept yet.
    """
    kept = start.job is not None and has_last(start.job)
    if start.given is None and not (held and kept):
        if start.option is not None:
            msg = "--option goes with --from, or with --hold once the job has been planned"
            raise InputError(msg)
        return None
    return lambda job, limits: again(job, limits, start)


def again(job: Job, limits: Limits, start: Start) -> Plan:
    """Plan `job` again from the plan that `start` names."""
    from solver.band import as_measured
    from solver.planning.again import plan_again

    last = read_last(start.job or "", start.given)
    job = as_measured(job, last)
    option = option_of(last, start.option)
    with job_kept(job), progress() as line:
        return run_stoppable(
            lambda: plan_again(job, last, limits, option=option), limits.stopper, line.show
        )


def remarker(start: Start, thickness: Mapping[str, Ticks]) -> Maker:
    """Return what issues marks and parts again for measured thicknesses [tick], by material."""

    def make(job: Job, limits: Limits) -> Plan:
        from solver.planning.remark import remark

        last = read_last(start.job or "", start.given)
        option = option_of(last, start.option)
        with job_kept(job), progress() as line:
            return run_stoppable(
                lambda: remark(job, last, thickness, limits, option=option),
                limits.stopper,
                line.show,
            )

    return make
