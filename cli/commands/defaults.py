"""`casewright defaults`: what holds where a job says nothing, and where it comes from."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.commands.options import Force, UnitWord
from cli.files.output import write_answer
from cli.screen.console import console
from cli.screen.default_values import default_rows, defaults_table


def defaults(
    unit: Annotated[
        UnitWord,
        typer.Option(
            "--unit", metavar="in|mm", help="Show the defaults of an inch or a metric job."
        ),
    ] = "in",
    json: Annotated[
        str | None,
        typer.Option(
            "--json", metavar="FILE", help="Write them as JSON; - for standard output, alone."
        ),
    ] = None,
    force: Force = False,
) -> None:
    """List every default: its key in the job file, value, meaning and source.

    Example: casewright defaults --unit mm
    """
    if json is not None:
        write_answer(json, "defaults", unit, {"defaults": default_rows(unit)}, force=force)
        return

    out = console()
    out.print(defaults_table(unit))
    out.print()
    out.print(f"Lengths without a unit are in {unit}. Everything but the things to display and")
    out.print("one case's width and height has a default. Common practice: no source was found.")
