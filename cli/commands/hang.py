"""`casewright hang`: what holds a case up, on one screen."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from cli.options import Explain, Force, JsonBeside, MakeOption, TimeLimit

if TYPE_CHECKING:
    from rich.console import Console

    from solver.hanging import Hanging, HangSheet
    from solver.plan import Option, Plan

MORE = "With --explain: each figure's formula and source, every shelf, pivots and casters instead."


def hang(
    job: Annotated[
        str, typer.Argument(metavar="JOB", help="A job file (.toml), or a plan (.json) of one.")
    ],
    option: MakeOption = None,
    explain: Explain = False,
    json: JsonBeside = None,
    force: Force = False,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Show weight, hinges or fixings, tipping, sag and cautions of each case as planned.

    Exit code 1 where something does not hold.

    Example: casewright hang pantry.toml --explain
    """
    from cli.plan_of import option_named, plan_of
    from solver.errors import CannotBeDoneError
    from solver.strength.sheet import hanging_of

    plan = plan_of(job, time_limit)
    chosen = option_named(plan, option)
    hanging = hanging_of(plan.job, chosen)
    if json is not None:
        _write(json, plan, chosen, hanging, force=force)
    if json != "-":
        _show(plan, chosen, hanging, explain=explain)
    weak = [
        f"{sheet.case}: {one.what}"
        for sheet in hanging.cases
        for one in sheet.figures
        if one.ok is False
    ]
    if weak:
        msg = f"not enough: {'; '.join(weak)}; what follows is said above"
        raise CannotBeDoneError(msg)


def _write(path: str, plan: Plan, option: Option, hanging: Hanging, *, force: bool) -> None:
    import json as json_module

    from cli.output import write_text

    data = {
        "schema": "casewright/hang/1",
        "unit": plan.unit,
        "job_hash": plan.job_hash,
        "option": option.name,
        **hanging.model_dump(mode="json"),
        "strength": option.strength.model_dump(mode="json") if option.strength else None,
    }
    write_text(path, json_module.dumps(data, ensure_ascii=False, indent=1) + "\n", force=force)


def _show(plan: Plan, option: Option, hanging: Hanging, *, explain: bool) -> None:
    from cli.console import console
    from cli.tables.strength import sag_lines, sag_table

    out = console()
    for sheet in hanging.cases:
        _show_case(out, plan, sheet, explain=explain)
    if explain:
        for titled in sag_table(option, plan.unit):
            out.print(f"\n{titled.title}")
            out.print(titled.table)
    _lines(out, "Sag", sag_lines(option, plan.unit)[: None if explain else -1])
    cautions = [one.line if explain else one.text for one in hanging.cautions]
    _lines(out, "Cautions", [*cautions, hanging.defer])
    if not explain:
        out.print(f"\n{MORE}")


def _show_case(out: Console, plan: Plan, sheet: HangSheet, *, explain: bool) -> None:
    from textwrap import fill

    from cli.tables import hang as tables

    out.print(fill(tables.headline(sheet, plan.unit), out.width))
    _lines(out, "", tables.weight_lines(sheet))
    out.print()
    out.print(tables.figures_table(sheet, plan.unit))
    if sheet.hinges:
        out.print()
        out.print(tables.hinges_table(sheet, plan.unit))
    _lines(out, "To get", list(sheet.to_get))
    if explain:
        _lines(out, "Instead of hinges", list(sheet.instead))
        _lines(out, "Where the figures come from (N and mm)", tables.explained_lines(sheet))


def _lines(out: Console, title: str, lines: list[str]) -> None:
    from textwrap import fill

    if lines and title:
        out.print(f"\n{title}")
    for line in lines:
        out.print(fill(line, out.width, initial_indent="- ", subsequent_indent="  "))
