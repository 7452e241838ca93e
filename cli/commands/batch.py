"""`casewright batch`: several clients' jobs cut together, shown and written."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated

import typer

from cli.commands.options import Force, Json, Quiet, Seed, TimeLimit
from cli.files.output import STDOUT, check_target, check_targets, make_folder, write_text
from cli.run.pipeline import Steps, deliver
from cli.run.plan_request import read_job_aloud
from cli.screen.batch_tables import print_batch
from cli.screen.console import console
from solver.checking.batch import check_batch
from solver.errors import InputError, ManyInputsError
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.joint_purchase import Batch
from solver.units import parse_length

BATCH_FILE = "batch.json"


@dataclass(frozen=True)
class BatchRequest:
    """The words of the command line, as given; lengths are texts.

    Attributes
    ----------
    jobs
        Job files.
    shop
        The job whose [shop] holds for all.
    kerf, edge_trim, margin
        Lengths of [shop] that hold for all jobs, in the first job's unit.
    """

    jobs: Sequence[str]
    shop: str | None = None
    kerf: str | None = None
    edge_trim: str | None = None
    margin: str | None = None


@dataclass(frozen=True)
class BatchOutput:
    """What the user wants to get: a file, a folder of plans, and how much is shown."""

    json: str | None = None
    out: str | None = None
    force: bool = False
    quiet: bool = False
    every: bool = False

    def check(self, names: Sequence[str]) -> None:
        """Raise InputError where a file could not be written, before the long work."""
        check_targets(self.json, force=self.force)
        if self.out is None:
            return
        place = Path(self.out)
        if place.is_dir():
            check_targets(*(str(place / name) for name in files_of(names)), force=self.force)
        else:
            check_target(self.out, force=False)


def files_of(names: Sequence[str]) -> list[str]:
    """Return the files of a folder of plans: one for each job, and the batch."""
    return [*(f"{name}.plan.json" for name in names), BATCH_FILE]


def read_jobs(paths: Sequence[str]) -> dict[str, Job]:
    """Read job files; named by their files, numbered where two are called the same.

    Raises ManyInputsError with what is wrong in any of them.
    """
    jobs: dict[str, Job] = {}
    errors: list[InputError] = []
    for path in paths:
        try:
            jobs[_free_name(Path(path).stem, jobs)] = read_job_aloud(path)
        except ManyInputsError as error:
            errors += error.errors
        except InputError as error:
            errors.append(error)
    if errors:
        raise errors[0] if len(errors) == 1 else ManyInputsError(errors)
    return jobs


def _free_name(stem: str, taken: Mapping[str, Job]) -> str:
    name, number = stem, 2
    while name in taken:
        name, number = f"{stem}-{number}", number + 1
    return name


def jobs_with_one_shop(request: BatchRequest) -> dict[str, Job]:
    """Return the jobs asked for, all with one [shop]."""
    from solver.batch.plan_batch import LENGTHS, with_common_shop

    jobs = read_jobs(request.jobs)
    unit = next(iter(jobs.values())).unit
    given = {
        key: parse_length(text, unit)
        for key in LENGTHS
        if (text := getattr(request, key)) is not None
    }
    return with_common_shop(jobs, given, None if request.shop is None else Path(request.shop).stem)


def batch(
    jobs: Annotated[
        list[str], typer.Argument(metavar="JOB", help="Job files (.toml), one for each client.")
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
    from solver.batch.plan_batch import plan_batch

    jobs_read = jobs_with_one_shop(BatchRequest(jobs, shop, kerf, edge_trim, margin))
    wanted = BatchOutput(json=json, out=out, force=force, quiet=quiet, every=every)
    wanted.check(list(jobs_read))
    limits = Limits(seed=seed, seconds=time_limit)
    deliver(None, lambda tell: plan_batch(jobs_read, limits, tell), limits, _steps(wanted))


def _steps(wanted: BatchOutput) -> Steps[Batch]:
    shows = not wanted.quiet and wanted.json != STDOUT
    return Steps(
        findings=lambda batch: [str(finding) for finding in check_batch(batch)],
        show=(lambda batch: print_batch(console(), batch, every=wanted.every)) if shows else None,
        write=lambda batch: write_files(batch, wanted),
        what="the best batch",
    )


def write_files(batch: Batch, wanted: BatchOutput) -> None:
    """Write the batch, and the plan of each job beside it in the folder asked for."""
    if wanted.json is not None:
        write_text(wanted.json, batch.to_json(), force=wanted.force)
    if wanted.out is None:
        return
    folder = make_folder(wanted.out)
    for job in batch.jobs:
        target = folder / f"{job.name}.plan.json"
        write_text(str(target), job.built.to_json(), force=wanted.force)
    write_text(str(folder / BATCH_FILE), batch.to_json(), force=wanted.force)
