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
Near = Annotated[
    bool,
    typer.Option(
        "--near/--no-near",
        help="Small changes of the job that would save or gain something, each solved again.",
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
Hold = Annotated[
    list[str] | None,
    typer.Option(
        "--hold",
        metavar="WHAT=WHERE",
        help="Hold a decision, repeatable: alcove:shelf2=31-1/2 (its underside), or"
        " 'mantel clock=opening 3'. From the last plan on, what is not touched moves as"
        " little as possible.",
    ),
]
From = Annotated[
    str | None,
    typer.Option(
        "--from",
        metavar="PLAN.json",
        help="Plan to start from; left out, the last one, kept beside the job file.",
    ),
]
StartOption = Annotated[
    str | None,
    typer.Option(
        "--option",
        metavar="NAME",
        help="Option of that plan to start from, such as '6 shelves'; left out, its first.",
    ),
]
NoKeep = Annotated[
    bool,
    typer.Option("--no-keep", help="Do not keep the plan beside the job file as its last one."),
]
RhythmWord = Literal["even", "graduated", "symmetric", "to-fit"]
PreferWord = Literal["price", "look"]
UnitWord = Literal["in", "mm"]
