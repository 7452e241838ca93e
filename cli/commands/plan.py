"""`casewright plan`: shelf spacing and cutting of one job, shown and written."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.options import (
    Csv,
    Force,
    Json,
    Quiet,
    Seed,
    ShowAll,
    TimeLimit,
    Xlsx,
)


def plan(
    job: Annotated[
        str,
        typer.Argument(
            metavar="JOB",
            help="A job file (.toml), or a list of things (.csv .tsv .txt .xlsx, - for pasted).",
        ),
    ],
    json: Json = None,
    csv: Csv = None,
    xlsx: Xlsx = None,
    force: Force = False,
    quiet: Quiet = False,
    every: ShowAll = False,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Decide shelf count, spacing and sheets of a job together, and show the options."""
    from cli.deliver import Wanted, deliver
    from cli.job_file import read_job
    from solver.outcome import Limits

    wanted = Wanted(json=json, csv=csv, xlsx=xlsx, force=force, quiet=quiet, every=every)
    deliver(read_job(job), Limits(seed=seed, seconds=time_limit), wanted)
