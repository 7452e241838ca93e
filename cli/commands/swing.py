"""`casewright swing`: how a hung case swings, on one screen."""

from __future__ import annotations

from textwrap import fill
from typing import Annotated

import typer
from rich.console import Console

from cli.commands.options import Explain, Force, JobArgument, JsonBeside
from cli.files.output import write_answer
from cli.run.plan_request import read_job_aloud
from cli.screen import swing_tables as tables
from cli.screen.console import console
from cli.screen.swing_tables import as_data, pictures
from solver.doorway.swing_answer import laid_out, swing_of_case
from solver.doorway.swing_formulas import explained
from solver.doorway.swing_of_job import doorway_of
from solver.errors import CannotBeDoneError, InputError
from solver.job.case import Case
from solver.job.hinge_side import hinge_side
from solver.job.job import Job
from solver.plan.swinging import Swinging


def swing(
    job: JobArgument,
    case: Annotated[
        str | None, typer.Option("--case", metavar="NAME", help="Only the hung case of this name.")
    ] = None,
    explain: Explain = False,
    json: JsonBeside = None,
    force: Force = False,
) -> None:
    """Show whether a hung case swings: gaps, tightest angle, passage, ways out, and a picture.

    Exit code 1 where a case does not swing.

    Example: casewright swing pantry.toml --explain
    """
    read = read_job_aloud(job)
    chosen = hung_cases(read, case)
    answers = {one.name: swing_of_case(read, one) for one in chosen}
    if json is not None:
        _write(json, read, answers, force=force)
    if json != "-":
        show_swing(read, chosen, answers, explain=explain)
    stuck = [name for name, answer in answers.items() if not answer.swings]
    if stuck:
        msg = f"does not swing as it is: {', '.join(stuck)}; the ways out are listed above"
        raise CannotBeDoneError(msg)


def hung_cases(job: Job, name: str | None) -> list[Case]:
    """Return the hung cases of a job, or the one named; InputError where there is none."""
    hung = [one for one in job.cases if one.kind == "hung"]
    known = ", ".join(repr(one.name) for one in hung) or "none"
    if name is not None and name not in {one.name for one in hung}:
        msg = f"--case {name!r} is no hung case of this job; hung cases: {known}"
        raise InputError(msg)
    if not hung:
        msg = 'no case of this job is hung; only kind = "hung" swings'
        raise InputError(msg)
    return [one for one in hung if name in (None, one.name)]


def _write(path: str, job: Job, answers: dict[str, Swinging], *, force: bool) -> None:

    cases = [
        as_data(one, answer, explained(laid_out(job, one), answer, job.unit))
        for one in job.cases
        if (answer := answers.get(one.name)) is not None
    ]
    write_answer(path, "swing", job.unit, {"cases": cases}, force=force)


def show_swing(job: Job, cases: list[Case], answers: dict[str, Swinging], *, explain: bool) -> None:
    """Print how each of the cases swings, by its answer."""
    out = console()
    for at, one in enumerate(cases):
        if at:
            out.print()
        _show_case(out, job, one, answers[one.name], explain=explain)


def _show_case(out: Console, job: Job, case: Case, answer: Swinging, *, explain: bool) -> None:
    from solver.doorway.swing_answer import laid_out

    door, plan = doorway_of(job, case), laid_out(job, case)
    side = hinge_side(job, door, case)
    out.print(tables.headline(case, door, answer, side))
    out.print()
    out.print(tables.figures_table(plan, answer, job.unit))
    if answer.trim:
        out.print()
        out.print(tables.trim_table(answer, job.unit))
    plain = not out.encoding.lower().startswith("utf")
    mirrored = side == "right"
    out.print()
    for line in pictures(plan, door.opens_to, out.width, mirrored=mirrored, plain=plain):
        out.print(line, soft_wrap=True)
    _lines(out, "Ways out, each by itself", tables.ways_lines(answer))
    _lines(out, "Notes", list(answer.notes))
    if explain:
        figures = explained(plan, answer, job.unit)
        _lines(out, "Where the figures come from", tables.explained_lines(figures), bullet="")


def _lines(out: Console, title: str, lines: list[str], bullet: str = "- ") -> None:
    if lines:
        out.print(f"\n{title}")
    for line in lines:
        out.print(fill(line, out.width, initial_indent=bullet, subsequent_indent="    "))
