"""Small jobs with trim, for tests: one case, every length a text in the job's unit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from solver.intake.load import load
from solver.job.job import Job
from solver.units import Unit

STICKS = [{"length": "96", "price": 12}, {"length": "192", "price": 22}]
MOULDINGS: list[dict[str, Any]] = [
    {"name": "casing 3-1/2", "width": "3-1/2", "thickness": "3/4", "lengths": STICKS},
    {"name": "casing 2-1/4", "width": "2-1/4", "thickness": "11/16", "lengths": STICKS},
    {"name": "head 4-1/2", "width": "4-1/2", "thickness": "3/4", "lengths": STICKS},
    {"name": "block 4", "width": "4", "thickness": "1", "lengths": STICKS},
    {"name": "strip 1-1/2", "width": "1-1/2", "thickness": "3/4", "lengths": STICKS},
    {"name": "base 3-1/2", "width": "3-1/2", "thickness": "1/2", "lengths": STICKS},
    {"name": "edge 1/2", "width": "1/2", "thickness": "1/4", "lengths": STICKS},
    {"name": "band 7/8", "width": "7/8", "thickness": "0.5 mm", "lengths": STICKS},
]
DOORWAY: dict[str, Any] = {
    "name": "place",
    "widths": ["30", "30", "30-1/4"],
    "heights": ["80", "80-1/8"],
    "jamb_depth": "4-9/16",
    "swing": "out",
    "hinge_side": "left",
    "pin": {"proud": "7/8"},
}
SIZES = {
    "hung": {"width": "27-1/2", "height": "79", "depth": "7", "above_floor": "3/4"},
    "built-in": {"width": "29", "height": "79", "depth": "10", "raised_bottom": "3"},
    "standing": {"width": "30", "height": "60", "depth": "9", "raised_bottom": "3"},
    "wall": {"width": "30", "height": "40", "depth": "8", "above_floor": "30"},
}


def trim_job(
    kind: str,
    trim: dict[str, Any],
    *,
    doorway: dict[str, Any] | None = None,
    case: dict[str, Any] | None = None,
    unit: Unit = "in",
    more: Sequence[dict[str, Any]] = (),
    **tables: Any,
) -> Job:
    """Make a job of one case of that kind with two shelves; hung and built-in ones have a place.

    What `case` gives as None is left out; `more` are further cases.
    """
    one: dict[str, Any] = {"name": "case", "kind": kind, "shelves": 2, **SIZES[kind]}
    if kind in ("hung", "built-in"):
        one["doorway"] = "place"
    one = {
        key: value
        for key, value in {**one, "trim": trim, **(case or {})}.items()
        if value is not None
    }
    data = {
        "job": {"unit": unit},
        "doorway": [{**DOORWAY, **(doorway or {})}],
        "case": [one, *more],
        "item": [{"name": "jug", "width": "4", "height": "6", "depth": "4", "weight": "1 lb"}],
        "moulding": MOULDINGS,
        **tables,
    }
    return load(data, unit)


CLASSICAL: dict[str, Any] = {"set": "classical", "casing": "casing 3-1/2"}
PLAIN: dict[str, Any] = {"set": "plain", "casing": "casing 3-1/2"}
EVERY: dict[str, tuple[str, dict[str, Any]]] = {
    "hung, classical": ("hung", {**CLASSICAL, "block": "block 4", "band": "band 7/8"}),
    "hung, plain": ("hung", PLAIN),
    "hung, butt": ("hung", {**PLAIN, "corners": "butt", "head": "head 4-1/2"}),
    "built-in, strips": (
        "built-in",
        {"scribe": "strip 1-1/2", "scribe_head": True, "baseboard": "base 3-1/2"},
    ),
    "built-in, classical": ("built-in", {**CLASSICAL, "plinth": "block 4", "head": "head 4-1/2"}),
    "built-in, plain": (
        "built-in",
        {**PLAIN, "corners": "butt", "head": "head 4-1/2", "baseboard": "base 3-1/2"},
    ),
    "standing": ("standing", {"set": "plain", "casing": "edge 1/2", "baseboard": "base 3-1/2"}),
    "standing, banded": ("standing", {**PLAIN, "band": "band 7/8"}),
    "wall": ("wall", {"set": "plain", "casing": "casing 2-1/4", "over": "0"}),
}
"""A job for each kind of case and each thing that can be asked for."""
