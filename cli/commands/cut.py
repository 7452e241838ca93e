"""`casewright cut`: the cutting engine on any list of parts."""

from __future__ import annotations

import json as json_module
from typing import Annotated, Literal

import typer

from cli.commands.options import Force, Json, Quiet, Seed, TimeLimit, UnitWord
from cli.files.export import CUT_TABLES, check_csv, write_csv
from cli.files.output import STDOUT, check_targets, write_text
from cli.run.cut_request import CutRequest, read_request
from cli.run.pipeline import Steps, Tell, deliver
from cli.screen.console import console
from cli.screen.cutting_tables import print_cut_plan
from solver.checking.check import check_cut
from solver.errors import InputError
from solver.outcome import Limits
from solver.plan.plan import CutPlan


def cut(
    parts: Annotated[
        str,
        typer.Argument(
            metavar="PARTS.csv",
            help="Columns part,length,width,quantity and, where wanted, material,thickness,grain,"
            "set; for mouldings part,length,quantity,mitres. - for a pasted list.",
        ),
    ],
    sheet: Annotated[
        list[str] | None,
        typer.Option(
            "--sheet",
            metavar="LxW[@PRICE][*COUNT]",
            help="A size of sheet, length along the grain; repeat for several. 96x48@65.00*2: at"
            " 65.00 each, 2 at most. Left out: 96x48 in, 2440x1220 mm.",
        ),
    ] = None,
    moulding: Annotated[
        list[str] | None,
        typer.Option(
            "--moulding",
            metavar="L[@PRICE][*COUNT]",
            help="Cut mouldings instead: a length of stick; repeat for several.",
        ),
    ] = None,
    kerf: Annotated[
        str | None,
        typer.Option("--kerf", metavar="LENGTH", help="Width of a saw cut; 1/8 in or 3 mm."),
    ] = None,
    edge_trim: Annotated[
        str, typer.Option("--edge-trim", metavar="LENGTH", help="Cut off each factory edge.")
    ] = "0",
    margin: Annotated[
        str, typer.Option("--margin", metavar="LENGTH", help="Slack in each strip and piece.")
    ] = "0",
    mitre_allowance: Annotated[
        str | None,
        typer.Option(
            "--mitre-allowance",
            metavar="LENGTH",
            help="Added for each mitred end; a kerf if left out, for lengths to the long point."
            " To the short point: the moulding's width (at 45 degrees) and a kerf.",
        ),
    ] = None,
    turn: Annotated[
        bool, typer.Option("--turn/--no-turn", help="Whether parts without grain may lie across.")
    ] = True,
    stages: Annotated[
        Literal["2", "3", "any"],
        typer.Option(
            "--stages",
            metavar="2|3|any",
            help="Stages of cuts; 2 allows one more that trims each piece, 3 adds none.",
        ),
    ] = "any",
    trimming: Annotated[
        bool,
        typer.Option(
            "--trimming/--no-trimming",
            help="Whether --stages 2 allows the cut that trims a piece to width.",
        ),
    ] = True,
    first: Annotated[
        Literal["rip", "crosscut", "either"],
        typer.Option("--first", metavar="rip|crosscut|either", help="The first cuts of a sheet."),
    ] = "either",
    unit: Annotated[
        UnitWord, typer.Option("--unit", metavar="in|mm", help="Unit of lengths without one.")
    ] = "in",
    advice: Annotated[
        bool,
        typer.Option(
            "--advice/--no-advice",
            help="Small changes that save a sheet, each confirmed by cutting.",
        ),
    ] = True,
    saw: Annotated[
        list[str] | None,
        typer.Option(
            "--saw",
            metavar="NAME",
            help="A saw there is: guided saw, table saw, mitre saw, or panel saw (the yard's);"
            " repeat for several. Left out: the first three.",
        ),
    ] = None,
    json: Json = None,
    csv: Annotated[
        str | None,
        typer.Option(
            "--csv",
            metavar="FOLDER",
            help="Write pieces, cuts in order, settings and offcuts as CSV files.",
        ),
    ] = None,
    force: Force = False,
    quiet: Quiet = False,
    time_limit: TimeLimit = 10.0,
    seed: Seed = 1,
) -> None:
    """Cut a list of parts from as little stock as possible, edge to edge, with proof.

    Example: casewright cut parts.csv --sheet 96x48@65.00 --csv cuts
    """
    request = CutRequest(
        parts,
        sheet or [],
        moulding or [],
        kerf,
        edge_trim,
        margin,
        mitre_allowance,
        turn,
        stages,
        first,
        unit,
        tuple(saw or ()),
        trimming,
    )
    limits = Limits(seed=seed, seconds=time_limit, work=2 * time_limit)
    deliver_cut(request, limits, json=json, csv=csv, force=force, quiet=quiet, advice=advice)


def deliver_cut(
    request: CutRequest,
    limits: Limits,
    *,
    json: str | None,
    csv: str | None = None,
    force: bool,
    quiet: bool,
    advice: bool = False,
) -> None:
    """Cut, check, show and write what is asked for."""
    from solver.planning.cut_list_plan import solve  # numpy is loaded with it

    check_targets(json, force=force)
    if csv is not None:
        _check_csv(request, csv, force=force)
    cut_list = read_request(request)
    # The time runs from here, not from when a list began to be pasted.
    fresh = Limits(limits.seed, limits.work, limits.seconds, limits.stopper)

    def decide(tell: Tell) -> CutPlan:
        tell("cutting")
        return solve(cut_list, fresh, advice=advice)

    def write(plan: CutPlan) -> None:
        if json is not None:
            write_text(json, to_json(plan), force=force)
        if csv is not None:
            write_csv(plan, csv, force=force)

    shows = not quiet and json != STDOUT
    steps = Steps(
        findings=lambda plan: [str(finding) for finding in check_cut(plan)],
        show=(lambda plan: print_cut_plan(console(), plan)) if shows else None,
        write=write,
    )
    deliver(None, decide, fresh, steps)


def _check_csv(request: CutRequest, csv: str, *, force: bool) -> None:
    if request.mouldings:
        msg = "--csv: the tables are those of sheets and their cuts; for mouldings use --json"
        raise InputError(msg)
    check_csv(csv, force=force, tables=CUT_TABLES)


def to_json(plan: CutPlan) -> str:
    """Return the plan as JSON: sheets, or mouldings in their place."""
    data = plan.model_dump(mode="json", by_alias=True)
    del data["mouldings" if plan.mouldings is None else "sheets"]
    return json_module.dumps(data, ensure_ascii=False, indent=1) + "\n"
