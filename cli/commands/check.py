"""`casewright check`: read a job and say how it is understood, without solving it."""

from __future__ import annotations

from typing import Annotated

import typer
from rich.console import Console

from cli.commands.options import AcceptGuesses, Force, Json, UnitOfSizes
from cli.files.clean_list import write_clean_csv, write_clean_json
from cli.files.job_file import JobFile, load_job
from cli.files.output import STDOUT, check_targets
from cli.files.reading import is_list, read_inventory
from cli.run.doubts import settled_doubts
from cli.run.plan_request import gone_lines
from cli.screen.console import console
from cli.screen.job_check import (
    cases_table,
    items_table,
    openings_table,
    readings_table,
    summary,
    tight_counts,
    trim_lines,
)
from cli.screen.wording import UNIT_NAMES, plain_name
from solver.errors import CannotBeDoneError, InputError
from solver.intake.precheck import misfits
from solver.listing.line_readings import Listing
from solver.units import Unit


def check(
    job: Annotated[
        str,
        typer.Argument(
            metavar="JOB",
            help="A job file (.toml), or a list of things (.csv .tsv .txt .xlsx, - for a pasted"
            " one).",
        ),
    ],
    unit: UnitOfSizes = None,
    sheet: Annotated[
        str | None, typer.Option("--sheet", metavar="NAME", help="Worksheet of an .xlsx file.")
    ] = None,
    accept: AcceptGuesses = False,
    csv: Annotated[
        str | None,
        typer.Option(
            "--csv", metavar="FILE", help="Write the list as a clean table; - to show it."
        ),
    ] = None,
    json: Json = None,
    force: Force = False,
) -> None:
    """Check a job without solving it: how it is read, sizes, openings, things that cannot fit.

    Of a list of things it shows how each line is read, and what was assumed.

    Example: casewright check alcove.toml
    casewright check clocks.csv
    """
    if is_list(job):
        check_targets(csv, json, force=force)
        listing = settled_doubts(read_inventory(job, unit or "in", sheet), accept=accept)
        if STDOUT not in (csv, json):
            _print_list(listing, unit or "in")
        if json is not None:
            write_clean_json(listing, json, unit or "in", force=force)
        listing.raise_if_unreadable()
        if csv is not None:
            write_clean_csv(listing, csv, force=force)
        return
    if any((unit, sheet, accept, csv, json)):
        msg = (
            "--unit, --sheet, --accept-guesses, --csv and --json go with a list of things; a job"
            " file says all of it itself"
        )
        raise InputError(msg, job)
    read = load_job(job)
    for line in gone_lines(job, read.notes):
        typer.echo(line, err=True)
    out = console()
    _print_things(out, read)
    _print_cases(out, read)
    wrong = misfits(read.job)
    if wrong:
        lines = [misfit.text(read.job) for misfit in wrong]
        msg = "\n".join([*lines, "make the case larger, change the thing's sizes, or leave it out"])
        raise CannotBeDoneError(msg)
    out.print("Nothing speaks against this job so far; casewright plan solves it.")


def _print_list(listing: Listing, unit: Unit) -> None:
    if not listing.items:
        return
    out = console()
    out.print(readings_table(listing, unit))
    out.print()
    for line in listing.notes:
        out.print(line)
    out.print(f"{summary(listing)}; sizes in {UNIT_NAMES[unit]}, weights of one")


def _print_things(out: Console, read: JobFile) -> None:
    job = read.job
    out.print(plain_name(f"{job.head.title}: lengths in {UNIT_NAMES[job.unit]}"))
    out.print()
    listed = {item.name for listing in read.listings for item in listing.items}
    own = [item for item in job.items if item.name not in listed]
    if own:
        out.print(items_table(own, job.unit))
        out.print()
    for listing in read.listings:
        out.print(f"{plain_name(listing.source or 'list')}: {summary(listing)}")
        for note in listing.notes:
            out.print(note)
        out.print(readings_table(listing, job.unit))
        out.print()
    assumed = [plain_name(item.name) for item in job.items if item.weight is None]
    if assumed:
        out.print(f"Weight not given, the standard load assumed: {', '.join(assumed)}")
        out.print()


def _print_cases(out: Console, read: JobFile) -> None:
    out.print(cases_table(read.job))
    out.print()
    out.print(openings_table(read.job))
    out.print()
    if trim := trim_lines(read.job):
        out.print("Trim, light and glass")
        for line in trim:
            out.print(line)
        out.print()
    for line in tight_counts(read.job):
        out.print(f"note: {line}")
