"""Lists of parts as a builder of display cases cuts them, drawn by seed.

A list has one to three cases: sides, ends, shelves, uprights, toe, lips ripped from the sheet,
nailers, doors, and backs of thinner board; at most 60 parts of 12 kinds. Each thickness is
a cutting problem for itself, with the shop's saw, trimming and stages, and with what is to be
had: one or several sizes at a price, some in limited number, offcuts on hand.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from random import Random
from typing import TypeAlias

from solver.cutting.cutting_problem import CutPart, CutSheet, CuttingProblem, FirstCut, Stages
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, inches, mm

PARTS_MOST = 60
KINDS_MOST = 12

Row: TypeAlias = tuple[str, Ticks, Ticks, int]
"""Name, length along the grain, width [tick], how many [-]."""

SHOW = ("side", "end", "shelf", "upright", "door", "back")
"""Parts whose grain is seen."""


@dataclass(frozen=True)
class ShopList:
    """One list, as one cutting problem for each thickness."""

    name: str
    kind: str
    problems: tuple[CuttingProblem, ...]


@dataclass(frozen=True)
class _Measures:
    """The sizes that one half of the trade thinks in [tick]."""

    unit: Unit
    step: Ticks
    board: Ticks
    heights: tuple[Ticks, Ticks]
    widths: tuple[Ticks, Ticks]
    depths: tuple[Ticks, Ticks]
    strips: tuple[Ticks, Ticks]
    sheets: tuple[tuple[Ticks, Ticks, int], ...]
    kerfs: tuple[Ticks, ...]
    trims: tuple[Ticks, ...]
    margins: tuple[Ticks, ...]


INCH = _Measures(
    unit="in",
    step=TICKS_PER_INCH // 16,
    board=inches("23/32"),
    heights=(inches(14), inches(84)),
    widths=(inches(16), inches(46)),
    depths=(inches("3-1/2"), inches(16)),
    strips=(inches("1-1/4"), inches(4)),
    sheets=((inches(96), inches(48), 78), (inches(60), inches(60), 62)),
    kerfs=(inches("1/8"), inches("3/32")),
    trims=(0, inches("1/8"), inches("1/4"), inches("1/2")),
    margins=(0, 0, inches("1/32")),
)
METRIC = _Measures(
    unit="mm",
    step=TICKS_PER_MM,
    board=mm(18),
    heights=(mm(350), mm(2100)),
    widths=(mm(400), mm(1180)),
    depths=(mm(90), mm(400)),
    strips=(mm(32), mm(100)),
    sheets=((mm(2440), mm(1220), 64), (mm(2800), mm(2070), 118)),
    kerfs=(mm(3), mm("2.2")),
    trims=(0, mm(3), mm(6), mm(12)),
    margins=(0, 0, mm(1)),
)


def shop_lists(count: int, seed: int = 1) -> Iterator[ShopList]:
    """Yield `count` lists; the same seed gives the same, and list i does not depend on count."""
    for number in range(count):
        yield shop_list(number, seed)


def shop_list(number: int, seed: int = 1) -> ShopList:
    """Return one list of the seed."""
    rng = Random(f"{seed} {number}")
    measures = INCH if number % 2 == 0 else METRIC
    thick, thin = _rows(rng, measures)
    stages: Stages = rng.choice(("2", "3", "any"))
    first: FirstCut = rng.choice(("rip", "crosscut", "either", "either"))
    kerf, trim = rng.choice(measures.kerfs), rng.choice(measures.trims)
    margin, look = rng.choice(measures.margins), rng.choice(("grain", "painted", "mixed"))
    problems = []
    for material, rows in (("ply", thick), ("thin ply", thin)):
        parts = _parts(rows, look)
        sheets = _sheets(rng, measures, material, 2 * trim + margin, parts)
        if parts:
            problems.append(
                CuttingProblem(parts, sheets, kerf, trim, margin, stages, first, measures.unit)
            )
    several = "several sizes" if any(len(p.sheets) > 1 for p in problems) else "one size"
    return ShopList(f"shop {seed}.{number}", f"stages {stages}, {several}", tuple(problems))


def _rows(rng: Random, m: _Measures) -> tuple[list[Row], list[Row]]:
    """Draw cases until the list is full, or has as many as were meant."""
    thick: list[Row] = []
    thin: list[Row] = []
    for _ in range(rng.choice((1, 1, 2, 3))):
        some, backs = _case(rng, m, alike=rng.choice((1, 1, 1, 2, 3)))
        rows = [*thick, *thin, *some, *backs]
        if len(rows) <= KINDS_MOST and sum(n for *_, n in rows) <= PARTS_MOST:
            thick += some
            thin += backs
    return (thick, thin) if thick else _rows(rng, m)


def _case(rng: Random, m: _Measures, alike: int) -> tuple[list[Row], list[Row]]:
    """Parts of so many alike cases: of the case's board, and of the back's."""
    height, width, depth = (_size(rng, m, span) for span in (m.heights, m.widths, m.depths))
    inside, strip = width - 2 * m.board, _size(rng, m, m.strips)
    bays = 2 if width > m.widths[1] * 3 // 4 and rng.random() < 0.4 else 1
    clear = (inside - (bays - 1) * m.board) // bays
    shelves = bays * rng.randint(1, max(2, min(8, height * 5 // m.heights[1] + 2)))
    rows = [
        ("side", height, depth, 2),
        ("end", inside, depth, 2),
        ("shelf", clear, depth - rng.choice((0, 0, m.step, 4 * m.step)), shelves),
    ]
    if bays > 1:
        rows.append(("upright", height - 2 * m.board, depth, bays - 1))
    extras: list[Row] = [
        ("toe", inside, strip, 1),
        ("lip", clear, min(strip, 2 * m.board), shelves),
        ("nailer", inside, strip, rng.choice((1, 2))),
        ("door", height - 8 * m.step, (width - 2 * m.step) // 2, 2),
    ]
    rows += [row for row in extras if rng.random() < 0.4]
    backs = [("back", height - 2 * m.step, width - 2 * m.step, 1)] if rng.random() < 0.7 else []
    return _times(rows, alike), _times(backs, alike)


def _size(rng: Random, m: _Measures, span: tuple[Ticks, Ticks]) -> Ticks:
    return rng.randint(span[0] // m.step, span[1] // m.step) * m.step


def _times(rows: list[Row], alike: int) -> list[Row]:
    return [(name, length, width, alike * n) for name, length, width, n in rows]


def _parts(rows: list[Row], look: str) -> tuple[CutPart, ...]:
    """Single parts; which may turn depends on the look: grain, painted, or only the seen ones."""
    return tuple(
        CutPart(f"{name}-{i}#{j}", length, width, _turns(name, look))
        for i, (name, length, width, count) in enumerate(rows, 1)
        for j in range(1, count + 1)
    )


def _turns(name: str, look: str) -> bool:
    return look == "painted" or (look == "mixed" and name not in SHOW)


def _sheets(
    rng: Random, m: _Measures, material: str, lost: Ticks, parts: tuple[CutPart, ...]
) -> tuple[CutSheet, ...]:
    """One size that takes every part, in any number; often others beside it."""
    fitting = [
        size for size in m.sheets if all(_fits(p, size[0] - lost, size[1] - lost) for p in parts)
    ]
    whole = rng.choice(fitting)
    sheets = [_sheet(rng, material, whole, None)]
    if rng.random() < 0.2:
        sheets += [_sheet(rng, material, s, rng.choice((None, 1, 2))) for s in m.sheets]
        sheets = list({(s.length, s.width): s for s in reversed(sheets)}.values())[::-1]
    if rng.random() < 0.2:
        sheets.append(_offcut(rng, m, material, whole))
    return tuple(sheets)


def _fits(part: CutPart, length: Ticks, width: Ticks) -> bool:
    a, b = part.length, part.width
    return (a <= length and b <= width) or (part.may_turn and b <= length and a <= width)


def _sheet(
    rng: Random, material: str, size: tuple[Ticks, Ticks, int], limit: int | None
) -> CutSheet:
    """Return a sheet at about its usual price."""
    length, width, usual = size
    price = Decimal(usual + rng.randint(-8, 8)).quantize(Decimal("0.01"))
    return CutSheet(f"{material} {length} x {width}", material, length, width, price, limit=limit)


def _offcut(rng: Random, m: _Measures, material: str, whole: tuple[Ticks, Ticks, int]) -> CutSheet:
    """Return a piece left from an earlier job."""
    length, width = (side * rng.randint(3, 9) // 10 // m.step * m.step for side in whole[:2])
    name = f"{material} offcut"
    return CutSheet(name, material, length, width, None, on_hand=rng.choice((1, 1, 2)), limit=0)
