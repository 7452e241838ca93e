"""Evidence for cutting and spacing: published cases, printed cliffs, lists with proven answers."""

from __future__ import annotations

from decimal import Decimal
from functools import partial

from solver import rhythm
from solver.cutting.problem import (
    CutPart,
    CutSheet,
    CuttingProblem,
    StickPart,
    StickProblem,
    StickStock,
)
from solver.cutting.solve import solve_cutting
from solver.cutting.sticks import solve_sticks
from solver.evidence.check import Check, Footing
from solver.outcome import Limits
from solver.planning.cliffs import pieces_of
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, inches, mm, parse_length, round_down

CLIFFS, CASES, LISTS, STICKS, SPACING = (
    "sizes at which a sheet is lost", "published cases", "published lists of parts",
    "published lists of sticks", "spacing",
)  # fmt: skip
FOUR_BY_EIGHT = inches(96), inches(48)
BERKEY = "Berkey and Wang, J. Opl Res. Soc. 38 (1987); fewest sheets by Becker's exact models"


def _widest_strip(n: int, width: int, kerf: int) -> int:
    """Widest strip of which n come out, by the count that open sizes are decided with [tick]."""
    least, most = 1, width
    while least < most:
        middle = (least + most + 1) // 2
        if pieces_of(width, middle, kerf) >= n:
            least = middle
        else:
            most = middle - 1
    return least


def _comes_out(n: int, printed: str) -> float:
    """How many strips of the printed width the cutting gets from one sheet [-]."""
    strips = [(inches(90), inches(printed), n)]
    return n if _sheets(strips, FOUR_BY_EIGHT) == 1 else 0


def _cliffs() -> tuple[Check, ...]:
    source = "strip table of the trade, (48 - (n - 1) / 8) / n"
    inch = ((4, "11-29/32"), (5, "9-1/2"), (6, "7-7/8"), (7, "6-3/4"), (8, "5-7/8"))
    metric = ((4, 302), (5, 241), (6, 200), (7, 171), (8, 149))
    return (
        *(
            Check(CLIFFS, f"widest of {n} strips from 48 in, kerf 1/8, to the nearest 1/32",
                  source, Footing.ARITHMETIC, inches(printed) / TICKS_PER_INCH, 1 / 32, "in",
                  partial(_strip_in, n))
            for n, printed in inch
        ),
        *(
            Check(CLIFFS, f"strips of {printed} x 90 that the cutting gets from one 4 x 8 sheet",
                  source, Footing.ARITHMETIC, n, 0, "-", partial(_comes_out, n, printed))
            for n, printed in inch
        ),
        *(
            Check(CLIFFS, f"widest of {n} strips from 1220 mm, kerf 3 mm, whole millimetres",
                  source, Footing.ARITHMETIC, printed, 0, "mm", partial(_strip_mm, n))
            for n, printed in metric
        ),
        Check(
            CLIFFS, "pieces of 24 in that a stick of 96 in gives at a kerf of 1/8: not four",
            "slashgear.com, what kerf means", Footing.READ, 2, 0, "sticks",
            lambda: _sticks([(inches(24), 4)], inches(96), inches("1/8")),
        ),
        Check(
            CLIFFS, "four of 23-7/8 do", "the same arithmetic", Footing.ARITHMETIC, 1, 0, "sticks",
            lambda: _sticks([(inches("23-7/8"), 4)], inches(96), inches("1/8")),
        ),
    )  # fmt: skip


def _strip_in(n: int) -> float:
    return _widest_strip(n, FOUR_BY_EIGHT[1], inches("1/8")) / TICKS_PER_INCH


def _strip_mm(n: int) -> float:
    return _widest_strip(n, mm(1220), mm(3)) // TICKS_PER_MM


def _sheets(
    parts: list[tuple[int, int, int]],
    sheet: tuple[int, int],
    *,
    kerf: int = inches("1/8"),
    trim: int = 0,
    turn: bool = False,
    price: Decimal | None = None,
) -> float:
    """Fewest sheets, or their price where one is given, that the cutting finds."""
    pieces = tuple(
        CutPart(f"{a}x{b}.{n}", a, b, may_turn=turn) for a, b, count in parts for n in range(count)
    )
    board = CutSheet("board", "board", *sheet, price)
    problem = CuttingProblem(pieces, (board,), kerf=kerf, edge_trim=trim)
    answer = solve_cutting(problem, Limits())
    return float(answer.count if price is None else answer.cost)


def _sticks(pieces: list[tuple[int, int]], stick: int, kerf: int) -> float:
    parts = tuple(
        StickPart(f"{length}.{n}", length) for length, count in pieces for n in range(count)
    )
    found = solve_sticks(StickProblem(parts, (StickStock("s", stick, None),), kerf=kerf), Limits())
    return float(found.count)


def _inch_rows(*rows: tuple[str, str, int]) -> list[tuple[int, int, int]]:
    return [(inches(a), inches(b), n) for a, b, n in rows]


_METRIC_CASE = [
    (mm(a), mm(b), n)
    for a, b, n in ((2000, 396, 2), (750, 385, 2), (750, 390, 1), (748, 385, 4), (850, 105, 1),
                    (420, 105, 2))
]  # fmt: skip


