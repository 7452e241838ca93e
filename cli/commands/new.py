"""`casewright new`: a commented starter job."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from cli.commands.options import Force, UnitWord
from cli.files.output import STDOUT, check_target, write_text
from cli.files.starter import Answers, ask_for, standard, starter
from solver.errors import InputError


def new(
    path: Annotated[
        str, typer.Argument(metavar="FILE", help="Job file to write; - for standard output.")
    ] = "job.toml",
    unit: Annotated[
        UnitWord, typer.Option("--unit", metavar="in|mm", help="Unit of the job.")
    ] = "in",
    yes: Annotated[
        bool, typer.Option("--yes", help="Ask nothing, write the standard case.")
    ] = False,
    force: Force = False,
) -> None:
    """Write a commented starter job; on a terminal the case's few measurements are asked for.

    Example: casewright new alcove.toml
    """
    if path != STDOUT:
        _check_name(path)
    check_target(path, force=force)
    asks = not yes and path != STDOUT and sys.stdin.isatty() and sys.stdout.isatty()
    answers = _ask(path, unit) if asks else standard(unit)
    write_text(path, starter(answers), force=force)
    if path != STDOUT:
        typer.echo(f"{path} is written. Next: put your things in it, then casewright check {path}")


def _check_name(path: str) -> None:
    if Path(path).suffix.lower() != ".toml":
        msg = "a job file is called something.toml; give it that ending"
        raise InputError(msg, path)


def _ask(path: str, unit: UnitWord) -> Answers:

    def ask(question: str, default: str) -> str:
        return str(typer.prompt(question, default=default))

    return ask_for(unit, Path(path).resolve().parent, ask, typer.echo)
