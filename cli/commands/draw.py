"""`casewright draw`: drawings of a plan as files."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.drawings.deliver import FORMATS, write_drawings
from cli.drawings.kinds import KINDS, Subject, scenes
from cli.drawings.pages import Sheets
from cli.drawings.pictures import read_pictures
from cli.drawings.scales import PAPERS, usual_paper
from cli.options import Force, JobOrPlan, MakeOption, OutputFolder, TimeLimit
from cli.output import folder_of
from cli.plan_of import option_named, plan_of
from solver.errors import InputError
from solver.plan import Option

KIND_WORDS = "front, section, swing, marking, trim, sheets"
FORMAT_WORDS = "svg, pdf, png, dxf"
PAPER_WORDS = "a4, a3, a2, letter, tabloid"


def draw(
    job: JobOrPlan,
    output: OutputFolder = None,
    kind: Annotated[
        str | None,
        typer.Option("--kind", metavar="KINDS", help=f"Which, by commas: {KIND_WORDS}. All."),
    ] = None,
    formats: Annotated[
        str,
        typer.Option("--format", metavar="FORMATS", help=f"By commas: {FORMAT_WORDS}."),
    ] = "svg,pdf,png,dxf",
    paper: Annotated[
        str | None,
        typer.Option(
            "--paper", metavar="NAME", help=f"One of {PAPER_WORDS}; a4 or letter by the job's unit."
        ),
    ] = None,
    option: MakeOption = None,
    force: Force = False,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Draw a plan: SVG, PDF at true scale, PNG, and DXF full size in millimetres.

    Every drawing states its scale, the largest standard one that the paper takes.

    Example: casewright draw pantry.toml -o drawings --kind front --format pdf
    """
    kinds = _words("--kind", kind, tuple(KINDS))
    endings = _words("--format", formats, FORMATS)
    if paper is not None:
        _words("--paper", paper, tuple(PAPERS))
    plan = plan_of(job, time_limit)
    chosen = option_named(plan, option)
    on = (paper or usual_paper(plan.unit)).lower()
    found = scenes(Subject(plan, chosen, on, read_pictures(plan.job, job)), kinds)
    if not found:
        msg = f"there is nothing to draw of these kinds: {', '.join(kinds)}"
        raise InputError(msg, "--kind")
    sheets = Sheets(plan.job.head.title, _about(chosen), plan.unit, on)
    for path in write_drawings(found, sheets, endings, output or folder_of(job), force=force):
        typer.echo(path)


def _about(option: Option) -> str:
    """Return which option is drawn, and what it leaves out: no drawing may hide that."""
    left = [f"{one.count} x {one.item}" for one in option.left_out]
    return "; ".join([option.name, *([f"left out: {', '.join(left)}"] if left else [])])


def _words(name: str, given: str | None, allowed: tuple[str, ...]) -> tuple[str, ...]:
    """Return the words between commas, all where none are given; InputError for any other."""
    if given is None:
        return allowed
    words = tuple(word.strip().lower() for word in given.split(",") if word.strip())
    wrong = [word for word in words if word not in allowed]
    if wrong or not words:
        msg = f"{', '.join(wrong) or given!r} is not known; allowed: {', '.join(allowed)}"
        raise InputError(msg, name)
    return words
