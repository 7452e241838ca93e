"""`casewright tradeoff`: every option that is not beaten on price, rhythm and headroom together."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.options import (
    Force,
    Headroom,
    Inside,
    Items,
    JobOrList,
    Outside,
    Prefer,
    Quiet,
    Rhythm,
    Seed,
    Shelves,
    TimeLimit,
    UnitOfSizes,
)


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

    With a table, a chart, and which one is recommended and why.
    Example: casewright tradeoff alcove.toml --csv front.csv
    """
    from cli.front_deliver import Wanted, deliver_front
    from cli.request import Request, read_request
    from solver.outcome import Limits

    wanted = Wanted(json=json, csv=csv, force=force, quiet=quiet, every=every)
    request = Request(
        job, items, inside, outside, shelves, unit, headroom=headroom, rhythm=rhythm, prefer=prefer
    )
    limits = Limits(seed=seed, seconds=time_limit)
    deliver_front(read_request(request, quiet=quiet), limits, wanted)
