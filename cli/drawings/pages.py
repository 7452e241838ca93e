"""Drawings as a document: one to a page, each with its title, scale and job below it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from cli.drawings.fonts import printable
from cli.drawings.keys import wrapped
from cli.drawings.paper_scales import PAPERS, scale_text
from cli.drawings.pdf import FONT_LIST, pdf, png
from cli.drawings.scene import Scene
from cli.drawings.shapes import SMALL, Text
from cli.drawings.svg import svg
from solver.units import Unit

MARGIN = 12.0
"""Kept free round a page [mm]; printers reach so far."""
STRIP = 18.0
"""Height of the strip below a drawing [mm]."""
NARROWEST = 90.0
"""Least room for the words below a drawing that is on no page [mm] on paper."""
DOTS = 254.0
"""Dots to the inch of a picture: ten to the millimetre."""


@dataclass(frozen=True)
class Sheets:
    """What is told on every page.

    Attributes
    ----------
    job
        Title of the job.
    about
        Which option and the like.
    unit
        What lengths are lettered in.
    paper
        A key of `PAPERS`.
    """

    job: str
    about: str
    unit: Unit
    paper: str


def rooms(paper: str) -> tuple[tuple[float, float], ...]:
    """Return width and height that a page leaves for its drawing [mm], upright and lengthwise."""
    width, height = PAPERS[paper]
    return tuple(
        (across - 2 * MARGIN, up - 2 * MARGIN - STRIP)
        for across, up in ((width, height), (height, width))
    )


def drawings_pdf(scenes: Sequence[Scene], sheets: Sheets) -> bytes:
    """Return one PDF with a page for each scene, upright or lengthwise as it fits."""
    return pdf(SOURCE, _files(scenes), _data(scenes, sheets))


def drawings_png(scenes: Sequence[Scene], sheets: Sheets, ppi: float = DOTS) -> list[bytes]:
    """Return the same pages as pictures."""
    return png(SOURCE, _files(scenes), _data(scenes, sheets), ppi)


def captioned(scene: Scene, sheets: Sheets) -> Scene:
    """Return a scene with title, scale and job below it, for a file without a page round it."""
    left, bottom, right, _ = scene.bounds
    scale = f", scale {scale_text(scene.scale, sheets.unit)}" if scene.to_scale else ""
    job = ", ".join(text for text in (printable(sheets.job), printable(sheets.about)) if text)
    room = max((right - left) / scene.scale, NARROWEST)
    words = [f"{scene.title}{scale}", job, scene.note or _lengths(sheets.unit)]
    lines = [line for text in words if text for line in wrapped(text, room)]
    step = 1.7 * SMALL * scene.scale
    texts = tuple(
        Text((left, bottom - (number + 2) * step), line, bold=number == 0)
        for number, line in enumerate(lines)
    )
    return replace(scene, shapes=scene.shapes + texts)


def _lengths(unit: Unit) -> str:
    word = "inches" if unit == "in" else "millimetres"
    return f"Lengths in {word}; + or − after one: it is a little more or less."


def _files(scenes: Sequence[Scene]) -> dict[str, bytes]:
    return {f"{n}.svg": svg(scene).encode("utf-8") for n, scene in enumerate(scenes)}


def _data(scenes: Sequence[Scene], sheets: Sheets) -> dict[str, Any]:
    width, height = PAPERS[sheets.paper]
    return {
        "job": printable(sheets.job),
        "about": printable(sheets.about),
        "paper": [width, height],
        "note": _lengths(sheets.unit),
        "pages": [
            {
                "title": scene.title,
                "width": scene.paper_size[0],
                "left": _left(scene, sheets.paper),
                "wide": _lies(scene, sheets.paper),
                "scale": f"Scale {scale_text(scene.scale, sheets.unit)}" if scene.to_scale else "",
                "note": scene.note,
            }
            for scene in scenes
        ],
    }


def _lies(scene: Scene, paper: str) -> bool:
    """Whether the page is turned lengthwise for a drawing."""
    wide, high = scene.paper_size
    width, height = rooms(paper)[0]
    return wide > width or high > height


def _left(scene: Scene, paper: str) -> float:
    """How far from the left margin a drawing starts, to be in the middle [mm]; whole steps."""
    width = rooms(paper)[1 if _lies(scene, paper) else 0][0]
    return round((width - scene.paper_size[0]) / 2, 1)


SOURCE = f"""
#let all = json("data.json")
#set document(title: all.job, date: none)
#set text(font: {FONT_LIST}, size: 9pt, lang: "en")
#let (short, long) = all.paper.map(side => side * 1mm)
#for (number, one) in all.pages.enumerate() {{
  page(
    width: if one.wide {{ long }} else {{ short }},
    height: if one.wide {{ short }} else {{ long }},
    margin: {MARGIN}mm,
    {{
      let drawing = image(str(number) + ".svg", width: one.width * 1mm, alt: one.title)
      place(left + top, dx: one.left * 1mm, drawing)
      place(bottom + left, block(width: 100%, fill: white, {{
        line(length: 100%, stroke: 0.5mm)
        v(-2mm)
        grid(
          columns: (1fr, auto),
          column-gutter: 8mm,
          row-gutter: 1.8mm,
          strong(one.title), strong(one.scale),
          [#all.job#if all.about != "" [, #all.about]],
          align(right)[#(number + 1) of #all.pages.len()],
          grid.cell(colspan: 2,
            text(size: 8pt, if one.note != "" {{ one.note }} else {{ all.note }})
          ),
        )
      }}))
    }},
  )
}}
"""
