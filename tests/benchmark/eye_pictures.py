"""Pictures of planned cases: the program's own front elevation in colour by kind, no lettering."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from typing import Any

from cli.drawings.front_elevation import board_outlines
from cli.drawings.keys import KeyMark
from cli.drawings.pdf import png
from cli.drawings.scene import Scene
from cli.drawings.shapes import Shape
from cli.drawings.svg import svg
from cli.drawings.things import things
from solver.plan.built import CasePlan

SCALE = 10
"""Every picture is drawn at 1 : 10."""
DOTS = 130.0
"""Dots to the inch on paper [-]."""
WOOD, WALL = "#b08d62", "#fbfaf7"
COLOURS = (
    "#1f5f9e", "#d9822b", "#2f8f5b", "#b5373f", "#7a5ba6", "#8c6b4f",
    "#d58fb5", "#6f7a83", "#b9b23c", "#3aa6b9", "#27384d", "#e3c55b",
)  # fmt: skip
"""By the order of the kinds in the job."""
FILLED = ' fill="white" class="filled"'
Json = Mapping[str, Any]


def kinds_of(plan: Json) -> list[str]:
    """Return the names of a plan's kinds in the order of its job."""
    return [item["name"] for item in plan["job"]["item"]]


def picture(plan: Json) -> bytes:
    """Return the front of the recommended option's only case as a PNG picture."""
    return _png([picture_svg(plan)])


def side_by_side(left: Json, right: Json) -> bytes:
    """Return two fronts beside each other as one PNG picture, without a mark of which is which."""
    return _png([picture_svg(left), picture_svg(right)])


def picture_svg(plan: Json) -> str:
    """Return the same as SVG: no lettering, things filled by kind and boards as wood."""
    case = _case(plan["options"][0]["cases"][0])
    colours = dict(zip(kinds_of(plan), COLOURS, strict=False))
    marks = dict.fromkeys(colours, KeyMark("", 0))
    shapes: list[Shape] = []
    fills: list[str] = []
    for bay in case.bays:
        for opening in bay.openings:
            shapes += things(bay, opening, marks, SCALE, {})
            far_first = sorted(opening.items, key=lambda one: (-one.z, one.y, one.x))
            fills += [colours[thing.item] for thing in far_first]
    boards = list(board_outlines(case))
    fills += [WOOD] * len(boards)
    text = svg(Scene("front", "", SCALE, (*shapes, *boards)))
    assert text.count(FILLED) == len(fills), "a shape for each thing and each board"
    left = iter(fills)
    return re.sub(re.escape(FILLED), lambda _: f' fill="{next(left)}"', text)


def _case(case: Json) -> CasePlan:
    """Read a case of a plan of any age: keys that are no longer known are left off."""
    known = set(CasePlan.model_fields)
    return CasePlan.model_validate_json(json.dumps({k: v for k, v in case.items() if k in known}))


def _png(drawings: Sequence[str]) -> bytes:
    files = {f"{n}.svg": text.encode("utf-8") for n, text in enumerate(drawings)}
    return png(SOURCE, files, {"count": len(drawings)}, DOTS)[0]


SOURCE = f"""
#let all = json("data.json")
#set page(width: auto, height: auto, margin: 6mm, fill: rgb("{WALL}"))
#grid(
  columns: all.count,
  column-gutter: 30mm,
  align: bottom,
  ..range(all.count).map(number => image(str(number) + ".svg")),
)
"""
