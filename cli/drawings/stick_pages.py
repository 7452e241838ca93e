"""Story sticks as PDF: each on one long page, and in pieces to print and join."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cli.drawings.fonts import printable
from cli.drawings.marks import MarkedFace, marked_faces
from cli.drawings.pdf import FONT_LIST, pdf
from cli.drawings.scales import PAPERS
from cli.drawings.scene import Scene
from cli.drawings.stick import BAR, stick, tiles, whole
from cli.drawings.svg import svg
from cli.tables.grouping import grouped
from cli.tables.words import listed
from solver.plan import Option, Plan
from solver.units import Unit, with_unit

MARGIN = 8.0
"""Kept free round a page [mm]."""
STRIP = 14.0
"""Height of what is told at the foot of a page [mm]."""
LONGEST = 5000.0
"""Longest page [mm]: PDF takes 14 400 pt, 5080 mm (ISO 32000-1, annex C)."""


@dataclass(frozen=True)
class Stick:
    """One stick, and for which faces of which case it is."""

    title: str
    face: MarkedFace


def stick_word(unit: Unit) -> str:
    """Return what the trade calls it."""
    return "Story stick" if unit == "in" else "Rod"


def sticks(plan: Plan, option: Option) -> list[Stick]:
    """Return the sticks of an option; faces that are marked alike share one."""
    found = []
    for case in option.cases:
        for faces in grouped(marked_faces(plan, option, case), _marks):
            names = listed([face.name for face in faces])
            title = f"{stick_word(plan.unit)}, {printable(case.name)}: {names}"
            found.append(Stick(title, faces[0]))
    return found


def _marks(face: MarkedFace) -> object:
    lines = tuple((board.name, board.underside, board.top) for board in face.boards)
    return face.foot, face.height, lines, face.hinges


def long_pdf(plan: Plan, made: Sequence[Stick]) -> bytes | None:
    """Return each stick on a page as long as it is; None where one is too long for a page."""
    scenes = [stick(one.face, plan.unit, whole(one.face)) for one in made]
    if any(scene.paper_size[1] + 2 * MARGIN + STRIP > LONGEST for scene in scenes):
        return None
    pages = [(one.title, scene) for one, scene in zip(made, scenes, strict=True)]
    return _document(plan, pages, None)


def tiled_pdf(plan: Plan, made: Sequence[Stick], paper: str) -> bytes:
    """Return each stick in pieces that overlap, each as a page of a paper."""
    return _document(plan, list(_pieces(plan.unit, made)), PAPERS[paper])


def _pieces(unit: Unit, made: Sequence[Stick]) -> Iterator[tuple[str, Scene]]:
    for one in made:
        windows = tiles(one.face, unit)
        for number, window in enumerate(windows, start=1):
            title = f"{one.title}, piece {number} of {len(windows)} from the bottom"
            yield title, stick(one.face, unit, window)


def _document(
    plan: Plan, pages: Sequence[tuple[str, Scene]], paper: tuple[float, float] | None
) -> bytes:
    files = {f"{n}.svg": svg(scene).encode("utf-8") for n, (_, scene) in enumerate(pages)}
    about = []
    for title, scene in pages:
        wide, high = scene.paper_size
        page = paper or (max(wide, 120.0) + 2 * MARGIN, high + 2 * MARGIN + STRIP)
        about.append({"title": title, "width": wide, "page": page})
    bar = with_unit(BAR[plan.unit], plan.unit)
    data = {
        "job": printable(plan.job.head.title),
        "pages": about,
        "note": f"Scale 1 : 1. Print at actual size (100 %, no fitting); the check bar must measure"
        f" {bar}, else do not use it. X: a board goes here. Chain line: fasteners. Hatched: hinge"
        " mortise, on the outer face. + or − after a length: a little more or less; the line is"
        " exact.",
        "join": "Cut off along the stick's left edge; lay join on join, cross on cross."
        if paper
        else "",
    }
    return pdf(SOURCE, files, data)


SOURCE = f"""
#let all = json("data.json")
#set document(title: all.job, date: none)
#set text(font: {FONT_LIST}, size: 7.5pt, lang: "en")
#for (number, one) in all.pages.enumerate() {{
  page(width: one.page.at(0) * 1mm, height: one.page.at(1) * 1mm, margin: {MARGIN}mm, {{
    place(left + top, image(str(number) + ".svg", width: one.width * 1mm, alt: one.title))
    place(bottom + left, block(width: 100%, fill: white, {{
      line(length: 100%, stroke: 0.5mm)
      v(-2mm)
      [#strong(one.title) · #all.job #h(1fr) #(number + 1) of #all.pages.len() \\
      #all.note #all.join]
    }}))
  }})
}}
"""
