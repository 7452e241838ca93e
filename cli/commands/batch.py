"""`casewright batch`: several clients' jobs cut together, shown and written."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.batch_deliver import BatchRequest, BatchWanted, deliver_batch
from cli.options import Force, Json, Quiet, Seed, TimeLimit
from solver.outcome import Limits


def batch(
    jobs: Annotated[
        list[str], typer.Argument(metavar="JOB...", help="Job files (.toml), one for each client.")
    ],
    shop: Annotated[
        str | None,
        typer.Option("--shop", metavar="JOB", help="The job whose [shop] holds for all of them."),
    ] = None,
    kerf: Annotated[
        str | None,
        typer.Option("--kerf", metavar="LENGTH", help="Width of a saw cut, for all jobs."),
    ] = None,
    edge_trim: Annotated[
        str | None,
        typer.Option("--edge-trim", metavar="LENGTH", help="Cut off each factory edge, all jobs."),
    ] = None,
    margin: Annotated[
        str | None,
        typer.Option("--margin", metavar="LENGTH", help="Slack in each strip and piece, all jobs."),
    ] = None,
    out: Annotated[
        str | None,
        typer.Option(
            "--out", metavar="FOLDER", help="Write the plan of each job, and batch.json, as JSON."
        ),
    ] = None,
    json: Json = None,
    force: Force = False,
    quiet: Quiet = False,
    every: Annotated[
        bool, typer.Option("--all", help="Show the pieces and the cuts of each sheet too.")
    ] = False,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Plan several jobs together, so that they share sheets, each with its share of the price.

    Example: casewright batch hill.toml mill.toml vale.toml --out plans
    """
    request = BatchRequest(jobs, shop, kerf, edge_trim, margin)
    wanted = BatchWanted(json=json, out=out, force=force, quiet=quiet, every=every)
    deliver_batch(request, Limits(seed=seed, seconds=time_limit), wanted)
