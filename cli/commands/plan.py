"""`casewright plan`: shelf spacing and cutting of one job, shown and written."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.again import Start, maker
from cli.already_cut import reminder
from cli.deliver import Wanted, deliver
from cli.have_file import with_have
from cli.hold_words import with_holds
from cli.options import (
    Csv,
    Force,
    From,
    Headroom,
    Hold,
    Inside,
    Items,
    JobOrList,
    Json,
    Near,
    NoKeep,
    Outside,
    Prefer,
    Quiet,
    Rhythm,
    Seed,
    Shelves,
    ShowAll,
    StartOption,
    TimeLimit,
    UnitOfSizes,
    Xlsx,
)
from cli.request import Request, read_request
from solver.outcome import Limits
from solver.planning.stepwise import stepwise_job


def plan(
    job: JobOrList,
    items: Items = None,
    inside: Inside = None,
    outside: Outside = None,
    shelves: Shelves = None,
    unit: UnitOfSizes = None,
    headroom: Headroom = None,
    rhythm: Rhythm = None,
    prefer: Prefer = None,
    stepwise: Annotated[
        bool,
        typer.Option(
            "--stepwise",
            help="As by hand: open sizes at the wish or in the middle, then shelves, then sheets.",
        ),
    ] = False,
    have: Annotated[
        str | None,
        typer.Option(
            "--have",
            metavar="FILE",
            help="What is there already: a signed revision (.signed-1.json) with what is cut of it,"
            " or a table (.csv .tsv .txt .xlsx, - pasted) with the columns"
            " what, part, length, width, quantity, material, mark, edges:"
            " parts cut, short or spoiled, offcuts, opened sheets, fixed shelves.",
        ),
    ] = None,
    hold: Hold = None,
    start: From = None,
    option: StartOption = None,
    anew: Annotated[
        bool,
        typer.Option(
            "--anew",
            help="Let everything move that is not held: plan from nothing, and compare with the"
            " last plan.",
        ),
    ] = False,
    no_keep: NoKeep = False,
    json: Json = None,
    csv: Csv = None,
    xlsx: Xlsx = None,
    force: Force = False,
    quiet: Quiet = False,
    every: ShowAll = False,
    near: Near = True,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Decide shelf count, spacing and sheets together.

    Shows the options side by side, and the first one in full.
    Example: casewright plan clocks.csv --inside 36x72x11 --shelves 5,6
    """
    request = Request(
        job, items, inside, outside, shelves, unit, headroom=headroom, rhythm=rhythm, prefer=prefer
    )
    wanted = Wanted(
        json=json,
        csv=csv,
        xlsx=xlsx,
        force=force,
        quiet=quiet,
        every=every,
        near=near,
        kept_for=None if no_keep or request.is_quick else job,
    )
    read = with_holds(read_request(request, quiet=quiet), hold or [])
    read = with_have(read, have, lambda line: None if quiet else typer.echo(line, err=True))
    if not (quiet or request.is_quick or read.have) and (said := reminder(job)):
        typer.echo(said, err=True)
    if stepwise:
        read = stepwise_job(read)
    begin = Start(None if request.is_quick else job, start, option)
    make = maker(begin, held=bool(hold), anew=anew)
    deliver(read, Limits(seed=seed, seconds=time_limit), wanted, make)
