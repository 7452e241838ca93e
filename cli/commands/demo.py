"""`casewright demo`: a worked job that needs no file."""

from __future__ import annotations

from importlib.resources import as_file, files
from typing import Annotated, Literal

import typer

from cli.commands.hang import show_sheet
from cli.commands.options import (
    Csv,
    Force,
    Json,
    Near,
    Quiet,
    Seed,
    ShowAll,
    ShowFull,
    TimeLimit,
    Xlsx,
)
from cli.commands.swing import hung_cases, show_swing
from cli.files.job_file import read_job
from cli.run.plan_pipeline import PlanOutput, deliver, planner
from cli.screen.console import console
from solver.doorway.swing_answer import swing_of_case
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.strength.hang_sheet import hanging_of

Which = Literal["alcove", "doorway"]

FILES: dict[Which, str] = {"alcove": "clock-alcove.toml", "doorway": "larder-door.toml"}

OF_YOUR_OWN = "For a doorway of your own: casewright survey prints the form to measure it by."


def demo(
    which: Annotated[
        Which,
        typer.Argument(
            metavar="WHICH",
            help="alcove: a built-in case for clocks. doorway: a case hinged in a doorway, with"
            " how it swings and what holds it.",
        ),
    ] = "alcove",
    json: Json = None,
    csv: Csv = None,
    xlsx: Xlsx = None,
    force: Force = False,
    quiet: Quiet = False,
    full: ShowFull = False,
    every: ShowAll = False,
    near: Near = True,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Plan a worked example: an alcove for clocks, or a case hinged in a doorway.

    Example: casewright demo doorway
    """
    with as_file(files("cli") / "demo" / FILES[which]) as path:
        job = read_job(str(path))
    wanted = PlanOutput(
        json=json, csv=csv, xlsx=xlsx, force=force, quiet=quiet, full=full, every=every
    )
    shown = wanted.shows and which == "doorway"
    if shown:
        _show_swing(job)
    limits = Limits(seed=seed, seconds=time_limit)
    plan = deliver(job, limits, wanted, planner(job, limits, near=near))
    if shown:
        _show_hanging(plan)


def _show_swing(job: Job) -> None:
    """Show how the case swings, before anything is planned for it."""
    cases = hung_cases(job, None)
    show_swing(job, cases, {one.name: swing_of_case(job, one) for one in cases}, explain=False)
    console().print()


def _show_hanging(plan: Plan) -> None:
    """Show what holds the recommended option up; cautions and sag stand with the plan."""
    out = console()
    out.print()
    for sheet in hanging_of(plan.job, plan.options[0]).cases:
        show_sheet(out, plan, sheet, explain=False)
    out.print(f"\n{OF_YOUR_OWN}")
