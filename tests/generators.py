"""Jobs of realistic shape and any size, for benchmarks and tests; the same arguments, the same job.

**Things.** Five classes, drawn with these shares and sizes in mm (width x height x depth, then
mass per litre of bounding box)::

    small figure   3 in 10    35-90   x  50-160  x  35-90    0.5 kg
    jug            2 in 10    90-200  x 110-260  x  90-180   0.3 kg
    clock          2 in 10   120-330  x 150-380  x  80-190   0.45 kg
    book           2 in 10    18-60   x 180-330  x 130-250   0.6 kg, no gap between its like
    tall vase      1 in 10    90-190  x 300-470  x  90-190   0.3 kg

Sizes are whole millimetres, or eighths of an inch. Every kind has one thing; the rest are dealt
out at random, three times as likely to books and figures. One weight in eight is left out.

**The case.** `tight` is the share of the run of all openings (clear width less end margins) that
the things and one gap each take up. The fewest shelves from 3 to 9 are taken for which the bays
are at most 1 m wide, more than 1 m if 9 are not enough. Then the things, tallest first, are
stood row by row, and each row is as high as its tallest and the headroom, with 5 % of the inside
height to spare. If they do not all go in like that the bays are widened by 2 % at a time, so
that a tight job is a little less tight than asked, and **every job can be done** as asked.
"""

from __future__ import annotations

from dataclasses import dataclass
from random import Random
from typing import Any

from solver.intake.load import load
from solver.job.job import Job
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, round_up

WIDEST = 1000 * TICKS_PER_MM
"""Widest bay that is made while more shelves are possible [tick]."""
SHELVES = range(3, 10)


@dataclass(frozen=True)
class ThingClass:
    """A class of things; sizes are (least, most) in mm."""

    name: str
    share: int
    width: tuple[int, int]
    height: tuple[int, int]
    depth: tuple[int, int]
    kg_per_litre: float
    often: int = 1
    gap: int | None = None


CLASSES = (
    ThingClass("small figure", 3, (35, 90), (50, 160), (35, 90), 0.5, often=3),
    ThingClass("jug", 2, (90, 200), (110, 260), (90, 180), 0.3),
    ThingClass("clock", 2, (120, 330), (150, 380), (80, 190), 0.45),
    ThingClass("book", 2, (18, 60), (180, 330), (130, 250), 0.6, often=3, gap=0),
    ThingClass("tall vase", 1, (90, 190), (300, 470), (90, 190), 0.3),
)


@dataclass(frozen=True)
class Measures:
    """The lengths that a job is made with, in ticks."""

    step: Ticks
    board: Ticks
    back: Ticks
    headroom: Ticks
    gap: Ticks
    end_margin: Ticks


