"""Evidence for the swing of a case: builders' logs, the trade's tables, the old bevel."""

from __future__ import annotations

from functools import partial
from math import asin, degrees

from solver.evidence.check import Check, Footing
from solver.swing import formulas
from solver.swing.limits import binding, gap_needed, hinge_gap_needed, passage
from solver.swing.scene import Strip, Swing
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, inches, mm

TOPIC = "swing"
EIGHTH = inches("1/8")
TABLES = "tables of the trade, worked by the swing formula"


def _inch(length: float) -> float:
    return length / TICKS_PER_INCH


def _gap(width: str, depth: str) -> float:
    """Excess of the diagonal over the width, pin on the corner [in]."""
    return _inch(formulas.latch_gap(inches(width), inches(depth), 0, 0))


def _logs() -> tuple[Check, ...]:
    rows = (
        ("excess of the diagonal, 23-1/2 x 7-1/2", "a builder's log, sethrylan.org (2013)",
         "23-1/2", "7-1/2", 1.17),
        ("excess of the diagonal, 40 x 14: hold the latch side back by 2-1/2",
         "woodweb.com, Hidden Bookcase Door Hardware", "40", "14", 2.38),
        ("excess of the diagonal, 34 x 8", "a builder's log, The Mysterious Bookcase",
         "34", "8", 0.93),
    )  # fmt: skip
    return (
        *(
            Check(TOPIC, what, source, Footing.READ, printed, 0.0051, "in",
                  partial(_gap, width, depth))
            for what, source, width, depth, printed in rows
        ),
        Check(
            TOPIC, "diagonal of 26-1/2 x 7-1/2 in a doorway of 30-1/4",
            "a how-to, iwillbuildstuff.com", Footing.READ, 27.54, 0.0051, "in",
            lambda: _inch(formulas.sweep_radius(inches("26-1/2"), inches("7-1/2"), 0)),
        ),
        Check(
            TOPIC, "pivot 7 in and 2 in back, case 30 x 10: gap needed at the hinge side",
            "a how-to, Hidden Door Bookshelf", Footing.ARITHMETIC, 53**0.5 - 7, 0.001, "in",
            lambda: _inch(hinge_gap_needed(_pivoted(), 90)),
        ),
        Check(
            TOPIC, "the same, gap needed at the latch side", "a how-to, Hidden Door Bookshelf",
            Footing.ARITHMETIC, (23**2 + 8**2) ** 0.5 - 23, 0.001, "in",
            lambda: _inch(gap_needed(_pivoted(), 90)),
        ),
    )  # fmt: skip


def _pivoted() -> Swing:
    return Swing(
        opening=inches(40), width=inches(30), depth=inches(10), jamb=inches("4-9/16"),
        hinge_gap=EIGHTH, aside=-inches(7), proud=-inches(2), clearance=0,
    )  # fmt: skip


_GAPS = (
    ("18", "9-1/4", "2-1/4"), ("24", "7-1/4", "1-1/8"), ("28", "6-1/4", "11/16"),
    ("28", "9-1/4", "1-1/2"), ("30", "11-1/4", "2-1/16"), ("36", "12-1/4", "2-1/16"),
)  # fmt: skip
_WIDEST = (
    ("24-1/4", "6-1/4", "23-1/8"), ("28-1/4", "9-1/4", "26-3/8"), ("30-1/4", "9-1/4", "28-1/2"),
    ("32-1/4", "12-1/4", "29-9/16"), ("36-1/4", "11-1/4", "34-3/16"),
)  # fmt: skip
_METRIC = ((150, 747), (200, 735), (230, 726), (250, 719), (300, 700))


def _gap_rounded_up(width: str, depth: str) -> float:
    needed = formulas.latch_gap(inches(width), inches(depth), EIGHTH, 0)
    step = inches("1/16")
    return _inch(-(-needed // step) * step)


def _widest(opening: str, depth: str) -> float:
    found = formulas.widest_case(inches(opening), inches(depth), EIGHTH, EIGHTH)
    step = inches("1/16")
    return _inch(found // step * step)


def _widest_metric(depth: int) -> float:
    return formulas.widest_case(mm(768), mm(depth), mm(3), mm(3)) // TICKS_PER_MM


def _tables() -> tuple[Check, ...]:
    return (
        *(
            Check(TOPIC, f"latch gap of a case {width} x {depth}, pin 1/8 aside, up to 1/16",
                  TABLES, Footing.ARITHMETIC, _inch(inches(gap)), 1e-9, "in",
                  partial(_gap_rounded_up, width, depth))
            for width, depth, gap in _GAPS
        ),
        *(
            Check(TOPIC, f"widest case {depth} deep in a doorway of {opening}, down to 1/16",
                  TABLES, Footing.ARITHMETIC, _inch(inches(widest)), 1e-9, "in",
                  partial(_widest, opening, depth))
            for opening, depth, widest in _WIDEST
        ),
        *(
            Check(TOPIC, f"widest case {depth} mm deep in a doorway of 768 mm", TABLES,
                  Footing.ARITHMETIC, width, 0.5, "mm", partial(_widest_metric, depth))
            for depth, width in _METRIC
        ),
    )  # fmt: skip


_TRIM = (
    ("1/4", "1/8", 30), ("3/8", "1/8", 19), ("3/8", "1/4", 42), ("1/2", "1/8", 14),
    ("1/2", "1/4", 30), ("3/4", "1/8", 10), ("3/4", "1/4", 19), ("3/4", "1/2", 42),
)  # fmt: skip


def _binds_at(proud: str, aside: str) -> float:
    """Angle at which trim on the case meets wall trim of the same thickness [degree]."""
    q, a = inches(proud), inches(aside)
    found = binding(
        Swing(
            opening=inches(34), width=inches(28), depth=inches(6), jamb=inches("4-9/16"),
            hinge_gap=a, aside=a, clearance=EIGHTH,
            carried=(Strip("on the case", a, inches(10), q),),
            fixed_trim=(Strip("on the wall", -inches(3), 0, q),),
        ),
        90,
    )  # fmt: skip
    return 180.0 if found is None else degrees(found.angle)


def _trim() -> tuple[Check, ...]:
    return tuple(
        Check(TOPIC, f"hinge-side trim {proud} proud of the pin, {aside} aside, binds at",
              f"{TABLES}: asin(a / q) = {degrees(asin(inches(aside) / inches(proud))):.1f}",
              Footing.ARITHMETIC, angle, 0.5, "degree", partial(_binds_at, proud, aside))
        for proud, aside, angle in _TRIM
    )  # fmt: skip


def _others() -> tuple[Check, ...]:
    return (
        Check(
            TOPIC, "way left at 90 degrees, case 9-1/4 deep in 30-1/4",
            "2010 ADA 404.2.3: from the face of the leaf to the stop", Footing.QUOTED,
            21, 0, "in",
            lambda: _inch(passage(
                Swing(opening=inches("30-1/4"), width=inches(27), depth=inches("9-1/4"),
                      jamb=inches("4-9/16"), hinge_gap=EIGHTH, aside=EIGHTH, clearance=EIGHTH),
                90,
            )),
        ),
        Check(
            TOPIC, "back relief that a door 16-1/16 x 2 in needs: the old bevel, 1/8 in 2",
            "the standard bevel, as the trade has it", Footing.QUOTED, 0.125, 0.001, "in",
            lambda: _inch(formulas.back_relief(inches("16-1/16"), inches(2), 0)),
        ),
    )  # fmt: skip


CHECKS: tuple[Check, ...] = (*_logs(), *_tables(), *_trim(), *_others())
