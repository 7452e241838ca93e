"""Drawings on papers: a page of its own for each, or small ones side by side."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from cli.drawings.cutting_diagram import sheet_scene
from cli.drawings.drawing_kinds import Subject, scenes
from cli.drawings.fonts import printable
from cli.drawings.front_elevation import board_outlines
from cli.drawings.keys import KeyMark, key_marks
from cli.drawings.pages import rooms, scale_text, to_fit, usual_paper
from cli.drawings.scene import Scene
from cli.drawings.svg import svg
from cli.drawings.things import Pictures, things
from cli.papers.issue import Issue
from cli.papers.paper_blocks import Block
from solver.plan.built import CasePlan

Drawn = tuple[Block, tuple[str, bytes]]
"""A block that shows a drawing, and the drawing by its name."""
TO_APPROVE = ("front", "section", "swing", "trim")
"""Kinds of drawings that the client approves."""
TO_MARK = ("marking",)
"""Kinds of drawings that go with the marking-out sheet."""
ON_SHEETS = ("sheets",)
"""Kinds of drawings that stand above the cuts of each sheet."""
SMALL = (84.0, 82.0)
"""Width and height of a small drawing [mm], two side by side."""
ABOVE_CUTS = 125.0
"""Most height of the drawing of a sheet [mm], its cuts below it."""


def whole_pages(issue: Issue, key: str, kinds: Sequence[str]) -> list[Drawn]:
    """Return the drawings of these kinds, each on a page of its own; `key` names the paper."""
    paper = usual_paper(issue.unit)
    drawn = scenes(Subject(issue.plan, issue.option, paper, issue.pictures), kinds)
    return [_page(issue, key, scene, rooms(paper)[0][0]) for scene in drawn]


def _page(issue: Issue, key: str, scene: Scene, room: float) -> Drawn:
    name = f"{key}-{scene.name}.svg"
    block = {
        "kind": "drawing",
        "file": name,
        "title": scene.title,
        "scale": scale_text(scene.scale, issue.unit) if scene.to_scale else "",
        "note": scene.note,
        "width": scene.paper_size[0],
        "flipped": scene.paper_size[0] > room,
    }
    return block, (name, svg(scene).encode("utf-8"))


def sheet_drawings(issue: Issue) -> list[Drawn]:
    """Return a drawing of each sheet that leaves room below it for its cuts."""
    parts = {part.id: part for part in issue.option.parts}
    room = rooms(usual_paper(issue.unit))[0][0], ABOVE_CUTS
    drawn = []
    for number, sheet in enumerate(issue.option.sheets, start=1):
        make = partial(sheet_scene, sheet, number, parts, issue.unit)
        scene = to_fit(make, (room,), issue.unit)
        name = f"sheet-{number}.svg"
        caption = f"scale {scale_text(scene.scale, issue.unit)}. {scene.note}"
        picture = {"file": name, "width": scene.paper_size[0], "caption": printable(caption)}
        block: Block = {"kind": "picture", **picture}
        drawn.append((block, (name, svg(scene).encode("utf-8"))))
    return drawn


def fronts(issue: Issue, most: int) -> tuple[list[Block], list[tuple[str, bytes]]]:
    """Return small front elevations of the first `most` options, each under its name."""
    marks = key_marks(issue.job)
    shown: list[Block] = []
    files: list[tuple[str, bytes]] = []
    for name, case in _named_cases(issue, most):
        scale = to_fit(partial(_boards, case), (SMALL,), issue.unit).scale
        scene = _front(marks, issue.pictures, case, scale)
        file = f"proposal-{len(files) + 1}.svg"
        files.append((file, svg(scene).encode("utf-8")))
        shown.append({"file": file, "width": scene.paper_size[0], "caption": printable(name)})
    return [{"kind": "pictures", "pictures": shown}] if shown else [], files


def _named_cases(issue: Issue, most: int) -> Iterator[tuple[str, CasePlan]]:
    options = [one for one in issue.plan.options if one.cases][:most]
    for option in options:
        for case in option.cases:
            names = [option.name] if len(options) > 1 or len(option.cases) == 1 else []
            yield ", ".join([*names, *([case.name] if len(option.cases) > 1 else [])]), case


def _boards(case: CasePlan, scale: int) -> Scene:
    """Return the boards of a case alone, which are as large as the whole."""
    return Scene("small", printable(case.name), scale, tuple(board_outlines(case)))


def _front(marks: Mapping[str, KeyMark], pictures: Pictures, case: CasePlan, scale: int) -> Scene:
    """Return the boards of a case and what stands in it, without letters and dimensions."""
    boards = _boards(case, scale)
    stood = [
        shape
        for bay in case.bays
        for opening in bay.openings
        for shape in things(bay, opening, marks, scale, pictures)
    ]
    return replace(boards, shapes=(*stood, *boards.shapes))
