"""`casewright story-stick`: the full-size stick (rod) with every mark."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.drawings.scales import usual_paper
from cli.drawings.stick_pages import long_pdf, sticks, tiled_pdf
from cli.options import Force, JobOrPlan, MakeOption, OutputFolder, TimeLimit
from cli.output import check_target, folder_of, make_folder, write_bytes
from cli.plan_of import option_named, plan_of
from solver.errors import InputError


def story_stick(
    job: JobOrPlan,
    output: OutputFolder = None,
    paper: Annotated[
        str | None,
        typer.Option(
            "--paper", metavar="NAME", help="Of the pieces: a4 or letter; left out, by the unit."
        ),
    ] = None,
    option: MakeOption = None,
    force: Force = False,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Write the story stick (rod) of each side at full size: one long page, and pieces to join.

    Marks are all from the lower end of the side or upright: both sides of every board, fastener
    lines, hinge mortises. A check bar says what it must measure once printed.

    Example: casewright story-stick pantry.toml -o drawings --paper letter
    """
    if paper is not None and paper.lower() not in ("a4", "letter"):
        msg = f"{paper!r} is not known; allowed: a4, letter"
        raise InputError(msg, "--paper")
    plan = plan_of(job, time_limit)
    made = sticks(plan, option_named(plan, option))
    on = (paper or usual_paper(plan.unit)).lower()
    stem = "story-stick" if plan.unit == "in" else "rod"
    files: dict[str, bytes | None] = {
        f"{stem}-long.pdf": long_pdf(plan, made),
        f"{stem}-{on}.pdf": tiled_pdf(plan, made, on),
    }
    folder: Path = make_folder(output or folder_of(job))
    for name in files:
        check_target(str(folder / name), force=force)
    for name, content in files.items():
        if content is None:
            typer.echo("casewright: too long for one page of a PDF; only pieces", err=True)
            continue
        write_bytes(str(folder / name), content, force=force)
        typer.echo(str(folder / name))
