"""`casewright draw`: drawings of a plan as files."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated

import typer

from cli.commands.options import Force, JobOrPlan, MakeOption, OutputFolder, TimeLimit
from cli.drawings.drawing_kinds import FORMATS, KINDS, Subject, drawing_files, scenes
from cli.drawings.pages import PAPERS, Sheets, usual_paper
from cli.drawings.pictures import read_pictures
from cli.drawings.stick import long_pdf, sticks, tiled_pdf
from cli.files.output import folder_of, write_all
from cli.run.plan_of import OptionRequest
from solver.errors import InputError
from solver.plan.plan import Option, Plan

KIND_WORDS = "front, section, swing, marking, trim, sheets, stick"
STICK = "stick"
STICK_PAPERS = ("a4", "letter")
FORMAT_WORDS = "svg, pdf, png, dxf"
PAPER_WORDS = "a4, a3, a2, letter, tabloid"


def draw(
    job: JobOrPlan,
    output: OutputFolder = None,
    kind: Annotated[
        str | None,
        typer.Option(
            "--kind",
            metavar="KINDS",
            help=f"Which, by commas: {KIND_WORDS}. Left out: all"
            " but the stick, the story stick (rod) of each side at full size with every mark on it,"
            " as one long page of a PDF and as pieces to join.",
        ),
    ] = None,
    formats: Annotated[
        str,
        typer.Option("--format", metavar="FORMATS", help=f"By commas: {FORMAT_WORDS}."),
    ] = "svg,pdf,png,dxf",
    paper: Annotated[
        str | None,
        typer.Option(
            "--paper",
            metavar="NAME",
            help=f"One of {PAPER_WORDS}; a4 or letter by the job's unit. Pieces of a"
            " stick go on a4 or letter only.",
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
    kinds = tuple(KINDS) if kind is None else _words("--kind", kind, (*KINDS, STICK))
    endings = _words("--format", formats, tuple(FORMATS))
    if paper is not None:
        _words("--paper", paper, tuple(PAPERS) if STICK not in kinds else STICK_PAPERS)
    if STICK in kinds and "pdf" not in endings:
        msg = "a story stick is a PDF; leave --format out, or name pdf in it"
        raise InputError(msg, "--format")
    plan, chosen = OptionRequest(job, option, time_limit).read()
    on = (paper or usual_paper(plan.unit)).lower()
    drawn = scenes(Subject(plan, chosen, on, read_pictures(plan.job, job)), kinds)
    if not drawn and STICK not in kinds:
        msg = f"there is nothing to draw of these kinds: {', '.join(kinds)}"
        raise InputError(msg, "--kind")
    sheets = Sheets(plan.job.head.title, _about(chosen), plan.unit, on)
    files = drawing_files(drawn, sheets, endings)
    if STICK in kinds:
        files |= _stick_files(plan, chosen, on)
    for path in write_all(output or folder_of(job), files, force=force):
        typer.echo(path)


def _stick_files(plan: Plan, option: Option, paper: str) -> dict[str, Callable[[], bytes]]:
    """Return what makes the files of the story stick, by their names; say where one is missing."""
    faces = sticks(plan, option)
    word = "story-stick" if plan.unit == "in" else "rod"
    files: dict[str, Callable[[], bytes]] = {}
    whole = long_pdf(plan, faces)
    if whole is None:
        typer.echo("casewright: too long for one page of a PDF; only pieces", err=True)
    else:
        files[f"{word}-long.pdf"] = lambda: whole
    return files | {f"{word}-{paper}.pdf": lambda: tiled_pdf(plan, faces, paper)}


def _about(option: Option) -> str:
    """Return which option is drawn, and what it leaves out: no drawing may hide that."""
    left = [f"{one.count} x {one.item}" for one in option.left_out]
    return "; ".join([option.name, *([f"left out: {', '.join(left)}"] if left else [])])


def _words(name: str, given: str, allowed: tuple[str, ...]) -> tuple[str, ...]:
    """Return the words between commas; InputError for any that is not allowed."""
    words = tuple(word.strip().lower() for word in given.split(",") if word.strip())
    wrong = [word for word in words if word not in allowed]
    if wrong or not words:
        msg = f"{', '.join(wrong) or given!r} is not known; allowed: {', '.join(allowed)}"
        raise InputError(msg, name)
    return words
