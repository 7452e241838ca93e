"""A plan of two bays made by hand, which keeps every rule of the checker.

It has what a plan can have: a toe, dadoes, a lip, an upright, a range of depths, a
stack, a row on a riser, a thing that lies, a guessed size, books without gaps, a group in
neighbouring openings, an opening left empty, wishes kept and missed, a part that is
trimmed once more on its sheet, a stick on hand and one that is bought. Every number is
written as the sum that gives it; millimetres throughout.
"""

from __future__ import annotations

import json
from decimal import Decimal
from itertools import combinations
from pathlib import Path

from solver.outcome import Status
from solver.plan.built import Bay, CasePlan, Opening, Placement, SharedLines, Shelf, Size
from solver.plan.plan import Cost, Option, Plan, Scores, Stage, Timing
from solver.rules_version import RULES
from solver.sequence.sequencing import sequence
from tests.two_bays_cutting import back_sheet, board_sheet, parts
from tests.two_bays_job import (
    ABOVE_FLOOR,
    BAY,
    DEPTH,
    FLOORS,
    GAP,
    HEIGHT,
    HEIGHTS,
    INSIDE_DEPTH,
    INSIDE_HEIGHT,
    LIP_ABOVE,
    LIP_BELOW,
    MARK_1,
    MARK_2,
    WIDTH,
    T,
    good_job,
    mm,
)
from tests.two_bays_slack import LEAST, bars, slacked

FIXTURE = Path(__file__).parent.parent / "fixtures" / "plan-two-bays.json"
"""The same plan as published."""


def good_plan() -> Plan:
    """The plan itself."""
    job = good_job()
    return Plan(
        version="0.1.0",
        rules=RULES,
        unit="mm",
        job=job,
        job_hash=job.hash,
        options=(good_option(),),
        recommendation="2 shelves: the only combination asked for",
        timing=Timing(seconds=0.5),
    )


def good_text() -> str:
    """The plan as the fixture has it."""
    return good_plan().to_json()


def good_option() -> Option:
    """Its only option: feasible, for nobody has proven that the rooms cannot be more even."""
    ordered = sequence((board_sheet(), back_sheet()), good_job().shop, parts())
    return Option(
        name="2 shelves",
        shelf_counts={"hall": (2, 2)},
        status=Status.FEASIBLE,
        why=None,
        stages=_stages(),
        cases=(_case(),),
        lines=(
            SharedLines(
                bays=(("hall", 1), ("hall", 2)),
                heights=(mm(ABOVE_FLOOR + MARK_1 + T), mm(ABOVE_FLOOR + MARK_2 + T)),
            ),
        ),
        left_out=(),
        parts=parts(),
        sheets=slacked(ordered.sheets),
        settings=ordered.settings,
        mouldings=bars(),
        least_slack=LEAST,
        sheet_count=2,
        sheet_bound=2,
        cost=_cost(),
        scores=_scores(),
        tags=("recommended", "cheapest", "best-looking"),
    )