METRIC = Measures(*(TICKS_PER_MM * n for n in (1, 18, 6, 25, 12, 12)))
INCH = Measures(*(TICKS_PER_INCH * n // 32 for n in (4, 23, 7, 32, 16, 16)))


def generate_job(
    kinds: int,
    things: int,
    cases: int = 1,
    bays: int = 1,
    seed: int = 1,
    tight: float = 0.7,
    unit: Unit = "mm",
    beside: bool = True,
) -> Job:
    """Make a job that can be done; see the module for sizes and for what `tight` means.

    Parameters
    ----------
    kinds, things
        Kinds and things in all, at least one thing a kind [-].
    cases, bays
        Cases, and bays of each [-].
    seed
        Seed of all that is drawn [-].
    tight
        Share of the run that is wanted [-].
    unit
        Unit of the job [-].
    beside
        True to name each case as beside the one before, so that they share shelf lines.
    """
    random, m = Random(seed), METRIC if unit == "mm" else INCH
    items = _items(random, m, kinds, things)
    shelves, width = _shelves_and_width(m, items, cases * bays, tight)
    while (rows := _rows(m, items, width, cases * bays, shelves + 1)) is None:
        width = round_up(width * 51 // 50, m.step)
    return load(
        {
            "job": {"title": f"{kinds} kinds, {things} things, seed {seed}", "unit": unit},
            "case": _cases(
                m, (cases, bays), shelves, (width, sum(rows) * 21 // 20, _depth(items)), beside
            ),
            "look": {"headroom": m.headroom, "gap": m.gap, "end_margin": m.end_margin},
            "sheet": _sheets(m),
            "item": items,
        }
    )


def from_large_sheets(job: Job) -> Job:
    """Return a job whose sheets are 3050 x 1525 mm: cases of wide bays have large backs."""
    larger = {"length": 3050 * TICKS_PER_MM, "width": 1525 * TICKS_PER_MM}
    sheets = tuple(sheet.model_copy(update=larger) for sheet in job.sheets)
    return job.model_copy(update={"sheets": sheets})


def _items(random: Random, m: Measures, kinds: int, things: int) -> list[dict[str, Any]]:
    shares = [one.share for one in CLASSES]
    chosen = random.choices(CLASSES, weights=shares, k=kinds)
    counts = [1] * kinds
    for index in random.choices(range(kinds), [one.often for one in chosen], k=things - kinds):
        counts[index] += 1
    return [
        _item(random, m, one, number, count)
        for number, (one, count) in enumerate(zip(chosen, counts, strict=True), start=1)
    ]


def _item(random: Random, m: Measures, one: ThingClass, number: int, count: int) -> dict[str, Any]:
    low_high = (one.width, one.height, one.depth)
    millimetres = [random.randint(*size) for size in low_high]
    sizes = [round_up(size * TICKS_PER_MM, m.step) for size in millimetres]
    width, height, depth = millimetres
    grams = round(width * height * depth * one.kg_per_litre / 1000)
    item = dict(zip(("width", "height", "depth"), sizes, strict=True))
    weight = {} if random.randrange(8) == 0 else {"weight": grams}
    gap = {} if one.gap is None else {"gap": one.gap}
    return {"name": f"{one.name} {number}", "count": count, **item, **weight, **gap}


def _depth(items: list[dict[str, Any]]) -> Ticks:
    return max(int(item["depth"]) for item in items)


def _shelves_and_width(
    m: Measures, items: list[dict[str, Any]], bays: int, tight: float
) -> tuple[int, Ticks]:
    """Shelves of each bay, and the clear width that gives the tightness [tick]."""
    run = sum(item["count"] * (item["width"] + m.gap) for item in items)
    widest = max(item["width"] for item in items)
    width = 0
    for shelves in SHELVES:
        each = max(int(run / tight / (bays * (shelves + 1))), widest)
        width = round_up(each + 2 * m.end_margin, m.step)
        if width <= WIDEST:
            return shelves, width
    return SHELVES[-1], width


def _rows(
    m: Measures, items: list[dict[str, Any]], width: Ticks, bays: int, openings: int
) -> list[Ticks] | None:
    """Heights of the rows with the things stood in them, tallest first; None if some are left.

    A row is one opening of every bay; all bays share the shelf lines.
    """
    order = sorted(items, key=lambda item: -int(item["height"]))
    singles = [item for item in order for _ in range(item["count"])]
    room = width - 2 * m.end_margin
    rows: list[Ticks] = []
    index, at = 0, 0
    for opening in range(openings * bays):
        if opening % bays == 0:
            tallest = singles[index]["height"] if index < len(singles) else 0
            rows.append(max(tallest + m.headroom, 100 * TICKS_PER_MM, 4 * TICKS_PER_INCH))
        at = 0
        while index < len(singles) and at + singles[index]["width"] <= room:
            at += singles[index]["width"] + m.gap
            index += 1
    return rows if index == len(singles) else None


def _cases(
    m: Measures,
    number_of: tuple[int, int],
    shelves: int,
    clear: tuple[Ticks, Ticks, Ticks],
    beside: bool,
) -> list[dict[str, Any]]:
    """Cases alike, for (cases, bays of each) and a bay's clear (width, height, depth).

    The height is that of all openings of a bay together [tick].
    """
    (cases, bays), (width, height, depth) = number_of, clear
    return [
        {
            "name": f"case {number}",
            "width": bays * (width + m.board) + m.board,
            "height": round_up(height + (shelves + 2) * m.board, m.step),
            "depth": round_up(depth + m.back, m.step),
            "uprights": bays - 1,
            "shelves": shelves,
            **({"beside": f"case {number - 1}"} if beside and number > 1 else {}),
        }
        for number in range(1, cases + 1)
    ]


def _sheets(m: Measures) -> list[dict[str, Any]]:
    size = {"length": 2500 * TICKS_PER_MM, "width": 1250 * TICKS_PER_MM}
    if m is INCH:
        size = {"length": 96 * TICKS_PER_INCH, "width": 48 * TICKS_PER_INCH}
    return [
        {"name": "carcass ply", "material": "ply", "thickness": m.board, "price": "85.00", **size},
        {"name": "back ply", "material": "back", "thickness": m.back, "price": "35.00", **size},
    ]
