"""From a job to what the user gets: planned, checked, shown, written."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import typer

from cli.console import console, progress
from cli.export import check_csv, write_csv, write_xlsx
from cli.faults import FaultError, job_kept, refused_text
from cli.interrupt import INTERRUPTED, run_stoppable
from cli.last_plan import keep
from cli.output import STDOUT, check_target, reader_may_stop, write_text
from cli.show import print_plan, remarks
from solver.checking.check import check
from solver.errors import CannotBeDoneError, InputError, InterruptedPlanError
from solver.job import Job
from solver.outcome import Limits, Status
from solver.plan import Option, Plan
from solver.planning.plan import plan_job


@dataclass(frozen=True)
class Wanted:
    """What the user wants to get.

    Attributes
    ----------
    json, csv, xlsx
        Files and folder to write, None: not wanted; ``-`` is standard output.
    force
        Whether existing files may be replaced.
    quiet
        Print nothing but errors.
    every
        Show the details of every option.
    kept_for
        Job file beside which the plan is kept as its last one; None: it is not kept.
    near
        Look for near misses.
    """

    json: str | None = None
    csv: str | None = None
    xlsx: str | None = None
    force: bool = False
    quiet: bool = False
    every: bool = False
    kept_for: str | None = None
    near: bool = True

    def check(self) -> None:
        """Raise InputError where a file could not be written, before the long work."""
        for path in (self.json, self.xlsx):
            if path is not None:
                check_target(path, force=self.force)
        if self.xlsx == STDOUT:
            msg = "--xlsx: a workbook cannot go to standard output; give the name of a file"
            raise InputError(msg)
        if self.csv is not None:
            check_csv(self.csv, force=self.force)

    @property
    def shows(self) -> bool:
        """Whether tables are printed: not where standard output is for the JSON alone."""
        return not self.quiet and self.json != STDOUT


def deliver(
    job: Job, limits: Limits, wanted: Wanted, make: Callable[[Job, Limits], Plan] | None = None
) -> Plan:
    """Plan `job`, check the plan, show it and write the files; raise where it did not work out.

    `make` makes the plan; left out, the job is planned from nothing.
    """
    wanted.check()
    plan = make(job, limits) if make else make_plan(job, limits, near=wanted.near)
    refuse_if_wrong(plan)
    works = any(is_working(option) for option in plan.options)
    if limits.stopper.stopped and not any(option.cases for option in plan.options):
        msg = "stopped before any plan was found; nothing is written"
        raise InterruptedPlanError(msg)
    if wanted.shows:
        show(plan, every=wanted.every)
    write_files(plan, wanted)
    if limits.stopper.stopped:
        typer.echo("casewright: stopped; this is the best plan so far", err=True)
        raise typer.Exit(INTERRUPTED)
    if not works:
        raise CannotBeDoneError(what_would_do(plan))
    if wanted.kept_for is not None:
        keep_last(plan, wanted.kept_for, quiet=wanted.quiet)
    return plan


def keep_last(plan: Plan, job: str, *, quiet: bool) -> None:
    """Keep a plan that works as the last one of a job file; say so where that is not possible."""
    trouble = keep(job, plan)
    if trouble and not quiet:
        typer.echo(f"casewright: {trouble}", err=True)


def is_working(option: Option) -> bool:
    """Whether everything fits in this option."""
    return option.fits_all and option.status in (Status.OPTIMAL, Status.FEASIBLE)


def make_plan(job: Job, limits: Limits, *, near: bool = True) -> Plan:
    """Run the planner where Ctrl-C can stop it, with its progress shown on a terminal."""
    with job_kept(job), progress() as line:
        return run_stoppable(
            lambda: plan_job(job, limits, line.tell, near=near), limits.stopper, line.show
        )


def refuse_if_wrong(plan: Plan) -> None:
    """Raise FaultError, with the job kept, where the checker finds anything at all."""
    with job_kept(plan.job):
        findings = check(plan)
    if findings:
        raise FaultError(refused_text(plan.job, [finding.text for finding in findings]))


def show(plan: Plan, *, every: bool) -> None:
    """Print the tables and pictures; a reader that stops reading does not stop the files."""
    with reader_may_stop():
        print_plan(console(), plan, every=every)


def write_files(plan: Plan, wanted: Wanted) -> None:
    """Write the files that are wanted."""
    if wanted.json is not None:
        write_text(wanted.json, plan.to_json(), force=wanted.force)
    if wanted.csv is not None:
        write_csv(plan, wanted.csv, force=wanted.force)
    if wanted.xlsx is not None:
        write_xlsx(plan, wanted.xlsx, force=wanted.force)


TOLD_MOST = 3
"""Options, the most promising first, of which it is told as an error why they do not work [-]."""


def what_would_do(plan: Plan) -> str:
    """Return why no option works, and what would make it possible, each on a line."""
    found = remarks(plan.options)
    said = ["\n  ".join((f"{names}: {lines[0]}", *lines[1:])) for names, lines in found if lines]
    if len(said) > TOLD_MOST:
        said = [*said[:TOLD_MOST], f"and {len(said) - TOLD_MOST} more, in the plan"]
    if all(option.status is Status.UNKNOWN for option in plan.options):
        return "\n".join(said)
    return "\n".join(["it cannot be done as asked", *said])
