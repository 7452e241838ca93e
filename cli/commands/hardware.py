"""`casewright hardware`: hardware and consumables of a plan, in whole packs."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.answer_file import write_answer
from cli.console import console, points
from cli.options import Force, JobOrPlan, JsonBeside, MakeOption, TimeLimit
from cli.plan_of import option_named, plan_of
from cli.tables import hardware as tables
from cli.tables.words import plain_name
from solver.hardware.every import hardware_list, holes
from solver.plan import Option, Plan


def hardware(
    job: JobOrPlan,
    option: MakeOption = None,
    explain: Annotated[
        bool, typer.Option("--explain", help="Arithmetic and source of each line.")
    ] = False,
    json: JsonBeside = None,
    force: Force = False,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Show hinges, screws with their holes, pins, glue, finish and the like, in whole packs.

    Example: casewright hardware pantry.toml --explain
    """
    plan = plan_of(job, time_limit)
    chosen = option_named(plan, option)
    if json is not None:
        _write(json, plan, chosen, force=force)
    if json != "-":
        _show(plan, chosen, explain=explain)


def _write(path: str, plan: Plan, option: Option, *, force: bool) -> None:
    data = {
        "option": option.name,
        "lines": [line.model_dump(mode="json") for line in hardware_list(plan.job, option)],
        "pin_holes": [one.model_dump(mode="json") for one in holes(plan.job, option)],
    }
    write_answer(path, "hardware", plan, data, force=force)


def _show(plan: Plan, option: Option, *, explain: bool) -> None:
    out, unit = console(), plan.unit
    lines = hardware_list(plan.job, option)
    out.print(f"{plain_name(plan.job.head.title)}: hardware for {plain_name(option.name)}")
    for titled in tables.tables(lines, unit):
        out.print(f"\n{titled.title}")
        out.print(titled.table)
    points(out, tables.hole_lines(holes(plan.job, option), unit), "Holes for shelf pins")
    if explain:
        points(out, tables.explained_lines(lines, unit), "Where the numbers come from")
