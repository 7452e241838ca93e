"""`casewright whatif`: more things, or fewer, and the least that would have to change."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.again import Start
from cli.options import Force, From, JobArgument, Json, Quiet, Seed, StartOption, TimeLimit
from cli.whatif import Asked, deliver
from solver.outcome import Limits


def whatif(
    job: JobArgument,
    add: Annotated[
        list[str] | None,
        typer.Option(
            "--add",
            metavar="THINGS",
            help="More of a kind, '4 x tall jug', or new things with their sizes,"
            " '4 x vase 6x12x6'; repeatable.",
        ),
    ] = None,
    drop: Annotated[
        list[str] | None,
        typer.Option(
            "--drop",
            metavar="THINGS",
            help="Things to take away: 'mantel clock' for all of them, or '2 x mantel clock';"
            " repeatable.",
        ),
    ] = None,
    start: From = None,
    option: StartOption = None,
    json: Json = None,
    force: Force = False,
    quiet: Quiet = False,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Say where more things would go, and the least that would have to change for them.

    Starts from the last plan and changes nothing that is kept.
    Example: casewright whatif alcove.toml --add '4 x tea caddy, single'
    """
    asked = Asked(Start(job, start, option), tuple(add or ()), tuple(drop or ()))
    deliver(asked, Limits(seed=seed, seconds=time_limit), json, force=force, quiet=quiet)
