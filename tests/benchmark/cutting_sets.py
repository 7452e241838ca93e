"""The lists that the cutting benchmark runs: published sets, shop lists, fixtures, long lists."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import TypeAlias

from solver.carcass.outline import depth_wanted
from solver.carcass.settled_job import CaseSize, settle
from solver.cutting.cutting_problem import (
    CutPart,
    CutSheet,
    CuttingProblem,
    StickPart,
    StickProblem,
    StickStock,
)
from solver.job.case import Case, least_size
from solver.job.job import Job
from solver.outcome import Limits
from solver.sizing.combinations import combinations
from solver.sizing.purchase import Buyer, sheet_parts
from solver.units import inches
from tests.benchmark.jobs import FIXTURES
from tests.benchmark.shop_lists import shop_lists
from tests.cutting_checks import problem

PUBLISHED = ("guillotine", "furniture", "sticks")
SETS = (*PUBLISHED, "shop", "fixtures", "big")
SHOP_MANY = 200
BIG = ((1000, 100), (1000, 1000), (5000, 300), (5000, 5000))
"""Parts and kinds of the long lists [-]."""

Asked: TypeAlias = CuttingProblem | StickProblem


@dataclass(frozen=True)
class Instance:
    """One list: its problems, the fewest sheets known (0: unknown), and whether proven."""

    name: str
    kind: str
    problems: tuple[Asked, ...]
    best: int = 0
    best_proven: bool = False


def instances(which: str, folder: Path, limit: int | None) -> list[Instance]:
    """Return the lists of a set; with a limit so many rows of it, evenly taken."""
    if which == "shop":
        lists = shop_lists(limit or SHOP_MANY)
        return [Instance(one.name, one.kind, one.problems) for one in lists]
    if which == "fixtures":
        return list(fixtures())
    if which == "big":
        return [long_list(*size, turn) for size in BIG[:limit] for turn in (False, True)]
    with (folder / f"{which}.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    step = max(1, len(rows) // limit) if limit else 1
    # One of each `step` rows, not always the same one: files are in tens of a kind.
    some = [rows[at + at // step % step] for at in range(0, len(rows) - step + 1, step)]
    read_row = sticks if which == "sticks" else sheets
    return [one for row in some for one in read_row(row)]


def read(text: str) -> list[list[int]]:
    """Sizes and quantity of each part: `LENGTHxWIDTH*QUANTITY`, or `LENGTH*QUANTITY`."""
    return [[int(x) for x in row.replace("*", "x").split("x")] for row in text.split()]


def sheets(row: dict[str, str]) -> Iterator[Instance]:
    """Yield a published list twice: parts fixed, and turning."""
    parts = [(a, b, n) for a, b, n in read(row["parts"])]
    size = int(row["sheet_length"]), int(row["sheet_width"])
    kind = f"class {row['class']:>2}" if "class" in row else "furniture"
    for mode in ("fixed", "turning"):
        yield Instance(
            f"{row['instance']} {mode}",
            f"{kind} {mode}",
            (problem(parts, size, turn=mode == "turning"),),
            int(row[f"{mode}_best"] or 0),
            row[f"{mode}_proven"] == "yes",
        )


def sticks(row: dict[str, str]) -> Iterator[Instance]:
    """Yield a published list of sticks."""
    lengths = [length for length, count in read(row["parts"]) for _ in range(count)]
    pieces = tuple(StickPart(f"p{i}", length) for i, length in enumerate(lengths))
    stick = StickStock("stick", int(row["stick_length"]), None)
    asked = StickProblem(pieces, (stick,), kerf=0)
    kind = row["instance"].split()[0]
    yield Instance(row["instance"], kind, (asked,), int(row["best"]), row["proven"] == "yes")


def fixtures() -> Iterator[Instance]:
    """Yield what the fixtures' jobs need at their least depth, with least and most shelves."""
    from cli.files.job_file import read_job

    for path in FIXTURES:
        job = read_job(str(path))
        found, _ = combinations(job)
        by_number = sorted(found, key=lambda counts: sum(sum(n) for n in counts.values()))
        for which, counts in {"least": by_number[0], "most": by_number[-1]}.items():
            sizes = {case.name: _least(job, case) for case in job.cases}
            one = settle(job, counts, sizes)
            buyer, depths = Buyer(one, Limits()), {name: size.depth for name, size in sizes.items()}
            parts = sheet_parts(one, counts, depths)
            materials = sorted({part.material for part in parts})
            cut = [buyer.problem(m, [p for p in parts if p.material == m]) for m in materials]
            asked: tuple[Asked, ...] = (*cut, *buyer.stick_problems(counts, depths))
            yield Instance(f"{path.stem}, {which} shelves", "fixtures", asked)


def _least(job: Job, case: Case) -> CaseSize:
    """Return the least sizes of a case."""
    found = (case.width, case.height, depth_wanted(job, case))
    return CaseSize(*map(least_size, found))


def long_list(parts: int, kinds: int, turn: bool, seed: int = 1) -> Instance:
    """Return a list of so many parts and kinds on 8 x 4 ft, with a kerf and trimmed edges."""
    rng = Random(f"{seed} {parts} {kinds} {turn}")
    step = inches("1/16")
    # Narrow parts as often as wide ones, as in a shop: long strips beside panels.
    sizes = [
        (rng.randint(48, 1200) * step, round(32 * 20 ** rng.random()) * step) for _ in range(kinds)
    ]
    drawn = [*range(kinds), *(rng.randrange(kinds) for _ in range(parts - kinds))]
    listed = tuple(
        CutPart(f"p{kind}#{i}", sizes[kind][0], sizes[kind][1], turn)
        for i, kind in enumerate(drawn)
    )
    board = CutSheet("ply", "ply", inches(96), inches(48), None)
    asked = CuttingProblem(listed, (board,), inches("1/8"), inches("1/4"))
    way = "turning" if turn else "fixed"
    return Instance(f"{parts} of {kinds}", f"{parts} of {kinds} kinds, {way}", (asked,))
