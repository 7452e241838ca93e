"""A plan through the pipeline: how it is made, checked, shown, written and kept."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import typer

from cli.files.export import check_csv, write_csv, write_xlsx
from cli.files.output import STDOUT, check_targets, write_text
from cli.files.saved_answers import keep_plan
from cli.run import pipeline
from cli.run.pipeline import Steps, Tell
from cli.screen.brief import print_brief
from cli.screen.console import console
from cli.screen.plan_screen import is_plain, option_remarks, print_plan
from solver.checking.check import check
from solver.errors import InputError
from solver.job.job import Job
from solver.outcome import Limits, Status
from solver.plan.plan import Plan

Planner = Callable[[Tell], Plan]
"""Makes a plan, telling how far it is."""


@dataclass(frozen=True)
class PlanOutput:
    """What the user wants to get.

    Attributes
    ----------
    json, csv, xlsx
        Files and folder to write, None: not wanted; ``-`` is standard output.
    force
        Whether existing files may be replaced.
    quiet
        Print nothing but errors.
    full, every
        Show everything of the recommended option, or of every one, not the short answer.
    kept_for
        Job file beside which the plan is kept as its last one; None: it is not kept.
    """

    json: str | None = None
    csv: str | None = None
    xlsx: str | None = None
    force: bool = False
    quiet: bool = False
    full: bool = False
    every: bool = False
    kept_for: str | None = None

    def check(self) -> None:
        """Raise InputError where a file could not be written, before the long work."""
        check_targets(self.json, self.xlsx, force=self.force)
        if self.xlsx == STDOUT:
            msg = "--xlsx: a workbook cannot go to standard output; give the name of a file"
            raise InputError(msg)
        if self.csv is not None:
            check_csv(self.csv, force=self.force)

    @property
    def shows(self) -> bool:
        """Whether tables are printed: not where standard output is for the JSON alone."""
        return not self.quiet and self.json != STDOUT


def deliver(job: Job, limits: Limits, wanted: PlanOutput, make: Planner) -> Plan:
    """Make the plan of `job`, check it, show it, write the files and keep it."""
    wanted.check()
    return pipeline.deliver(job, make, limits, steps(wanted))


def steps(wanted: PlanOutput) -> Steps[Plan]:
    """Return what is done with a plan."""
    return Steps(
        findings=findings,
        show=(lambda plan: _show(plan, wanted)) if wanted.shows else None,
        write=lambda plan: write_files(plan, wanted),
        job_of=lambda plan: plan.job,
        why_not=lambda plan: None if works(plan) else what_would_do(plan),
        is_empty=lambda plan: not any(option.cases for option in plan.options),
        keep=lambda plan: keep_last(plan, wanted.kept_for, quiet=wanted.quiet),
    )


def _show(plan: Plan, wanted: PlanOutput) -> None:
    out = console()
    if wanted.full or wanted.every:
        print_plan(out, plan, every=wanted.every)
    else:
        print_brief(out, plan, plain=is_plain(out))


def planner(job: Job, limits: Limits, *, near: bool) -> Planner:
    """Return what plans a job from nothing, with near misses looked for or not."""
    from solver.planning.plan_job import plan_job

    return lambda tell: plan_job(job, limits, tell, near=near)


def checked_plan(job: Job, limits: Limits) -> Plan:
    """Plan a job from nothing, without near misses, for a command that shows a part of it."""
    plan = pipeline.run_decision(job, planner(job, limits, near=False), limits)
    pipeline.refuse_if_wrong(plan.job, lambda: findings(plan))
    return plan


def findings(plan: Plan) -> list[str]:
    """Return what the checker finds in a plan."""
    return [finding.text for finding in check(plan)]


def keep_last(plan: Plan, job: str | None, *, quiet: bool) -> None:
    """Keep a plan as the last one of a job file, if any; say so where that is not possible."""
    trouble = None if job is None else keep_plan(job, plan)
    if trouble and not quiet:
        typer.echo(f"casewright: {trouble}", err=True)


def works(plan: Plan) -> bool:
    """Whether everything fits in one of the options."""
    good = (Status.OPTIMAL, Status.FEASIBLE)
    return any(option.fits_all and option.status in good for option in plan.options)


def write_files(plan: Plan, wanted: PlanOutput) -> None:
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
    by_names = option_remarks(plan.options)
    texts = [
        "\n  ".join((f"{names}: {lines[0]}", *lines[1:])) for names, lines in by_names if lines
    ]
    if len(texts) > TOLD_MOST:
        texts = [*texts[:TOLD_MOST], f"and {len(texts) - TOLD_MOST} more, in the plan"]
    if all(option.status is Status.UNKNOWN for option in plan.options):
        return "\n".join(texts)
    return "\n".join(["it cannot be done as asked", *texts])
