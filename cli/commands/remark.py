"""`casewright remark`: marks and parts once more, from the sheet as it was measured."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.again import Start, remarker
from cli.deliver import Wanted, deliver
from cli.hold_words import with_holds
from cli.options import (
    Csv,
    Force,
    From,
    Hold,
    JobArgument,
    Json,
    NoKeep,
    Quiet,
    Seed,
    ShowAll,
    StartOption,
    TimeLimit,
    Xlsx,
)
from cli.request import Request, read_request
from cli.thickness_words import thicknesses
from solver.outcome import Limits


def remark(
    job: JobArgument,
    thickness: Annotated[
        list[str],
        typer.Option(
            "--thickness",
            metavar="[MATERIAL=]LENGTH",
            help="Measured thickness: 0.703, or 'oak ply 18=0.703' for one of several"
            " materials; repeatable.",
        ),
    ],
    hold: Hold = None,
    start: From = None,
    option: StartOption = None,
    no_keep: NoKeep = False,
    json: Json = None,
    csv: Csv = None,
    xlsx: Xlsx = None,
    force: Force = False,
    quiet: Quiet = False,
    every: ShowAll = False,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Issue marks and parts again for the sheets as they were measured with calipers.

    Starts from the last plan: undersides of shelves stay where they can.
    Example: casewright remark alcove.toml --thickness 0.703
    """
    wanted = Wanted(
        json=json,
        csv=csv,
        xlsx=xlsx,
        force=force,
        quiet=quiet,
        every=every,
        kept_for=None if no_keep else job,
    )
    read = with_holds(read_request(Request(job), quiet=quiet), hold or [])
    make = remarker(Start(job, start, option), thicknesses(read, thickness))
    deliver(read, Limits(seed=seed, seconds=time_limit), wanted, make)
