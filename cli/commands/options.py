"""Options that several commands share, each with its help, in one place."""

from __future__ import annotations

from typing import Annotated, Literal

import typer

from solver.job.job import Rhythm as RhythmWord
from solver.job.job import ShelfStyle as ShelfStyleWord
from solver.job.job import Tallest as TallestWord

JobArgument = Annotated[str, typer.Argument(metavar="JOB", help="A job file (.toml).")]
JobOrList = Annotated[
    str,
    typer.Argument(
        metavar="JOB",
        help="A job file (.toml); or a list of things (.csv .tsv .txt .xlsx, - for a pasted"
        " one) with --inside, --outside or --opening.",
    ),
]
Items = Annotated[
    str | None,
    typer.Option("--items", metavar="FILE", help="Further things for a job file; - pasted."),
]
AcceptGuesses = Annotated[
    bool,
    typer.Option(
        "--accept-guesses",
        help="Take the likeliest reading of each doubtful line of a list, and say which.",
    ),
]
Inside = Annotated[
    str | None,
    typer.Option(
        "--inside", metavar="WxHxD", help="Clear inside sizes of the case, such as 30x71x7."
    ),
]
Outside = Annotated[
    str | None, typer.Option("--outside", metavar="WxHxD", help="Outside sizes instead.")
]
Opening = Annotated[
    str | None,
    typer.Option(
        "--opening",
        metavar="WxHxD",
        help="Sizes of the alcove or niche it is built into instead: less the room to fit it in.",
    ),
]
Shelves = Annotated[
    str | None,
    typer.Option(
        "--shelves",
        metavar="COUNTS",
        help="Shelves between bottom and top: 4, or 4,5 to compare, or 4-6.",
    ),
]
UnitOfSizes = Annotated[
    Literal["in", "mm"] | None,
    typer.Option("--unit", metavar="in|mm", help="Unit of sizes without one; in if left out."),
]
Headroom = Annotated[
    str | None,
    typer.Option("--headroom", metavar="LENGTH", help="Least room above each thing."),
]
Rhythm = Annotated[
    RhythmWord | None,
    typer.Option(
        "--rhythm",
        metavar="RHYTHM",
        help="How the openings are to follow each other: steady (each lower than the one below by"
        " one step), even, graduated, symmetric, to-fit.",
    ),
]
Tallest = Annotated[
    TallestWord | None,
    typer.Option("--tallest", metavar="low|top|any", help="Where the tallest opening is to be."),
]
ShelfStyle = Annotated[
    ShelfStyleWord | None,
    typer.Option(
        "--shelf-style",
        metavar="mirrored|grouped",
        help="Rows like mirror images, kinds halved about the middle; or every kind whole.",
    ),
]
Prefer = Annotated[
    Literal["price", "look"] | None,
    typer.Option("--prefer", metavar="price|look", help="Which of the two comes first."),
]
Json = Annotated[
    str | None,
    typer.Option(
        "--json", metavar="FILE", help="Write the result as JSON; - for standard output, alone."
    ),
]
JobOrPlan = Annotated[
    str, typer.Argument(metavar="JOB", help="A job file (.toml), or a plan (.json) of one.")
]
OutputFolder = Annotated[
    str | None,
    typer.Option(
        "-o",
        "--output",
        metavar="FOLDER",
        help="Where to; left out, a folder beside the job, named after it.",
    ),
]
JsonBeside = Annotated[
    str | None,
    typer.Option("--json", metavar="FILE", help="Write it as JSON; - for standard output."),
]
Explain = Annotated[
    bool, typer.Option("--explain", help="Formula, numbers and source of each figure.")
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
ShowFull = Annotated[
    bool,
    typer.Option("--full", help="Show everything: what stands where, parts, cuts, all cautions."),
]
ShowAll = Annotated[bool, typer.Option("--all", help="The same, with the details of every option.")]
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
        help="Hold a decision, repeatable: alcove:shelf2=31-1/2 (its underside),"
        " 'mantel clock=opening 3', 'mantel clock=opening 3 place 1' (from the left), or"
        " 'alcove:opening 3=empty'. From the last plan on, what is not touched moves as"
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
UnitWord = Literal["in", "mm"]
Prices = Annotated[
    str | None,
    typer.Option(
        "--prices",
        metavar="FILE",
        help="Price list, CSV or TOML: item, price, pack, on_hand; fixtures/prices has samples.",
    ),
]
MakeOption = Annotated[
    str | None,
    typer.Option(
        "--option",
        metavar="NAME",
        help="Option of the plan, such as '6 shelves'; left out, the recommended one.",
    ),
]
