"""`casewright plan`: shelf spacing and cutting of one job, shown and written."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.options import (
    Csv,
    Force,
    From,
    Hold,
    Json,
    Near,
    NoKeep,
    PreferWord,
    Quiet,
    RhythmWord,
    Seed,
    ShowAll,
    StartOption,
    TimeLimit,
    UnitWord,
    Xlsx,
)


def plan(
    job: Annotated[
        str,
        typer.Argument(
            metavar="JOB",
            help="A job file (.toml); or a list of things (.csv .tsv .txt .xlsx, - for a pasted"
            " one) with --inside or --outside.",
        ),
    ],
    items: Annotated[
        str | None,
        typer.Option("--items", metavar="FILE", help="Further things for a job file; - pasted."),
    ] = None,
    inside: Annotated[
        str | None,
        typer.Option(
            "--inside", metavar="WxHxD", help="Clear inside sizes of the case, such as 30x71x7."
        ),
    ] = None,
    outside: Annotated[
        str | None, typer.Option("--outside", metavar="WxHxD", help="Outside sizes instead.")
    ] = None,
    shelves: Annotated[
        str | None,
        typer.Option(
            "--shelves",
            metavar="COUNTS",
            help="Shelves between bottom and top: 4, or 4,5 to compare, or 4-6.",
        ),
    ] = None,
    unit: Annotated[
        UnitWord | None,
        typer.Option("--unit", metavar="in|mm", help="Unit of sizes without one; in if left out."),
    ] = None,
    headroom: Annotated[
        str | None,
        typer.Option("--headroom", metavar="LENGTH", help="Least room above each thing."),
    ] = None,
    rhythm: Annotated[
        RhythmWord | None,
        typer.Option(
            "--rhythm",
            metavar="RHYTHM",
            help="How the openings are to follow each other: even, graduated, symmetric, to-fit.",
        ),
    ] = None,
    prefer: Annotated[
        PreferWord | None,
        typer.Option("--prefer", metavar="price|look", help="Which of the two comes first."),
    ] = None,
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
            help="What is there already (CSV: what,name,length,width,quantity,material,mark,edges):"
            " parts cut, short or spoiled, offcuts, opened sheets, fixed shelves.",
        ),
    ] = None,
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
    near: Near = True,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Decide shelf count, spacing and sheets together.

    Shows the options side by side, and the first one in full.
    Example: casewright plan clocks.csv --inside 36x72x11 --shelves 5,6
    """
    from cli.again import Start, maker
    from cli.deliver import Wanted, deliver
    from cli.have_file import with_have
    from cli.hold_words import with_holds
    from cli.request import Request, read_request
    from solver.outcome import Limits

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
    read = with_have(read, have)
    if stepwise:
        from solver.planning.stepwise import stepwise_job

        read = stepwise_job(read)
    make = maker(Start(None if request.is_quick else job, start, option), held=bool(hold))
    deliver(read, Limits(seed=seed, seconds=time_limit), wanted, make)
