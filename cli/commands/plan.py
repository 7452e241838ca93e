"""`casewright plan`: shelf spacing and cutting of one job, shown and written."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.commands.options import (
    AcceptGuesses,
    Csv,
    Force,
    From,
    Headroom,
    Hold,
    Inside,
    Items,
    JobOrList,
    Json,
    Near,
    NoKeep,
    Opening,
    Outside,
    Prefer,
    Quiet,
    Rhythm,
    Seed,
    ShelfStyle,
    Shelves,
    ShowAll,
    ShowFull,
    StartOption,
    Tallest,
    TimeLimit,
    UnitOfSizes,
    Xlsx,
)
from cli.files.have_file import with_have
from cli.files.hold_option import with_holds
from cli.files.signed_files import reminder
from cli.run.plan_pipeline import PlanOutput, deliver, planner
from cli.run.plan_request import PlanRequest, read_request
from cli.run.start_from_plan import (
    Start,
    measured_thicknesses,
    planner_again,
    planner_anew,
    planner_measured,
    starts_from_plan,
)
from solver.errors import InputError
from solver.outcome import Limits


def plan(
    job: JobOrList,
    items: Items = None,
    accept: AcceptGuesses = False,
    inside: Inside = None,
    outside: Outside = None,
    opening: Opening = None,
    shelves: Shelves = None,
    unit: UnitOfSizes = None,
    headroom: Headroom = None,
    rhythm: Rhythm = None,
    prefer: Prefer = None,
    tallest: Tallest = None,
    shelf_style: ShelfStyle = None,
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
            help="What is there already: a signed revision (.signed-1.json) with what is cut of it,"
            " or a table (.csv .tsv .txt .xlsx, - pasted) with the columns"
            " what, part, length, width, quantity, material, mark, edges:"
            " parts cut, short or spoiled, offcuts, opened sheets, fixed shelves.",
        ),
    ] = None,
    hold: Hold = None,
    thickness: Annotated[
        list[str] | None,
        typer.Option(
            "--thickness",
            metavar="[MATERIAL=]LENGTH",
            help="Thickness of the sheet as measured with calipers: 0.703, or 'oak ply 18=0.703'"
            " for one of several materials; repeatable. Marks and parts of the last plan are"
            " issued again, and undersides of shelves stay where they can.",
        ),
    ] = None,
    start: From = None,
    option: StartOption = None,
    anew: Annotated[
        bool,
        typer.Option(
            "--anew",
            help="Let everything move that is not held: plan from nothing, and compare with the"
            " last plan.",
        ),
    ] = False,
    no_keep: NoKeep = False,
    json: Json = None,
    csv: Csv = None,
    xlsx: Xlsx = None,
    force: Force = False,
    quiet: Quiet = False,
    full: ShowFull = False,
    every: ShowAll = False,
    near: Near = True,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Decide shelf count, spacing and sheets together.

    Shows the options side by side in short; --full shows everything.

    Example: casewright plan clocks.csv --inside 36x72x11 --shelves 5,6
    """
    request = PlanRequest(
        *(job, items, inside, outside, opening, shelves, unit),
        headroom=headroom,
        rhythm=rhythm,
        prefer=prefer,
        tallest=tallest,
        shelf_style=shelf_style,
        accept=accept,
    )
    wanted = PlanOutput(
        json=json,
        csv=csv,
        xlsx=xlsx,
        force=force,
        quiet=quiet,
        full=full,
        every=every,
        kept_for=None if no_keep or request.is_list else job,
    )
    limits = Limits(seed=seed, seconds=time_limit)
    read = with_holds(read_request(request, quiet=quiet), hold or [])
    begin = Start(None if request.is_list else job, start, option)
    if thickness:
        _refuse_beside_thickness(request, stepwise=stepwise, anew=anew, have=have is not None)
        deliver(
            read,
            limits,
            wanted,
            planner_measured(read, limits, begin, measured_thicknesses(read, thickness)),
        )
        return
    read = with_have(read, have, lambda line: None if quiet else typer.echo(line, err=True))
    if not (quiet or request.is_list or read.have) and (note := reminder(job)):
        typer.echo(note, err=True)
    if stepwise:
        from solver.sizing.option_sizes import stepwise_job

        read = stepwise_job(read)
    if not starts_from_plan(begin, held=bool(hold), anew=anew):
        make = planner(read, limits, near=near)
    elif anew:
        make = planner_anew(read, limits, begin)
    else:
        make = planner_again(read, limits, begin)
    deliver(read, limits, wanted, make)


def _refuse_beside_thickness(request: PlanRequest, **given: bool) -> None:
    """Raise InputError for what the last plan has decided already."""
    changes = {"--shelves": request.shelves, "--items": request.items}
    changes |= {f"--{word.replace('_', '-')}": value for word, value in request.look.items()}
    changes |= {f"--{word}": "yes" for word, is_given in given.items() if is_given}
    wrong = [word for word, value in changes.items() if value is not None]
    if request.is_list or wrong:
        what = wrong[0] if wrong else "a list of things"
        msg = f"it measures the sheet of the last plan of a job file; {what} does not go with it"
        raise InputError(msg, "--thickness")
