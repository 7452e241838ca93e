"""The exact limits of a swing meet the closed formulas, and the tables worked from them.

Of a plain case, with R = sqrt((a + w)^2 + (p + d)^2): latch gap R - (a + w) + c, widest case
sqrt((W - c)^2 - (p + d)^2) - a, deepest sqrt((W - c)^2 - (a + w)^2) - p; pin level with the jamb.
"""

from __future__ import annotations

from math import ceil, isqrt, sqrt
from typing import Any

import pytest

from solver.doorway.swing_clearance import deepest, gap_needed, widest
from solver.doorway.swing_scene import Swing
from solver.units import TICKS_PER_INCH, Ticks, inches, mm, round_down, round_up

EIGHTH = inches("1/8")


def plain(opening: Ticks, width: Ticks, depth: Ticks, **numbers: Any) -> Swing:
    """A square-edged case with the pin on the line of the hinge jamb, at the wall's face."""
    usual: dict[str, Any] = {
        "jamb": inches("4-9/16"),
        "hinge_gap": EIGHTH,
        "aside": EIGHTH,
        "clearance": EIGHTH,
    }
    return Swing(opening=opening, width=width, depth=depth, **{**usual, **numbers})


DEPTHS = ("5-1/4", "6-1/4", "7-1/4", "8-1/4", "9-1/4", "10-1/4", "11-1/4", "12-1/4")
GAPS = {
    "18": ("3/4", "1-1/16", "1-7/16", "1-13/16", "2-1/4", "2-3/4", "3-1/4", "3-13/16"),
    "20": ("11/16", "1", "1-5/16", "1-11/16", "2-1/16", "2-1/2", "2-15/16", "3-7/16"),
    "22": ("5/8", "7/8", "1-3/16", "1-1/2", "1-7/8", "2-5/16", "2-3/4", "3-3/16"),
    "24": ("5/8", "13/16", "1-1/8", "1-3/8", "1-3/4", "2-1/8", "2-1/2", "2-15/16"),
    "26": ("9/16", "3/4", "1", "1-5/16", "1-5/8", "2", "2-3/8", "2-3/4"),
    "28": ("1/2", "11/16", "15/16", "1-3/16", "1-1/2", "1-13/16", "2-3/16", "2-9/16"),
    "30": ("1/2", "11/16", "7/8", "1-1/8", "1-7/16", "1-3/4", "2-1/16", "2-7/16"),
    "32": ("7/16", "5/8", "13/16", "1-1/16", "1-5/16", "1-5/8", "1-15/16", "2-5/16"),
    "34": ("7/16", "5/8", "13/16", "1", "1-1/4", "1-9/16", "1-13/16", "2-3/16"),
    "36": ("7/16", "9/16", "3/4", "15/16", "1-3/16", "1-7/16", "1-3/4", "2-1/16"),
}
"""Latch gap before running clearance, a = 1/8, p = 0, up to 1/16 in: the trade notes' table of
step 12, worked out there by hand from the diagonal."""
WIDEST = {
    "24-1/4": ("23-1/8", "22-7/8", "22-1/2", "22-1/8", "21-11/16", "21-3/16", "20-5/8"),
    "26-1/4": ("25-3/16", "24-15/16", "24-5/8", "24-1/4", "23-7/8", "23-7/16", "22-15/16"),
    "28-1/4": ("27-1/4", "27", "26-3/4", "26-3/8", "26-1/16", "25-5/8", "25-3/16"),
    "30-1/4": ("29-5/16", "29-1/16", "28-13/16", "28-1/2", "28-3/16", "27-13/16", "27-3/8"),
    "32-1/4": ("31-3/8", "31-1/8", "30-7/8", "30-5/8", "30-5/16", "29-15/16", "29-9/16"),
    "36-1/4": ("35-7/16", "35-1/4", "35", "34-3/4", "34-1/2", "34-3/16", "33-13/16"),
}
"""Widest case, a = c = 1/8, down to 1/16 in: the same step's second table; depths from 6-1/4."""


@pytest.mark.parametrize("width", GAPS)
def test_latch_gaps_are_those_of_the_trade_notes(width: str) -> None:
    step = TICKS_PER_INCH // 16
    found = [
        round_up(gap_needed(plain(0, inches(width), inches(d), clearance=0), 90), step)
        for d in DEPTHS
    ]

    assert found == [inches(gap) for gap in GAPS[width]]


@pytest.mark.parametrize("opening", WIDEST)
def test_widest_cases_are_those_of_the_trade_notes(opening: str) -> None:
    step = TICKS_PER_INCH // 16
    found = []
    for depth in DEPTHS[1:]:
        most = widest(plain(inches(opening), inches(12), inches(depth)), 90)
        assert most is not None
        found.append(round_down(most, step))

    assert found == [inches(width) for width in WIDEST[opening]]


@pytest.mark.parametrize(
    ("depth", "worked"), [(150, 747), (200, 735), (230, 726), (250, 719), (300, 700)]
)
def test_metric_widest_cases_are_those_of_the_trade_notes(depth: int, worked: int) -> None:
    """Same step: a = c = 3 mm, opening 768 mm; rounded down to whole millimetres."""
    most = widest(plain(mm(768), mm(300), mm(depth), hinge_gap=mm(3), aside=mm(3),
                        clearance=mm(3)), 90)  # fmt: skip

    assert most is not None
    assert most // mm(1) == worked


@pytest.mark.parametrize("depth", DEPTHS)
@pytest.mark.parametrize("width", ["18", "28", "36"])
def test_limits_meet_the_closed_formulas_to_the_tick(width: str, depth: str) -> None:
    w, d, opening = inches(width), inches(depth), inches(width) + inches("2-1/4")
    swing = plain(opening, w, d)

    out = EIGHTH + w  # a + w, and a = c
    assert gap_needed(swing, 90) == root_up(out**2 + d**2) - out + EIGHTH
    assert widest(swing, 90) == isqrt((opening - EIGHTH) ** 2 - d**2) - EIGHTH
    assert deepest(swing, 90) == isqrt((opening - EIGHTH) ** 2 - out**2)


def root_up(square: int) -> Ticks:
    """Square root, rounded up."""
    return isqrt(square - 1) + 1


@pytest.mark.parametrize("proud", ["1/4", "1/2", "3/4", "1-1/2"])
def test_a_pin_proud_of_the_jamb_needs_the_gap_of_its_formula(proud: str) -> None:
    """g = sqrt((R + c)^2 - p^2) - (a + w), rounded up."""
    p, w, d = inches(proud), inches(28), inches(9)
    out = EIGHTH + w
    reach = sqrt(out**2 + (p + d) ** 2) + EIGHTH

    assert gap_needed(plain(0, w, d, proud=p), 90) == ceil(sqrt(reach**2 - p**2) - out)


def test_a_metric_case_of_the_same_sizes_needs_the_same_gap() -> None:
    """28 x 9-1/4 in are 711.2 x 234.95 mm: the answer is in ticks either way."""
    imperial = gap_needed(plain(0, inches(28), inches("9-1/4")), 90)
    metric = plain(0, mm("711.2"), mm("234.95"), hinge_gap=mm("3.175"), aside=mm("3.175"),
                   clearance=mm("3.175"))  # fmt: skip

    assert gap_needed(metric, 90) == imperial
