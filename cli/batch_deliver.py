"""From job files to a batch: read, planned, checked, shown, written."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import typer

from cli.batch_show import print_batch
from cli.console import console, progress
from cli.faults import FaultError, refused_text
from cli.interrupt import INTERRUPTED, run_stoppable
from cli.job_file import read_job
from cli.output import STDOUT, check_target, make_folder, reader_may_stop, write_text
from solver.batch import Batch
from solver.checking.batch import check_batch
from solver.errors import InputError, ManyInputsError
from solver.job import Job
from solver.outcome import Limits
from solver.planning.batch.agree import LENGTHS, agreed
from solver.planning.batch.plan import plan_batch
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
class BatchWanted:
    """What the user wants to get: a file, a folder of plans, and how much is shown."""

    json: str | None = None
    out: str | None = None
    force: bool = False
    quiet: bool = False
    every: bool = False

    def check(self, names: Sequence[str]) -> None:
        """Raise InputError where a file could not be written, before the long work."""
        if self.json is not None:
            check_target(self.json, force=self.force)
        if self.out is None:
            return
        place = Path(self.out)
        if place.is_dir():
            for name in files_of(names):
                check_target(str(place / name), force=self.force)
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
            jobs[_free_name(Path(path).stem, jobs)] = read_job(path)
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


def agreed_jobs(request: BatchRequest) -> dict[str, Job]:
    """Return the jobs asked for, all with one [shop]."""
    jobs = read_jobs(request.jobs)
    unit = next(iter(jobs.values())).unit
    given = {
        key: parse_length(text, unit)
        for key in LENGTHS
        if (text := getattr(request, key)) is not None
    }
    return agreed(jobs, given, None if request.shop is None else Path(request.shop).stem)


def deliver_batch(request: BatchRequest, limits: Limits, wanted: BatchWanted) -> None:
    """Plan, check, show and write; nothing is shown or written that the check refuses."""
    jobs = agreed_jobs(request)
    wanted.check(list(jobs))
    batch = make_batch(jobs, limits)
    refuse_if_wrong(batch)
    if not wanted.quiet and wanted.json != STDOUT:
        show(batch, every=wanted.every)
    write_files(batch, wanted)
    if limits.stopper.stopped:
        typer.echo("casewright: stopped; this is the best batch so far", err=True)
        raise typer.Exit(INTERRUPTED)


def make_batch(jobs: Mapping[str, Job], limits: Limits) -> Batch:
    """Run the planner where Ctrl-C can stop it, with its progress shown on a terminal."""
    with progress() as line:
        return run_stoppable(lambda: plan_batch(jobs, limits, line.tell), limits.stopper, line.show)


def refuse_if_wrong(batch: Batch) -> None:
    """Raise FaultError where the checker finds anything at all."""
    findings = check_batch(batch)
    if findings:
        raise FaultError(refused_text(None, [str(finding) for finding in findings]))


def show(batch: Batch, *, every: bool) -> None:
    """Print the tables; a reader that stops reading does not stop the files."""
    with reader_may_stop():
        print_batch(console(), batch, every=every)


def write_files(batch: Batch, wanted: BatchWanted) -> None:
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
