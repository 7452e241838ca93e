"""Jobs of several clients of one shop, for batches: sizes of a real shop, nothing random."""

from __future__ import annotations

from typing import Any

from solver.job.job import Job
from tests.builders import make_job

WIDTHS = ("24", "30", "33-1/2", "36", "28", "42")
HEIGHTS = ("48", "60", "71", "54-1/4", "66")
DEPTHS = ("7", "9-1/2", "8", "11-1/4")

SHEETS: list[dict[str, Any]] = [
    {
        "name": "oak ply 18, 8 x 4 ft",
        "material": "oak ply 18",
        "length": "96",
        "width": "48",
        "thickness": "23/32",
        "price": "92.00",
    },
    {
        "name": "oak ply 6, 8 x 4 ft",
        "material": "oak ply 6",
        "length": "96",
        "width": "48",
        "thickness": "1/4",
        "price": "41.00",
    },
]

LIPS: dict[str, Any] = {
    "case": {"lip": {"moulding": "bead", "above": "1/4"}},
    "moulding": [
        {
            "name": "bead",
            "thickness": "3/8",
            "width": "1-1/2",
            "lengths": [{"length": "96", "price": "9.60"}, {"length": "72", "price": "7.80"}],
        }
    ],
}
"""Shelves with lips: what goes into the case, and the moulding."""


def client_job(number: int, **tables: Any) -> Job:
    """A job of one case; neighbouring numbers differ in every size."""
    case = {
        "name": "alcove",
        "width": WIDTHS[number % len(WIDTHS)],
        "height": HEIGHTS[number % len(HEIGHTS)],
        "depth": DEPTHS[number % len(DEPTHS)],
        "shelves": 3 + number % 3,
        "material": "oak ply 18",
        "back": "oak ply 6",
    }
    items = [
        {"name": "jug", "width": 5, "height": 7, "depth": 5, "count": 4, "weight": "2 lb"},
        {"name": "clock", "width": 6, "height": 9, "depth": 5, "count": 2, "weight": "4 lb"},
    ]
    case.update(tables.pop("case", {}))
    head = {"title": f"client {number}", **tables.pop("job", {})}
    return make_job(job=head, case=case, items=items, sheet=tables.pop("sheet", SHEETS), **tables)


def clients(count: int, **tables: Any) -> dict[str, Job]:
    """So many jobs by their names."""
    return {f"client-{n + 1}": client_job(n, **tables) for n in range(count)}


JOB_FILE = """
[job]
title = "{name}"
unit = "in"

[[case]]
name = "alcove"
width = 24
height = {height}
depth = 11
shelves = 2
back = "none"

[[sheet]]
name = "oak ply, 8 x 4 ft"
material = "oak ply"
length = 96
width = 48
thickness = "3/4"
price = "{price}"

[[item]]
name = "jug"
width = 5
height = 7
depth = 5
weight = "2 lb"
{more}
"""
"""A job file of one case without a back, to be filled in."""
