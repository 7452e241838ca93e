"""`casewright items`: how each line of a list of things is understood."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.console import console
from cli.files import read_inventory
from cli.options import UnitWord
from cli.tables.readings import readings_table, summary
from cli.tables.words import UNIT_NAMES


def items(
    path: Annotated[
        str,
        typer.Argument(
            metavar="FILE", help="A list of things (.csv .tsv .txt .xlsx), or - for a pasted one."
        ),
    ],
    unit: Annotated[UnitWord, typer.Option("--unit", help="Unit of sizes that have none.")] = "in",
    sheet: Annotated[
        str | None, typer.Option("--sheet", metavar="NAME", help="Worksheet of an .xlsx file.")
    ] = None,
) -> None:
    """Show how each line of a list is read: the thing, its sizes, and what was assumed."""
    listing = read_inventory(path, unit, sheet)
    listing.raise_if_unreadable()
    out = console()
    out.print(readings_table(listing, unit))
    out.print()
    for line in (
        *listing.notes,
        f"{summary(listing)}; sizes in {UNIT_NAMES[unit]}, weights of one",
    ):
        out.print(line)
