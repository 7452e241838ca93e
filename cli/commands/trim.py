"""`casewright trim`: every piece of trim of each case as planned."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from cli.options import Force, MakeOption, TimeLimit

if TYPE_CHECKING:
    from rich.console import Console

    from solver.plan import Option, Plan
    from solver.trimming import TrimSet


def trim(
    job: Annotated[
        str, typer.Argument(metavar="JOB", help="A job file (.toml), or a plan (.json) of one.")
    ],
    option: MakeOption = None,
    explain: Annotated[
        bool, typer.Option("--explain", help="Formula, numbers and source of each figure.")
    ] = False,
    json: Annotated[
        str | None,
        typer.Option("--json", metavar="FILE", help="Write it as JSON; - for standard output."),
    ] = None,
    force: Force = False,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Show every piece of trim: length, ends, what it is cut from, on the case or on the wall.

    Example: casewright trim pantry.toml --explain
    """
    from cli.plan_of import option_named, plan_of
    from solver.trim.sets import trim_sets

    plan = plan_of(job, time_limit)
    chosen = option_named(plan, option)
    sets = trim_sets(plan.job, chosen)
    if json is not None:
        _write(json, plan, chosen, sets, force=force)
    if json != "-":
        _show(plan, chosen, sets, explain=explain)


def _write(
    path: str, plan: Plan, option: Option, sets: tuple[TrimSet, ...], *, force: bool
) -> None:
    import json as json_module

    from cli.output import write_text
    from cli.tables.trim import as_data

    data = {
        "schema": "casewright/trim/1",
        "unit": plan.unit,
        "job_hash": plan.job_hash,
        "option": option.name,
        "cases": [as_data(one) for one in sets],
    }
    write_text(path, json_module.dumps(data, ensure_ascii=False, indent=1) + "\n", force=force)


def _show(plan: Plan, option: Option, sets: tuple[TrimSet, ...], *, explain: bool) -> None:
    from cli.console import console
    from cli.tables import trim as tables
    from solver.trim.allowance import allowances

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
            _lines(out, "", tables.of_figures(allowances(plan.job, option), plan.unit))


def _show_case(out: Console, plan: Plan, trim: TrimSet, *, explain: bool) -> None:
    from cli.tables import trim as tables
    from cli.trim_picture import picture

    unit, plain = plan.unit, not out.encoding.lower().startswith("utf")
    out.print(tables.headline(trim))
    if trim.pieces:
        out.print()
        out.print(tables.pieces_table(trim, unit))
    drawn = picture(trim.pieces, plain=plain, hung=trim.kind == "hung")
    for line in ["", *drawn] if drawn else ():
        out.print(tables.term(line, unit), soft_wrap=True)
    if trim.flutes is not None:
        out.print(f"\nFlutes\n  {tables.flute_picture(trim.flutes, 42, plain=plain)}")
        _lines(out, "", tables.flute_lines(trim.flutes, unit))
    if trim.light is not None:
        _lines(out, "Light", tables.light_lines(trim.light, unit))
    if trim.glass is not None:
        _lines(out, "Glass", tables.glass_lines(trim.glass, unit))
    _lines(out, "Travels with the case, or stays on the wall", tables.why_lines(trim, unit))
    _lines(out, "Notes", [tables.term(note, unit) for note in trim.notes])
    if explain:
        _lines(out, "Where the figures come from", tables.of_figures(trim.figures, unit))


def _lines(out: Console, title: str, lines: list[str]) -> None:
    from textwrap import fill

    if lines and title:
        out.print(f"\n{title}")
    for line in lines:
        out.print(fill(line, out.width, initial_indent="- ", subsequent_indent="  "))
