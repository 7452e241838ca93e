"""Options that several commands share, each with its help, in one place."""

from __future__ import annotations

from typing import Annotated, Literal

import typer

Json = Annotated[
    str | None,
    typer.Option(
        "--json", metavar="FILE", help="Write the plan as JSON; - for standard output, alone."
    ),
]
Csv = Annotated[
    str | None,
    typer.Option("--csv", metavar="FOLDER", help="Write the tables of all options as CSV files."),
]
Xlsx = Annotated[
    str | None,
    typer.Option("--xlsx", metavar="FILE", help="Write the same tables as one workbook."),
]
Force = Annotated[bool, typer.Option("--force", help="Replace files that exist.")]
Quiet = Annotated[bool, typer.Option("--quiet", help="Print nothing but errors.")]
ShowAll = Annotated[
    bool,
    typer.Option(
        "--all", help="Show the details of every option, not only of the recommended one."
    ),
]
TimeLimit = Annotated[
    float,
    typer.Option(
        "--time-limit",
        metavar="SECONDS",
        min=0.1,
        help="Stop after this long and show the best so far.",
    ),
]
Seed = Annotated[
    int, typer.Option("--seed", metavar="N", min=0, max=2**31 - 1, help="Seed of every search.")
]
RhythmWord = Literal["even", "graduated", "symmetric", "to-fit"]
PreferWord = Literal["price", "look"]
UnitWord = Literal["in", "mm"]
