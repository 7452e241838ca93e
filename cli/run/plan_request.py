"""What `casewright plan` is asked for: a job file, or a list of things and a case's sizes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Any

import typer

from cli.files.job_file import JobFile, load_job, parse_shelves, quick_job
from cli.files.reading import is_list, read_bytes, read_inventory
from cli.files.toml_text import parse_toml
from cli.run.doubts import settled_doubts
from cli.screen.wording import count, plain_name
from solver.errors import InputError
from solver.intake.sizes_from_place import sizes_from_place
from solver.job.case import settled
from solver.job.job import Job
from solver.listing.line_readings import ASIDE, Listing
from solver.units import Unit, format_length, parse_length, with_unit

NOTES_MOST = 6
"""Most lines of the list that are spoken of; `casewright check` shows them all."""
USUAL = ("read as width x height x depth", "weight assumed")
"""Notes on how a line is read that are not worth a line under a plan."""


LOOK_WORDS = ("headroom", "rhythm", "prefer", "tallest", "shelf_style")
"""Keys of [look] that are options of the command line too."""


@dataclass(frozen=True)
class PlanRequest:
    """The words of the command line, as given; lengths are texts in the job's unit.

    Attributes
    ----------
    job
        A job file, a list of things, or ``-`` for a pasted list.
    items
        A further list beside a job file.
    inside, outside, opening, shelves, unit
        The case of the quick form.
    headroom, rhythm, prefer, tallest, shelf_style
        Words of [look] that outweigh those of the job file.
    accept
        Whether doubtful lines of a list are taken as they most likely are.
    """

    job: str
    items: str | None = None
    inside: str | None = None
    outside: str | None = None
    opening: str | None = None
    shelves: str | None = None
    unit: Unit | None = None
    headroom: str | None = None
    rhythm: str | None = None
    prefer: str | None = None
    tallest: str | None = None
    shelf_style: str | None = None
    accept: bool = False

    @property
    def is_list(self) -> bool:
        """Whether this is the quick form, without a job file."""
        return is_list(self.job)

    @property
    def is_front(self) -> bool:
        """Whether this is a trade-off front written before."""
        return Path(self.job).suffix.lower() == ".json"

    @property
    def look(self) -> dict[str, str]:
        """Words of [look] that are given."""
        words = {key: getattr(self, key) for key in LOOK_WORDS}
        return {key: value for key, value in words.items() if value is not None}


def read_request(request: PlanRequest, *, quiet: bool) -> Job:
    """Return the job asked for; say on standard error how lists were read, unless `quiet`."""
    read = _quick(request) if request.is_list else _from_file(request)
    if not quiet:
        for line in [
            *gone_lines(request.job, read.notes),
            *_echo(read.job, request, read.listings),
        ]:
            typer.echo(line, err=True)
    return read.job


def read_job_aloud(path: str) -> Job:
    """Read a job file; say on standard error which keys of it are gone."""
    read = load_job(path)
    for line in gone_lines(path, read.notes):
        typer.echo(line, err=True)
    return read.job


def gone_lines(path: str, notes: Sequence[str]) -> list[str]:
    """Notes on keys that are gone, each with the file."""
    return [f"{plain_name(path)}: {note}" for note in notes]


def _quick(request: PlanRequest) -> JobFile:
    if request.items is not None:
        msg = "--items goes with a job file; without one the list itself comes first"
        raise InputError(msg)
    unit: Unit = request.unit or "in"
    listing = settled_doubts(read_inventory(request.job, unit), accept=request.accept)
    job = quick_job(
        listing,
        inside=request.inside,
        outside=request.outside,
        opening=request.opening,
        shelves=request.shelves,
        unit=unit,
        overrides=request.look,
    )
    return JobFile(job, (listing,))


def _from_file(request: PlanRequest) -> JobFile:
    for option in ("inside", "outside", "opening", "unit"):
        if getattr(request, option) is not None:
            msg = f"--{option} goes with a list of things; in a job file it is set in the file"
            raise InputError(msg, request.job)
    items = None
    if request.items is not None:
        items = read_inventory(request.items, _unit_of(request.job))
    settle = partial(settled_doubts, accept=request.accept)
    loaded = load_job(request.job, items=items, settle=settle)
    return replace(loaded, job=changed(loaded.job, request))


def _unit_of(path: str) -> Unit:
    """The unit of a job file, for a list beside it; reading the file says what is wrong in it."""
    head = parse_toml(read_bytes(path).decode("utf-8-sig", "replace"), path).get("job")
    return "mm" if isinstance(head, dict) and head.get("unit") == "mm" else "in"


def changed(job: Job, request: PlanRequest) -> Job:
    """Return the job with what the command line says in place of what the file says."""
    from solver.intake.load import load

    if not request.look and request.shelves is None:
        return job
    data: dict[str, Any] = job.model_dump(by_alias=True)
    data["look"].update(request.look)
    if request.headroom is not None:
        data["look"]["headroom"] = parse_length(request.headroom, job.unit)
    if request.shelves is not None:
        if len(job.cases) != 1:
            msg = "--shelves: the job has several cases; set the shelves of each in the file"
            raise InputError(msg, request.job)
        data["case"][0]["shelves"] = parse_shelves(request.shelves)
    return load(data)


def _echo(job: Job, request: PlanRequest, listings: tuple[Listing, ...]) -> list[str]:
    """How the lists and the case's sizes were read."""
    lines = [line for listing in listings for line in list_lines(listing)]
    if request.is_list:
        lines.append(_sizes_line(job))
    return lines


