"""`casewright trim`: every piece of trim of each case as planned."""

from __future__ import annotations

from rich.console import Console

from cli.commands.options import Explain, Force, JobOrPlan, JsonBeside, MakeOption, TimeLimit
from cli.run.plan_of import OptionRequest
from cli.screen import trim_tables as tables
from cli.screen.console import console, points
from cli.screen.trim_tables import as_data, picture
from solver.plan.plan import Option, Plan
from solver.plan.trimming import TrimSet
from solver.trim.trim_pieces import allowances
from solver.trim.trim_sets import trim_sets


def trim(
    job: JobOrPlan,
    option: MakeOption = None,
    explain: Explain = False,
    json: JsonBeside = None,
    force: Force = False,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Show every piece of trim: length, ends, what it is cut from, on the case or on the wall.

    Example: casewright trim pantry.toml --explain
    """
    request = OptionRequest(job, option, time_limit, json, force=force)
    plan, chosen = request.read()
    sets = trim_sets(plan.job, chosen)
    request.deliver(
        "trim",
        plan,
        lambda: {"option": chosen.name, "cases": [as_data(one) for one in sets]},
        lambda: _show(plan, chosen, sets, explain=explain),
    )


def _show(plan: Plan, option: Option, sets: tuple[TrimSet, ...], *, explain: bool) -> None:
    out = console()
    for at, one in enumerate(sets):
        if at:
            out.print()
        _show_case(out, plan, one, explain=explain)
    wanted = {piece.id for one in sets for piece in one.pieces}
    if any(piece.part in wanted for stick in option.mouldings for piece in stick.pieces):
        titled = tables.buy_table(option.mouldings, wanted, plan.unit)
        out.print(f"\n{titled.title}")
        out.print(titled.table)
        if explain:
            points(out, tables.figure_lines(allowances(plan.job, option), plan.unit))


def _show_case(out: Console, plan: Plan, trim: TrimSet, *, explain: bool) -> None:
    unit, plain = plan.unit, not out.encoding.lower().startswith("utf")
    out.print(tables.headline(trim))
    if trim.pieces:
        out.print()
        out.print(tables.pieces_table(trim, unit))
    drawn = picture(trim.pieces, plain=plain, hung=trim.kind == "hung")
    for line in ["", *drawn] if drawn else ():
        out.print(tables.trade_term(line, unit), soft_wrap=True)
    if trim.flutes is not None:
        out.print(f"\nFlutes\n  {tables.flute_picture(trim.flutes, 42, plain=plain)}")
        points(out, tables.flute_lines(trim.flutes, unit))
    if trim.light is not None:
        points(out, tables.light_lines(trim.light, unit), "Light")
    if trim.glass is not None:
        points(out, tables.glass_lines(trim.glass, unit), "Glass")
    points(out, tables.why_lines(trim, unit), "Travels with the case, or stays on the wall")
    points(out, [tables.trade_term(note, unit) for note in trim.notes], "Notes")
    if explain:
        points(out, tables.figure_lines(trim.figures, unit), "Where the figures come from")
