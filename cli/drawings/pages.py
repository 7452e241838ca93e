"""Papers, standard scales, and drawings as a document: one to a page, with title, scale and job."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from cli.drawings.fonts import printable
from cli.drawings.keys import wrapped
from cli.drawings.pdf import FONT_LIST, pdf, png
from cli.drawings.running import small_figures
from cli.drawings.scene import Scene
from cli.drawings.shapes import SMALL, Text
from cli.drawings.svg import svg
from solver.units import Unit

METRIC = (1, 2, 5, 10, 20, 50, 100, 200, 500)
"""ISO 5455."""
INCH = {
    1: "full size",
    2: "half size",
    4: "3 in = 1 ft",
    8: "1-1/2 in = 1 ft",
    12: "1 in = 1 ft",
    16: "3/4 in = 1 ft",
    24: "1/2 in = 1 ft",
    32: "3/8 in = 1 ft",
    48: "1/4 in = 1 ft",
    96: "1/8 in = 1 ft",
    192: "1/16 in = 1 ft",
}
"""Scales that an architect's rule has (ASME Y14.1 names them by inches to the foot)."""

PAPERS: dict[str, tuple[float, float]] = {
    "a4": (210.0, 297.0),
    "a3": (297.0, 420.0),
    "a2": (420.0, 594.0),
    "letter": (215.9, 279.4),
    "tabloid": (279.4, 431.8),
}
"""Width and height, upright [mm]: ISO 216, ASME Y14.1 A and B."""


def usual_paper(unit: Unit) -> str:
    """Return the paper of a job's unit."""
    return "letter" if unit == "in" else "a4"


def scale_text(scale: int, unit: Unit) -> str:
    """Return a scale as drawings state it: ``1 : 10``, ``1-1/2 in = 1 ft (1 : 8)``."""
    plain = f"1 : {scale}"
    return f"{INCH[scale]} ({plain})" if unit == "in" and scale in INCH else plain


def to_fit(
    make: Callable[[int], Scene],
    rooms: Sequence[tuple[float, float]],
    unit: Unit,
    smaller: Callable[[int], Scene] | None = None,
) -> Scene:
    """Return the scene at the largest standard scale at which it fits one of the rooms.

    Figures of dimensions are small where they would cost a scale otherwise.

    Parameters
    ----------
    make
        Makes the scene for a scale [-].
    rooms
        Width and height on paper [mm], each that may be used.
    unit
        Whose standard scales are used.
    smaller
        Makes the scene with small figures; left out, as `make` does, and then made small.

    Returns
    -------
    Scene
        At the smallest scale of all where it fits at none.
    """
    scales = tuple(INCH) if unit == "in" else METRIC
    fits: dict[int, Scene] = {}

    def fits_in(scene: Scene) -> bool:
        wide, high = scene.paper_size
        return any(wide <= width and high <= height for width, height in rooms)

    def is_too_large(number: int) -> bool:
        fits[number] = make(scales[number])
        return not fits_in(fits[number])

    # Never larger on paper at a smaller scale, so the first that fits is found by halving.
    first = bisect_left(range(len(scales) - 1), True, key=lambda n: not is_too_large(n))
    if first:
        closer = small_figures(fits[first - 1]) if smaller is None else smaller(scales[first - 1])
        if fits_in(closer):
            return closer
    return fits[first] if first in fits else make(scales[first])


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
