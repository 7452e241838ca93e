"""`casewright hang`: what holds a case up, on one screen."""

from __future__ import annotations

from textwrap import fill

from rich.console import Console

from cli.commands.options import Explain, Force, JobOrPlan, JsonBeside, MakeOption, TimeLimit
from cli.run.plan_of import OptionRequest
from cli.screen import strength_tables as tables
from cli.screen.console import console, points
from cli.screen.strength_tables import sag_lines, sag_table
from solver.errors import CannotBeDoneError
from solver.plan.hanging import Hanging, HangSheet
from solver.plan.plan import Option, Plan
from solver.strength.hang_sheet import hanging_of

MORE = "With --explain: each figure's formula and source, every shelf, pivots and casters instead."


def hang(
    job: JobOrPlan,
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
    request = OptionRequest(job, option, time_limit, json, force=force)
    plan, chosen = request.read()
    hanging = hanging_of(plan.job, chosen)
    request.deliver(
        "hang",
        plan,
        lambda: _data(chosen, hanging),
        lambda: _show(plan, chosen, hanging, explain=explain),
    )
    weak = [
        f"{sheet.case}: {one.what}"
        for sheet in hanging.cases
        for one in sheet.figures
        if one.ok is False
    ]
    if weak:
        msg = f"not enough: {'; '.join(weak)}; what follows is said above"
        raise CannotBeDoneError(msg)


def _data(option: Option, hanging: Hanging) -> dict[str, object]:
    return {
        "option": option.name,
        **hanging.model_dump(mode="json"),
        "strength": option.strength.model_dump(mode="json") if option.strength else None,
    }


def _show(plan: Plan, option: Option, hanging: Hanging, *, explain: bool) -> None:
    out = console()
    for sheet in hanging.cases:
        show_sheet(out, plan, sheet, explain=explain)
    if explain:
        for titled in sag_table(option, plan.unit):
            out.print(f"\n{titled.title}")
            out.print(titled.table)
    points(out, sag_lines(option, plan.unit)[: None if explain else -1], "Sag")
    cautions = [one.line if explain else one.text for one in hanging.cautions]
    points(out, [*cautions, hanging.defer], "Cautions")
    if not explain:
        out.print(f"\n{MORE}")


def show_sheet(out: Console, plan: Plan, sheet: HangSheet, *, explain: bool) -> None:
    """Print what holds one case up."""
    out.print(fill(tables.headline(sheet, plan.unit), out.width))
    points(out, tables.weight_lines(sheet))
    out.print()
    out.print(tables.figures_table(sheet, plan.unit))
    if sheet.hinges:
        out.print()
        out.print(tables.hinges_table(sheet, plan.unit))
    points(out, list(sheet.to_get), "To get")
    if explain:
        points(out, list(sheet.instead), "Instead of hinges")
        points(out, tables.explained_lines(sheet), "Where the figures come from (N and mm)")
