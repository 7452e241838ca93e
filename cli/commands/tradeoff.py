"""`casewright tradeoff`: every option that is not beaten on price, rhythm and headroom together."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.front_deliver import Wanted, deliver_front, deliver_known
from cli.options import (
    Force,
    Headroom,
    Inside,
    Items,
    JobOrList,
    NoKeep,
    Outside,
    Prefer,
    Quiet,
    Rhythm,
    Seed,
    Shelves,
    TimeLimit,
    UnitOfSizes,
)
from cli.request import Request, read_request
from solver.outcome import Limits


def tradeoff(
    job: JobOrList,
    items: Items = None,
    inside: Inside = None,
    outside: Outside = None,
    shelves: Shelves = None,
    unit: UnitOfSizes = None,
    headroom: Headroom = None,
    rhythm: Rhythm = None,
    prefer: Prefer = None,
    json: Annotated[
        str | None,
        typer.Option(
            "--json", metavar="FILE", help="Write the front as JSON; - for standard output, alone."
        ),
    ] = None,
    csv: Annotated[
        str | None,
        typer.Option(
            "--csv", metavar="FILE", help="Write its table as CSV; - for standard output, alone."
        ),
    ] = None,
    take: Annotated[
        str | None,
        typer.Option(
            "--take",
            metavar="NO.",
            help="The option that becomes the plan: its number, or recommended, cheapest,"
            " best-looking. It is shown in full and kept beside the job file as its last plan.",
        ),
    ] = None,
    plan: Annotated[
        str | None,
        typer.Option(
            "--plan",
            metavar="FILE",
            help="Write the option taken as a plan (JSON); without --take the recommended one.",
        ),
    ] = None,
    no_keep: NoKeep = False,
    force: Force = False,
    quiet: Quiet = False,
    every: Annotated[
        bool,
        typer.Option(
            "--all", help="Also options that differ from another by less than anybody sees."
        ),
    ] = False,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Show every option that is not beaten on price, rhythm and headroom together.

    With a table, a chart, and which one is recommended and why. --take makes one of them
    the plan; a front written by --json may stand in place of the job, to choose from.
    Example: casewright tradeoff alcove.toml --csv front.csv
    """
    request = Request(
        job, items, inside, outside, shelves, unit, headroom=headroom, rhythm=rhythm, prefer=prefer
    )
    wanted = Wanted(
        json=json,
        csv=csv,
        plan=plan,
        take=take,
        force=force,
        quiet=quiet,
        every=every,
        kept_for=None if no_keep or request.is_quick or request.is_front else job,
    )
    if request.is_front:
        deliver_known(job, wanted)
        return
    limits = Limits(seed=seed, seconds=time_limit)
    deliver_front(read_request(request, quiet=quiet), limits, wanted)
