"""The job of the hand-made plan of two bays, and the sizes that follow from it.

Every number is written as the sum that gives it; millimetres throughout.
"""

from __future__ import annotations

from solver.intake.load import load
from solver.job.job import Job
from solver.units import TICKS_PER_MM

T = 18  # measured thickness of the boards
DADO = 6
ABOVE_FLOOR = 700  # bottom end of the case's sides
LIP_THICK, LIP_WIDE, LIP_ABOVE = 8, 30, 5
LIP_BELOW = LIP_WIDE - T - LIP_ABOVE
BACK = 6
TOE = 60
KERF, TRIM, MARGIN = 3, 6, 1
GAP, END = 12, 12

WIDTH, HEIGHT, DEPTH = 1254, 1000, 218  # outside
INSIDE_WIDTH = WIDTH - 2 * T  # 1218, the upright included
BAY = (INSIDE_WIDTH - T) // 2  # 600
INSIDE_HEIGHT = HEIGHT - 2 * T - TOE  # 904
INSIDE_DEPTH = DEPTH - BACK  # 212
FLOOR = TOE + T  # 78
MARK_1 = FLOOR + 290
MARK_2 = MARK_1 + T + 289
HEIGHTS = (290, 289, FLOOR + INSIDE_HEIGHT - (MARK_2 + T))
FLOORS = (FLOOR, MARK_1 + T, MARK_2 + T)

JOB = {
    "job": {"unit": "mm", "title": "hall case", "currency": "EUR"},
    "case": [
        {
            "name": "hall",
            "kind": "wall",
            "width": WIDTH,
            "height": HEIGHT,
            "depth": {"least": 200, "most": 240, "wish": DEPTH},
            "uprights": 1,
            "shelves": 2,
            "above_floor": ABOVE_FLOOR,
            "raised_bottom": TOE,
            "joint": "dado",
            "dado": DADO,
            "material": "birch ply 18",
            "back": "birch ply 6",
            "back_inset": 3,
            "lip": {"moulding": "lip 8 x 30", "above": LIP_ABOVE},
        }
    ],
    "look": {
        "rhythm": "to-fit",
        "headroom": 25,
        "lift": 12,
        "gap": GAP,
        "end_margin": END,
        "front_margin": 5,
        "clear_most": 320,
        "spare": 0.05,
        "guess_allowance": 6,
        "eye_level": 1525,
    },
    "item": [
        {
            "name": "figurine",
            "width": 60,
            "height": 90,
            "depth": 50,
            "count": 5,
            "weight": "250 g",
            "rows": 2,
            "where": "top",
        },
        {
            "name": "bowl",
            "width": 150,
            "height": 70,
            "depth": 150,
            "count": 5,
            "weight": "600 g",
            "stack": 3,
        },
        {
            "name": "long tin",
            "width": 80,
            "height": 300,
            "depth": 100,
            "weight": "2 kg",
            "may_lie": True,
            "where": "low",
        },
        {
            "name": "mantel clock",
            "width": 200,
            "height": 241,
            "depth": 120,
            "weight": "2.7 kg",
            "group": "clocks",
        },
        {
            "name": "carriage clock",
            "width": 90,
            "height": 120,
            "depth": 80,
            "weight": "900 g",
            "group": "clocks",
            "where": "eye",
        },
        {"name": "jug", "width": 100, "height": 150, "depth": 100, "guessed": True, "where": 1},
        {
            "name": "book",
            "width": 30,
            "height": 211,
            "depth": 150,
            "count": 4,
            "weight": "450 g",
            "gap": 0,
        },
    ],
    "sheet": [
        {
            "name": "birch ply 18, 2440 x 1220",
            "material": "birch ply 18",
            "length": 2440,
            "width": 1220,
            "thickness": T,
            "price": "92.00",
            "limit": 3,
        },
        {
            "name": "birch ply 6, 2440 x 1220",
            "material": "birch ply 6",
            "length": 2440,
            "width": 1220,
            "thickness": BACK,
            "price": "31.50",
            "grain": "any",
        },
    ],
    "moulding": [
        {
            "name": "lip 8 x 30",
            "thickness": LIP_THICK,
            "width": LIP_WIDE,
            "lengths": [
                {"length": 2400, "price": "9.60"},
                {"length": 1800, "price": "7.40", "on_hand": 1, "limit": 4},
            ],
        }
    ],
    "shop": {
        "kerf": KERF,
        "edge_trim": TRIM,
        "margin": MARGIN,
        "stages": "2",
        "first_cut": "rip",
    },
}


def mm(length: float) -> int:
    """Ticks of a length that is a whole number of them."""
    ticks = length * TICKS_PER_MM
    assert ticks == int(ticks)
    return int(ticks)


def good_job() -> Job:
    """The job of the plan."""
    return load(JOB, "mm")
