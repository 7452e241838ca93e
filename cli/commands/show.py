"""`casewright show`: the client page of a job or of a saved plan."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.options import Force, Prices, Quiet, Seed, TimeLimit
from cli.show_page import Asked, deliver
from solver.outcome import Limits


def show(
    job: Annotated[
        str,
        typer.Argument(metavar="JOB", help="A job file (.toml), or a plan as written by --json."),
    ],
    out: Annotated[
        str | None,
        typer.Option(
            "--out",
            "-o",
            metavar="FILE",
            help="The page; left out, JOB with .html, in this folder.",
        ),
    ] = None,
    open_it: Annotated[bool, typer.Option("--open", help="Open the page in the browser.")] = False,
    fresh: Annotated[
        bool,
        typer.Option("--fresh", help="Plan the job again although its last plan still holds."),
    ] = False,
    prices: Prices = None,
    force: Force = False,
    quiet: Quiet = False,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Write the page that the client looks at, and moves the shelves on.

    One file that needs no network: the options side by side, drawn to scale. The last plan
    of a job is shown where it is still one of that job; else the job is planned and kept.
    Example: casewright show alcove.toml -o alcove.html --open
    """
    asked = Asked(job, out, prices, open_it=open_it, fresh=fresh, force=force, quiet=quiet)
    deliver(asked, Limits(seed=seed, seconds=time_limit))