def list_lines(listing: Listing) -> list[str]:
    """Say how many lines were read, which were skipped, and which could mean something else."""
    read = [line for line in listing.lines if line.item is not None]
    things = sum(item.count for item in listing.items)
    kinds = count(len(listing.items), "kind")
    source = plain_name(listing.source or "list")
    head = f"{source}: {count(len(read), 'line')} read, {kinds}, {count(things, 'thing')} in all"
    remarks = [f"  {note}" for note in listing.notes]
    for line in listing.lines:
        notes = [note for note in line.notes if note not in USUAL]
        if line.skipped in ASIDE:
            notes.append(f"set aside, {line.skipped}: {line.text[:40]}")
        elif line.skipped:
            notes.append(f"skipped, {line.skipped}")
        if notes and line.text.strip():
            remarks.append(f"  line {line.number}: {plain_name('; '.join(notes))}")
    more = len(remarks) - NOTES_MOST
    cut = [f"  … and {more} more lines; casewright check shows how each was read"]
    return [head, *remarks[:NOTES_MOST], *(cut if more > 0 else [])]


def _sizes_line(job: Job) -> str:
    """Say how the case's sizes were read, and what an opening was lessened by."""
    return "\n".join([_case_line(job), *_opening_lines(job)])


def _opening_lines(job: Job) -> list[str]:
    """What the opening has and every deduction from it, with its source."""
    case = job.cases[0]
    if case.doorway is None:
        return []
    place = sizes_from_place(job, case)
    return [
        f"  {side}: the opening has {with_unit(size.measured, job.unit)}"
        + "".join(
            f", less {with_unit(one.length, job.unit)} {one.what} ({one.why}; {one.source})"
            for one in size.deductions
        )
        + f"; the case is {with_unit(size.size, job.unit)} outside"
        for side, size in (("width", place.width), ("height", place.height))
    ]


def _case_line(job: Job) -> str:
    case, unit = job.cases[0], job.unit
    wide, high = (format_length(settled(size), unit) for size in (case.width, case.height))
    size = f"{wide} wide x {high} high"
    if not isinstance(case.depth, int):
        return f"case, {case.sizes}: {size} {unit}, as deep as the deepest thing asks for"
    return f"case, {case.sizes}: {size} x {with_unit(case.depth, unit)} deep"
