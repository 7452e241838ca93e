"""`casewright papers`: what the client signs and the shop holds, as PDFs and tables."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.commands.options import Force, JobOrPlan, MakeOption, OutputFolder, Prices, TimeLimit
from cli.papers.write import PapersRequest, write_papers


def papers(
    job: JobOrPlan,
    output: OutputFolder = None,
    option: MakeOption = None,
    prices: Prices = None,
    date: Annotated[
        str | None,
        typer.Option(
            "--date",
            metavar="YYYY-MM-DD",
            help="Printed on every page; left out, that of the signed revision, or a line to"
            " write it on.",
        ),
    ] = None,
    handover: Annotated[
        str | None,
        typer.Option(
            "--handover",
            metavar="YYYY-MM-DD",
            help="Day of the handover: the care card then says when to look at it again.",
        ),
    ] = None,
    open_: Annotated[
        bool, typer.Option("--open", help="Open the papers when they are written.")
    ] = False,
    force: Force = False,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Write the papers of a job: proposal, drawings, cut list, marking-out sheet and the rest.

    One PDF each, one of all with contents, and every table as a workbook and as CSV.

    Example: casewright papers alcove.toml -o alcove --date 2026-11-25
    """
    request = PapersRequest(
        job, output, option, date, handover, prices, force=force, seconds=time_limit
    )
    combined = write_papers(request)
    if open_:
        typer.launch(str(combined))
