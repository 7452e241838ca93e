"""`casewright tradeoff`: every option that is not beaten on price, rhythm and headroom together."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.options import Force, PreferWord, Quiet, RhythmWord, Seed, TimeLimit, UnitWord


def tradeoff(
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