STOCK = Decimal("92.00") + Decimal("31.50") + Decimal("7.40")
ROOMS = (290 - 90 // 2 - 90, 289 - 3 * 70, 290 - 80, 289 - 241, 289 - 211)
"""Room over the tallest thing of each opening but the empty one, from bay 1 up."""
UNEVEN = sum(abs(a - b) for a, b in combinations(ROOMS, 2))
FLOOR_HEIGHTS = [ABOVE_FLOOR + floor for floor in FLOORS]
EYE = 1525
FIGURINES_AWAY = 3 * (EYE - FLOOR_HEIGHTS[0] - 90 / 2) + 2 * (EYE - FLOOR_HEIGHTS[0] - 90)
"""Middles of the rear figurines are half a height up, on a riser of half a height."""
BOWLS_AWAY = sum(EYE - FLOOR_HEIGHTS[1] - 70 * level - 35 for level in (0, 1, 2, 0, 1))
SIGHT = (
    (203.2 - 90) * FIGURINES_AWAY
    + (203.2 - 150) * BOWLS_AWAY
    + (203.2 - 156) * (EYE - FLOOR_HEIGHTS[1] - 156 / 2)
    + (203.2 - 120) * (EYE - FLOOR_HEIGHTS[2] - 120 / 2)
)
"""How much smaller than 8 in, times how far from the eye line; tin, mantel clock and books are
larger."""
BESIDE = 60 * (135 - 90) + 150 * 70 + 106 * (241 - 156) + 90 * (211 - 120)
"""The figurine with none behind it, the lower pile of bowls, the jug, the carriage clock."""
OUTLINE = 100 * (1 + 91560 / 105000 + 22080 / 24000 + (64736 - 9360) / 64736 + 1) / 5
"""Figurines, and clock and books, stand left of the middle. Of the bowls 276 to 324 mm have an
image, 140 mm high, of the tin 288 to 312 mm, 80 mm high, and of the jug 270 to 330 mm, 156 mm high:
91560 = 2 * (150 * 210 + 150 * 140) - 2 * 48 * 140."""


def _stages() -> tuple[Stage, ...]:
    price = str(STOCK)
    look = (
        ("asked", 5.0, "things"),  # the figurines are wished at the top
        ("empty", 1.0, "openings"),
        ("mirrored", 1.0, "kinds"),  # mantel clock and jug, one of each
        ("headings", 1.0, "places"),  # the clocks, in two openings
        ("together", 0.0, "places"),
        ("alone", 0.0, "openings"),
        ("rises", 0.0, "mm"),
    )
    later = (
        ("to-fit", float(UNEVEN), "mm"),
        ("void", 600.0 * 289, "mm2"),
        ("roomy", 200.0 + 106, "mm"),
        ("beside", float(BESIDE), "mm2"),
        ("air", float(max(ROOMS) - min(ROOMS)), "mm"),
        ("sight", float(int(SIGHT)), "mm2"),
    )
    return (
        Stage(name="fit", value=0.0, bound=0.0, proven=True, unit="mm2"),
        # One sheet of each material, and one stick more than the one on hand, at the least.
        Stage(name="price", value=price, bound=price, proven=True, unit="money"),
        Stage(name="size", value=0.0, bound=0.0, proven=True, unit="mm"),
        *(Stage(name=n, value=v, bound=v, proven=True, unit=unit) for n, v, unit in look),
        *(Stage(name=n, value=v, bound=0.0, proven=False, unit=unit) for n, v, unit in later),
        Stage(name="heavy", value=0.0, bound=0.0, proven=True, unit="g"),
        Stage(name="composition", value=round(OUTLINE, 1), bound=None, proven=False, unit="%"),
    )


def _cost() -> Cost:
    return Cost(
        currency="EUR",
        sheets=Decimal("92.00") + Decimal("31.50"),
        mouldings=Decimal("7.40"),
        stock_bound=STOCK,
        total=STOCK,
        complete=True,
    )


def _scores() -> Scores:
    boards = 2 * 1000 * 212 + 2 * 1230 * 212 + 916 * 212 + 1218 * 60 + 4 * 612 * 204
    return Scores(
        places_parted=1,
        steps_range=mm(1),
        steps_mean=mm(0.5),  # 290, 289, 289
        headroom_least=mm(289 - 241),
        headroom_typical=mm(289 - 3 * 70),
        headroom_spread=mm((290 - 80) - (289 - 241)),
        wishes_missed=5,  # the figurines are wished at the top
        fill_least=0.0,  # one opening is empty
        fill_most=(200 + 106) / BAY,
        board_used=(boards + 1251 * 997) / (2 * 2440 * 1220),
        outline_missed=round(OUTLINE, 1),
    )


def _case() -> CasePlan:
    return CasePlan(
        name="hall",
        kind="wall",
        above_floor=mm(ABOVE_FLOOR),
        outside=_size(WIDTH, HEIGHT, DEPTH),
        bays=(_bay(1, T), _bay(2, T + BAY + T)),
    )


def _size(width: int, height: int, depth: int) -> Size:
    return Size(width=mm(width), height=mm(height), depth=mm(depth))


def _bay(number: int, x: int) -> Bay:
    return Bay(
        number=number,
        x=mm(x),
        inside=_size(BAY, INSIDE_HEIGHT, INSIDE_DEPTH),
        openings=tuple(_opening(number, index) for index in range(3)),
        shelves=tuple(_shelf(number, k, mark) for k, mark in ((1, MARK_1), (2, MARK_2))),
    )


def _shelf(bay: int, index: int, mark: int) -> Shelf:
    return Shelf(
        index=index,
        underside=mm(mark),
        top=mm(mark + T),
        thickness=mm(T),
        depth=mm(INSIDE_DEPTH),
        part=f"hall/bay-{bay}-shelf-{index}",
    )


LOADS = {
    (1, 0): 5 * 250,
    (1, 1): 5 * 600,
    (1, 2): 0,
    (2, 0): 2000,
    (2, 1): 2700 + 2194,
    (2, 2): 900 + 4 * 450,
}
FILLS = {
    (1, 0): 3 * 60 / BAY,
    (1, 1): 2 * 150 / BAY,
    (1, 2): 0.0,
    (2, 0): 300 / BAY,
    (2, 1): (200 + 106) / BAY,
    (2, 2): (90 + 4 * 30) / BAY,
}
POUNDS_PER_MM2 = 40 / 304.8**2
"""The standard's 40 lb/ft2."""


def _opening(bay: int, index: int) -> Opening:
    return Opening(
        index=index,
        floor=mm(FLOORS[index]),
        height=mm(HEIGHTS[index]),
        lip_above_floor=mm(LIP_ABOVE if index > 0 else 0),
        lip_below_ceiling=mm(LIP_BELOW if index < 2 else 0),
        items=_things(bay, index),
        fill=FILLS[bay, index],
        load=LOADS[bay, index],
        load_limit=int(POUNDS_PER_MM2 * BAY * INSIDE_DEPTH * 453.59237),
    )


def _things(bay: int, index: int) -> tuple[Placement, ...]:
    return {
        (1, 0): _figurines(),
        (1, 1): _bowls(),
        (1, 2): (),
        (2, 0): (_thing("long tin", 1, (12, 0, 8), (300, 80, 100), 290, 2000, lying=True),),
        (2, 1): (
            _thing("mantel clock", 1, (12, 0, 8), (200, 241, 120), 289, 2700),
            # Guessed: 6 mm more each way. 40 lb/ft2 on 106 x 106 mm are 2194.4 g.
            _thing("jug", 1, (12 + 200 + GAP, 0, 8), (106, 156, 106), 289, 2194, assumed=True),
        ),
        (2, 2): (
            _thing("carriage clock", 1, (12, 0, 8), (90, 120, 80), 289, 900),
            *(
                _thing("book", n, (12 + 90 + GAP + (n - 1) * 30, 0, 8), (30, 211, 150), 289, 450)
                for n in (1, 2, 3, 4)
            ),
        ),
    }[bay, index]


def _figurines() -> tuple[Placement, ...]:
    """Three in front, two behind them on a riser of half their height."""
    size = (60, 90, 50)
    front = [
        _thing("figurine", n, (12 + (n - 1) * (60 + GAP), 0, 8), size, 290, 250) for n in (1, 2, 3)
    ]
    rear = [
        _thing(
            "figurine",
            n,
            (12 + (n - 4) * (60 + GAP), 90 // 2, 8 + 50 + GAP),
            size,
            290,
            250,
            row=2,
        )
        for n in (4, 5)
    ]
    return (*front, *rear)


def _bowls() -> tuple[Placement, ...]:
    """Three on each other, and two."""
    size = (150, 70, 150)
    left = [
        _thing("bowl", n, (12, (n - 1) * 70, 8), size, 289, 600, on=n - 1 or None)
        for n in (1, 2, 3)
    ]
    x = 12 + 150 + GAP
    right = [
        _thing("bowl", 4, (x, 0, 8), size, 289, 600),
        _thing("bowl", 5, (x, 70, 8), size, 289, 600, on=4),
    ]
    return (*left, *right)


def _thing(
    item: str,
    number: int,
    at: tuple[int, int, int],
    size: tuple[int, int, int],
    clear: int,
    mass: int,
    *,
    row: int = 1,
    on: int | None = None,
    lying: bool = False,
    assumed: bool = False,
) -> Placement:
    return Placement(
        item=item,
        number=number,
        x=mm(at[0]),
        y=mm(at[1]),
        z=mm(at[2]),
        row=row,
        on=on,
        lying=lying,
        width=mm(size[0]),
        height=mm(size[1]),
        depth=mm(size[2]),
        headroom=mm(clear - at[1] - size[1]),
        mass=mass,
        mass_assumed=assumed,
    )


def read_fixture() -> Plan:
    """The plan as read from the published file."""
    return Plan.model_validate_json(FIXTURE.read_text(encoding="utf-8"))


def fixture_data() -> dict[str, object]:
    """The published file as plain JSON, its numbers exact decimals."""
    data: dict[str, object] = json.loads(
        FIXTURE.read_text(encoding="utf-8"), parse_float=Decimal, parse_int=Decimal
    )
    return data
