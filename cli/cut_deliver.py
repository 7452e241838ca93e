"""From the request to what the user gets: cut, checked, shown, written."""

from __future__ import annotations

import json as json_module

import typer

from cli.console import console, progress
from cli.cut_job import CutJob, solve
from cli.cut_request import CutRequest, read_request
from cli.cut_show import print_cut_plan
from cli.export import CUT_TABLES, check_csv, write_csv
from cli.faults import FaultError, refused_text
from cli.interrupt import INTERRUPTED, run_stoppable
from cli.output import STDOUT, check_target, reader_may_stop, write_text
from solver.checking.check import check_cut
from solver.errors import InputError
from solver.outcome import Limits
from solver.plan import CutPlan


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
    """Cut, check, show and write; nothing is shown or written that the check refuses."""
    if json is not None:
        check_target(json, force=force)
    if csv is not None:
        _check_csv(request, csv, force=force)
    plan = make_cut_plan(read_request(request), limits, advice=advice)
    refuse_if_wrong(plan)
    if not quiet and json != STDOUT:
        show(plan)
    if json is not None:
        write_text(json, to_json(plan), force=force)
    if csv is not None:
        write_csv(plan, csv, force=force)
    if limits.stopper.stopped:
        typer.echo("casewright: stopped; this is the best plan so far", err=True)
        raise typer.Exit(INTERRUPTED)


def _check_csv(request: CutRequest, csv: str, *, force: bool) -> None:
    if request.mouldings:
        msg = "--csv: the tables are those of sheets and their cuts; for mouldings use --json"
        raise InputError(msg)
    check_csv(csv, force=force, tables=CUT_TABLES)


def make_cut_plan(job: CutJob, limits: Limits, *, advice: bool = False) -> CutPlan:
    """Run the cutting engine where Ctrl-C can stop it, with a word on a terminal."""
    with progress() as line:
        line.tell("cutting")
        # The time runs from here, not from when a list began to be pasted.
        fresh = Limits(limits.seed, limits.work, limits.seconds, limits.stopper)
        return run_stoppable(lambda: solve(job, fresh, advice=advice), fresh.stopper, line.show)


def refuse_if_wrong(plan: CutPlan) -> None:
    """Raise FaultError where the checker finds anything at all."""
    findings = check_cut(plan)
    if findings:
        raise FaultError(refused_text(None, [str(finding) for finding in findings]))


def show(plan: CutPlan) -> None:
    """Print the tables; a reader that stops reading does not stop the files."""
    with reader_may_stop():
        print_cut_plan(console(), plan)


def to_json(plan: CutPlan) -> str:
    """Return the plan as JSON: sheets, or mouldings in their place."""
    data = plan.model_dump(mode="json", by_alias=True)
    del data["mouldings" if plan.mouldings is None else "sheets"]
    return json_module.dumps(data, ensure_ascii=False, indent=1) + "\n"
