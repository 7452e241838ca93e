"""Small displays made by hand, to see how their look is counted and told.

A display is a list of openings, the lowest first, each a clear height and the row that stands in
it from left to right.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from solver.job.inventory import Item
from solver.job.job import Job
from solver.plan.built import Bay, CasePlan, Opening, Placement, Shelf, Size
from solver.plan.plan import Stage
from solver.units import inches
from tests.sample_display import sample_job

WIDTH = inches(30)
THICK = inches("3/4")
STEP = inches("1/16")
"""Marking step of the sample job."""
SIZES = {
    "cup": (4, 3),
    "jug": (5, 9),
    "plate": (8, 8),
    "bowl": (6, 4),
}
"""Width and height of each kind [in]."""
Row = Sequence[str]


def made_job(counts: Mapping[str, int], **item: Mapping[str, Any]) -> Job:
    """A job of one case called alcove with so many of each kind, and more about some of them."""
    job = sample_job()
    items = tuple(
        Item(
            name=name,
            width=inches(SIZES[name][0]),
            height=inches(SIZES[name][1]),
            depth=inches(4),
            count=count,
            **item.get(name, {}),
        )
        for name, count in counts.items()
    )
    case = job.cases[0].model_copy(update={"name": "alcove", "fixing": "fixed"})
    look = job.look.model_copy(update={"rhythm": "steady", "tallest": "low"})
    return job.model_copy(update={"items": items, "cases": (case,), "look": look})


def made_case(*openings: tuple[str, Row], bays: int = 1, above: int = 0) -> CasePlan:
    """A case whose bays all have these openings; things only in the first bay."""
    made = tuple(_bay(number, openings, full=number == 1) for number in range(1, bays + 1))
    height = made[0].openings[-1].floor + made[0].openings[-1].height
    size = Size(width=WIDTH * bays, height=height, depth=inches(10))
    return CasePlan(name="alcove", kind="standing", above_floor=above, outside=size, bays=made)


def _bay(number: int, openings: Sequence[tuple[str, Row]], *, full: bool) -> Bay:
    made, shelves, floor = [], [], THICK
    for index, (height, row) in enumerate(openings):
        if index:
            shelves.append(
                Shelf(
                    index=index,
                    underside=floor - THICK,
                    top=floor,
                    thickness=THICK,
                    depth=inches(10),
                    part=f"alcove/shelf-{index}",
                )
            )
        made.append(_opening(index, floor, inches(height), row if full else ()))
        floor += inches(height) + THICK
    inside = Size(width=WIDTH, height=floor - 2 * THICK, depth=inches(10))
    return Bay(number=number, x=0, inside=inside, openings=tuple(made), shelves=tuple(shelves))


def _opening(index: int, floor: int, height: int, row: Row) -> Opening:
    wide = sum(inches(SIZES[name][0]) for name in row)
    gap = (WIDTH - wide) // (len(row) + 1)
    x, things = gap, []
    for number, name in enumerate(row, start=1):
        width, tall = (inches(side) for side in SIZES[name])
        things.append(
            Placement(
                item=name, number=number, x=x, y=0, z=0, row=1, on=None, lying=False,
                width=width, height=tall, depth=inches(4), headroom=height - tall, mass=500,
            )
        )  # fmt: skip
        x += width + gap
    return Opening(
        index=index, floor=floor, height=height, lip_above_floor=0, lip_below_ceiling=0,
        items=tuple(things), fill=wide / WIDTH, load=500 * len(row), load_limit=50_000,
    )  # fmt: skip


def stage(name: str, value: float = 0) -> Stage:
    """A proven stage."""
    return Stage(name=name, value=value, bound=value, proven=True, unit="")


def stages(*names: str) -> tuple[Stage, ...]:
    """Proven stages of nothing missed."""
    return tuple(stage(name) for name in names)