def _cases() -> tuple[Check, ...]:
    plywood = _inch_rows(("54", "12", 2), ("30", "12", 1), ("28-1/2", "12", 4))
    hardwood = _inch_rows(("42-1/2", "10-1/4", 2), ("29", "10", 2), ("28-1/2", "10", 1),
                          ("31-1/2", "5", 1), ("11", "5", 2))  # fmt: skip
    return (
        Check(CASES, "sheets of a graduated plywood case 30 x 54-3/4",
              "howstuffworks.com, How to Build Furniture", Footing.READ, 1, 0, "sheets",
              lambda: _sheets(plywood, FOUR_BY_EIGHT)),
        Check(CASES, "sheets of a hardwood case: only one",
              "a bookcase plan, issuhub.com 5674 p. 20", Footing.READ, 1, 0, "sheets",
              lambda: _sheets(hardwood, FOUR_BY_EIGHT)),
        Check(CASES, "price of a metric case in MDF 25, two sheets at $80",
              "Bookshelf, bronze level, paperzz.com 7843242", Footing.READ, 160, 0, "USD",
              lambda: _sheets(_METRIC_CASE, (mm(2400), mm(1200)), kerf=mm(3), turn=True,
                              price=Decimal(80))),
    )  # fmt: skip


_BERKEY = (
    ("cl_01_020_01", 8, 7, "5x9*1 4x2*1 10x6*1 5x7*1 6x3*1 10x7*1 1x5*1 3x5*1 6x9*1 2x4*1 6x7*1"
     " 7x2*1 8x3*3 4x10*1 4x5*1 10x3*1 7x8*1 8x7*1"),
    ("cl_01_020_02", 5, 5, "2x2*2 6x8*1 10x2*1 1x3*1 8x4*1 3x10*1 1x9*2 1x5*1 6x3*1 1x1*1 4x2*1"
     " 9x2*1 9x5*1 4x7*1 3x4*1 9x7*1 4x1*1 9x8*1"),
    ("cl_01_020_03", 9, 7, "7x5*1 10x6*1 5x6*1 7x2*1 4x8*1 9x10*1 8x5*1 8x6*1 4x9*1 9x3*1 3x10*1"
     " 9x5*1 1x7*1 8x9*1 4x6*1 3x6*1 4x3*1 10x2*1 6x1*1 1x4*1"),
    ("cl_01_020_04", 6, 5, "4x7*1 1x3*2 6x7*1 8x2*1 9x4*1 6x2*1 7x7*1 3x6*1 2x7*1 3x8*1 4x3*1"
     " 1x9*1 8x1*1 1x10*1 7x6*1 9x5*1 3x7*1 8x3*1 6x9*1"),
)  # fmt: skip


def _read(text: str) -> list[tuple[int, int, int]]:
    rows = [row.replace("*", "x").split("x") for row in text.split()]
    return [(int(a), int(b), int(n)) for a, b, n in rows]


def _lists() -> tuple[Check, ...]:
    return (
        *(
            Check(LISTS, f"fewest 10 x 10 sheets of {name}, parts {way}", BERKEY, Footing.READ,
                  count, 0, "sheets",
                  partial(_sheets, _read(text), (10, 10), kerf=0, turn=way == "turning"))
            for name, fixed, turning, text in _BERKEY
            for way, count in (("fixed", fixed), ("turning", turning))
        ),
        Check(
            LISTS, "fewest sheets of furniture order A1",
            "Macedo, Alves and Valerio de Carvalho, Computers & OR 37 (2010)", Footing.READ,
            3, 0, "sheets",
            partial(_sheets, [(1680, 420, 6), (463, 386, 18)], (2750, 1220), kerf=0),
        ),
    )  # fmt: skip


_T60 = (
    "495 474 473 472 466 450 445 444 439 430 419 414 410 395 372 370 366 366 366 363 361 357 355"
    " 351 350 350 347 320 315 307 303 299 298 298 292 288 287 283 275 275 274 273 273 272 272 271"
    " 269 269 268 263 262 261 259 258 255 254 252 252 252 251"
)


def _stick_lists() -> tuple[Check, ...]:
    return (
        Check(
            STICKS, "fewest sticks of 1000 for the sixty pieces of t60_00",
            "Falkenauer, J. of Heuristics 2 (1996); bound of BPPLib", Footing.READ, 20, 0, "sticks",
            lambda: _sticks([(int(length), 1) for length in _T60.split()], 1000, 0),
        ),
    )  # fmt: skip


def _steady_fall() -> float:
    heights = [inches(h) for h in ("18", "16-1/2", "15", "13-1/2", "12")]
    return float(rhythm.graduated(heights, inches("1/2"), inches("1-1/2")))


def _spacing() -> tuple[Check, ...]:
    return (
        Check(
            SPACING, "openings falling by 1-1/2 in from 18 to 12: off by",
            "98905.com, furniture making", Footing.READ, 0, 0, "in", _steady_fall,
        ),
        Check(
            SPACING, "loss of six openings of 11.901 in, each taken down to 1/16",
            "jlconline.com, Avoiding Accumulated Errors", Footing.READ, 5 / 32, 1 / 64, "in",
            lambda: 6 * (_odd() - round_down(_odd(), inches("1/16"))) / TICKS_PER_INCH,
        ),
    )  # fmt: skip


def _odd() -> int:
    return parse_length("11.901", "in")


CHECKS: tuple[Check, ...] = (*_cases(), *_cliffs(), *_spacing(), *_lists(), *_stick_lists())
