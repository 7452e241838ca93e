"""`casewright survey`: a blank form, or a doorway as measured, judged."""

from __future__ import annotations

from typing import Annotated

import typer
from rich.console import Console

from cli.commands.options import Force, JsonBeside, UnitWord
from cli.files.output import write_answer
from cli.files.survey_file import Survey, blank_form, read_survey
from cli.screen import survey_tables as tables
from cli.screen.console import console, points
from cli.screen.survey_tables import as_data
from cli.screen.wording import plain_name
from solver.doorway.old_door import Provided
from solver.doorway.survey import Judgement, judge, missing_measurements
from solver.errors import CannotBeDoneError
from solver.intake.sizes_from_place import sizes_from_place
from solver.job.doorway import Doorway
from solver.plan.swinging import PlaceSizes


def survey(
    file: Annotated[
        str | None,
        typer.Argument(
            metavar="FILE",
            help="A survey or job file (.toml); left out, a blank form to print is shown.",
        ),
    ] = None,
    unit: Annotated[
        UnitWord, typer.Option("--unit", metavar="in|mm", help="Unit of the blank form.")
    ] = "in",
    explain: Annotated[
        bool, typer.Option("--explain", help="The source of every judgement.")
    ] = False,
    json: JsonBeside = None,
    force: Force = False,
) -> None:
    """Print a blank survey form; or judge a doorway as measured, and show the sizes it leaves.

    Exit code 1 where a case is refused there.

    Example: casewright survey > form.txt
    casewright survey pantry.toml
    """
    if file is None:
        typer.echo(blank_form(unit), nl=False)
        return

    read = read_survey(file)
    judged = {door.name: _judged(read, door) for door in read.doorways}
    if json is not None:
        _write(json, read, judged, force=force)
    if json != "-":
        _show(read, judged, explain=explain)
    refused = [
        f"{name}: {one.what} {one.do}"
        for name, all_of in judged.items()
        for one in all_of
        if one.verdict == "refused"
    ]
    if refused:
        raise CannotBeDoneError("\n".join(["no case may hang there as it is", *refused]))


def _judged(read: Survey, door: Doorway) -> tuple[Judgement, ...]:
    hung, site = _is_hung(read, door), None if read.job is None else read.job.ground
    if site is None:
        return judge(door, read.unit, Provided(hung))
    return judge(door, read.unit, Provided(hung, bool(site.air), site.opens_inside))


def _missing(read: Survey, door: Doorway) -> tuple[str, ...]:
    return missing_measurements(door, hung=_is_hung(read, door))


def _is_hung(read: Survey, door: Doorway) -> bool:
    """Whether the job hangs a case there; alone, a doorway is for a hung case."""
    kinds = [] if read.job is None else [c.kind for c in read.job.cases if c.doorway == door.name]
    return "hung" in kinds or not kinds


def _write(
    path: str, read: Survey, found: dict[str, tuple[Judgement, ...]], *, force: bool
) -> None:
    doors = [as_data(door, found[door.name], _missing(read, door)) for door in read.doorways]
    cases = [] if read.job is None else [one for one in read.job.cases if one.doorway]
    assert read.job is not None or not cases
    data = {
        "doorways": doors,
        "sizes": {
            one.name: sizes_from_place(read.job, one).model_dump(mode="json")
            for one in cases
            if read.job is not None
        },
    }
    write_answer(path, "survey", read.unit, data, force=force)


def _show(read: Survey, found: dict[str, tuple[Judgement, ...]], *, explain: bool) -> None:
    out = console()
    for at, door in enumerate(read.doorways):
        if at:
            out.print()
        out.print(tables.headline(door, read.unit))
        if found[door.name]:
            out.print()
            out.print(tables.judgements_table(found[door.name]))
        points(out, list(_missing(read, door)), "Not measured or asked yet")
        left = _print_sizes(out, read, door)
        if explain:
            sources = tables.source_lines(found[door.name])
            sized = (line for one in left for line in tables.size_source_lines(one))
            points(out, [*sources, *sized], "Sources")


def _print_sizes(out: Console, read: Survey, door: Doorway) -> list[PlaceSizes]:
    """Show what the place leaves for each case that goes there, and return it."""
    if read.job is None:
        return []
    case_sizes = []
    for case in (one for one in read.job.cases if one.doorway == door.name):
        left = sizes_from_place(read.job, case)
        out.print(f"\n{plain_name(case.name)}, {left.kind}: {tables.has_line(case, read.unit)}")
        out.print()
        out.print(tables.sizes_table(left, read.unit))
        points(out, list(left.notes), "Notes")
        case_sizes.append(left)
    return case_sizes
