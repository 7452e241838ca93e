"""`casewright hardware`: hardware and consumables of a plan, in whole packs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from cli.options import Force, MakeOption, TimeLimit

if TYPE_CHECKING:
    from rich.console import Console

    from solver.plan import Option, Plan


def hardware(
    job: Annotated[
        str, typer.Argument(metavar="JOB", help="A job file (.toml), or a plan (.json) of one.")
    ],
    option: MakeOption = None,
    explain: Annotated[
        bool, typer.Option("--explain", help="Arithmetic and source of each line.")
    ] = False,
    json: Annotated[
        str | None,
        typer.Option("--json", metavar="FILE", help="Write it as JSON; - for standard output."),
    ] = None,
    force: Force = False,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Show hinges, screws with their holes, pins, glue, finish and the like, in whole packs.

    Example: casewright hardware pantry.toml --explain
    """
    from cli.plan_of import option_named, plan_of

    plan = plan_of(job, time_limit)
    chosen = option_named(plan, option)
    if json is not None:
        _write(json, plan, chosen, force=force)
    if json != "-":
        _show(plan, chosen, explain=explain)


def _write(path: str, plan: Plan, option: Option, *, force: bool) -> None:
    import json as json_module

    from cli.output import write_text
    from solver.hardware.every import hardware_list, holes

    data = {
        "schema": "casewright/hardware/1",
        "unit": plan.unit,
        "job_hash": plan.job_hash,
        "option": option.name,
        "lines": [line.model_dump(mode="json") for line in hardware_list(plan.job, option)],
        "pin_holes": [one.model_dump(mode="json") for one in holes(plan.job, option)],
    }
    write_text(path, json_module.dumps(data, ensure_ascii=False, indent=1) + "\n", force=force)


def _show(plan: Plan, option: Option, *, explain: bool) -> None:
    from cli.console import console
    from cli.tables import hardware as tables
    from cli.tables.words import plain_name
    from solver.hardware.every import hardware_list, holes

    out, unit = console(), plan.unit
    lines = hardware_list(plan.job, option)
    out.print(f"{plain_name(plan.job.head.title)}: hardware for {plain_name(option.name)}")
    for titled in tables.tables(lines, unit):
        out.print(f"\n{titled.title}")
        out.print(titled.table)
    _lines(out, "Holes for shelf pins", tables.hole_lines(holes(plan.job, option), unit))
    if explain:
        _lines(out, "Where the numbers come from", tables.explained_lines(lines, unit))


def _lines(out: Console, title: str, lines: list[str]) -> None:
    from textwrap import fill

    if lines:
        out.print(f"\n{title}")
    for line in lines:
        out.print(fill(line, out.width, initial_indent="- ", subsequent_indent="  "))
