"""The full-size story stick (a rod): every mark of one face, at 1 to 1, whole or in pieces.

Its left edge is laid along the board. `y` is the height above the board's foot, the datum of all
its marks. A piece shows what lies in its window; the overlap is on both neighbours. As PDF each
stick is on one long page, and in pieces to print and join.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from cli.drawings.fonts import printable, text_width
from cli.drawings.hatching import hatched
from cli.drawings.marks import HingeMark, MarkedFace, MetBoard, marked_faces
from cli.drawings.pages import PAPERS
from cli.drawings.pdf import FONT_LIST, pdf
from cli.drawings.running import spread
from cli.drawings.scene import Scene
from cli.drawings.shapes import MIDDLE, SMALL, Arc, Shape, Text, line, rectangle
from cli.drawings.shapes import Path as Outline
from cli.drawings.svg import svg
from cli.screen.wording import grouped, listed
from solver.plan.plan import Option, Plan
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, format_length, to_mm, with_unit

WIDTH = 40.0
"""Of the stick [mm]."""
LETTERS_AT = WIDTH + 9.0
"""Where what is written beside it starts [mm]."""
PITCH = 1.5 * MIDDLE
"""Least distance of two lines of lettering [mm]."""
HINGES_AT = 24.0
"""Where the hinge mortises start, on the stick [mm]; boards are marked to the left of it."""
ENDS = 12.0
"""How much of the paper beyond each end is shown [mm]."""
TILE: dict[Unit, Ticks] = {"in": 8 * TICKS_PER_INCH, "mm": 200 * TICKS_PER_MM}
"""From one register mark to the next [tick]; it fits A4 and Letter upright."""
OVERLAP = 20.0
"""How much two neighbouring pieces have in common [mm]."""
BAR: dict[Unit, Ticks] = {"in": 6 * TICKS_PER_INCH, "mm": 150 * TICKS_PER_MM}
"""Length of the check bar [tick]."""
BAR_AT = 146.0
"""Where the check bar stands, from the stick's left edge [mm]."""
REGISTER_AT = 120.0
"""Where the right one of two register marks is, from the stick's left edge [mm]."""
REGISTER = 4.0
"""Radius of a register mark [mm]."""
MARGIN = 8.0
"""Kept free round a page [mm]."""
STRIP = 14.0
"""Height of what is told at the foot of a page [mm]."""
LONGEST = 5000.0
"""Longest page [mm]: PDF takes 14 400 pt, 5080 mm (ISO 32000-1, annex C)."""
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


@dataclass(frozen=True)
class Window:
    """Which heights a page shows [mm], and which pieces it joins.

    Attributes
    ----------
    low, high
        Heights shown [mm].
    below, above
        Register marks where the neighbouring pages join: number and height [tick].
    """

    low: float
    high: float
    below: tuple[int, Ticks] | None = None
    above: tuple[int, Ticks] | None = None

    def holds(self, *heights: float) -> bool:
        """Whether all these heights [mm] are shown."""
        return all(self.low <= height <= self.high for height in heights)


def whole(face: MarkedFace) -> Window:
    """Return the window of the whole stick."""
    return Window(-ENDS, to_mm(face.height) + ENDS)


def tiles(face: MarkedFace, unit: Unit) -> list[Window]:
    """Return the windows of the pages that the stick is printed on, from the bottom up."""
    every = whole(face)
    count = max(1, -(-face.height // TILE[unit]))
    windows = []
    for number in range(count):
        start, stop = number * TILE[unit], (number + 1) * TILE[unit]
        first, last = number == 0, number == count - 1
        windows.append(
            Window(
                every.low if first else to_mm(start) - OVERLAP / 2,
                every.high if last else to_mm(stop) + OVERLAP / 2,
                None if first else (number, start),
                None if last else (number + 1, stop),
            )
        )
    return windows


def stick(face: MarkedFace, unit: Unit, window: Window) -> Scene:
    """Return what a window shows of the stick of a face, at 1 to 1."""
    shapes = [*_rod(face, window), *_check_bar(unit, window)]
    for board in face.boards:
        shapes += _board(board, window)
    for hinge in face.hinges:
        shapes += _hinge(hinge, window)
    for joint in (window.below, window.above):
        if joint:
            shapes += _register(joint, unit)
    shapes += _lettering(_labels(face, unit), window)
    return Scene("stick", face.name, 1, tuple(shapes))


def _labels(face: MarkedFace, unit: Unit) -> Iterator[tuple[float, str, str]]:
    """Yield height [mm], figure and words of all that is written: every mark as it is."""
    for board in face.boards:
        under = "on pins" if face.pins and board.part == "shelf" else "underside"
        for value, what in ((board.underside, under), (board.top, "top face")):
            yield to_mm(value), format_length(value, unit), f"{board.name}, {what}"
    for hinge in face.hinges:
        old = " (old)" if hinge.old else ""
        for value, what in ((hinge.low, "lower end"), (hinge.high, "upper end")):
            text = f"hinge {hinge.number}{old}, {what}"
            yield to_mm(value), format_length(value, unit), text


def _lettering(labels: Iterable[tuple[float, str, str]], window: Window) -> Iterator[Shape]:
    """Place the lettering beside its marks, moved apart where marks are near one another."""
    shown = sorted(label for label in labels if window.holds(label[0]))
    places = spread([height for height, *_ in shown], PITCH)
    wide = max((text_width(figure, MIDDLE, bold=True) for _, figure, _ in shown), default=0.0)
    for (height, figure, words), place in zip(shown, places, strict=True):
        yield Outline(((WIDTH, height), (WIDTH + 3.0, height), (LETTERS_AT - 1.0, place)), "thin")
        low = place - MIDDLE / 2
        yield Text((LETTERS_AT, low), figure, height=MIDDLE, bold=True)
        yield Text((LETTERS_AT + wide + 2.5, low), words, height=SMALL)


def _rod(face: MarkedFace, window: Window) -> Iterator[Shape]:
    """Both edges of the stick, and its ends where they are shown."""
    bottom, top = 0.0, to_mm(face.height)
    low, high = max(bottom, window.low), min(top, window.high)
    foot = f"{face.foot}: all marks are from here"
    for x in (0.0, WIDTH):
        yield line((x, low), (x, high), "outline")
    for end, says in ((bottom, foot), (top, "top end")):
        if window.holds(end):
            yield line((0.0, end), (WIDTH, end), "outline")
            beyond = end - 8 if end == bottom else end + 5
            yield Text((0.0, beyond), says, height=MIDDLE, bold=True)


def _board(board: MetBoard, window: Window) -> Iterator[Shape]:
    """Both sides of a board, a cross where it goes, and its middle line where it is fastened."""
    low, high = to_mm(board.underside), to_mm(board.top)
    for height in (low, high):
        if window.holds(height):
            yield line((0.0, height), (WIDTH, height), "mark")
    if window.holds(low, high):
        x = (2.0, HINGES_AT - 2.0)
        yield line((x[0], low), (x[1], high), "thin")
        yield line((x[0], high), (x[1], low), "thin")
    middle = (low + high) / 2
    if board.fastened and window.holds(middle):
        yield line((0.0, middle), (WIDTH, middle), "fixing")


def _hinge(hinge: HingeMark, window: Window) -> Iterator[Shape]:
    """The mortise, hatched so that it is no board."""
    low, high = max(to_mm(hinge.low), window.low), min(to_mm(hinge.high), window.high)
    if low >= high:
        return
    x = (HINGES_AT, WIDTH)
    yield line((HINGES_AT, low), (HINGES_AT, high), "mark")
    for height in (to_mm(hinge.low), to_mm(hinge.high)):
        if window.holds(height):
            yield line((HINGES_AT, height), (WIDTH, height), "mark")
    hatch = hatched(x, (low, high), 1, 1)
    if hatch is not None:
        yield hatch


def _register(joint: tuple[int, Ticks], unit: Unit) -> Iterator[Shape]:
    """Two crosses in circles that lie on those of the neighbouring page."""
    number, value = joint
    height = to_mm(value)
    for x in (-10.0, REGISTER_AT):
        yield Arc((x, height), REGISTER, "thin")
        yield line((x - 1.5 * REGISTER, height), (x + 1.5 * REGISTER, height), "thin")
        yield line((x, height - 1.5 * REGISTER), (x, height + 1.5 * REGISTER), "thin")
    right = REGISTER_AT + 1.5 * REGISTER
    yield Text((right, height + 1.5), f"join {number}", height=SMALL, bold=True)
    yield Text((right, height - 1.5 - SMALL), f"at {with_unit(value, unit)}", height=SMALL)


def _check_bar(unit: Unit, window: Window) -> Iterator[Shape]:
    """A bar along the stick that says what it must measure on paper."""
    length = to_mm(BAR[unit])
    middle = (max(window.low, window.high - 250.0) + window.high) / 2
    low, high = middle - length / 2, middle + length / 2
    yield rectangle((BAR_AT, BAR_AT + 4.0), (low, high), "outline")
    yield rectangle((BAR_AT, BAR_AT + 4.0), (low, middle), "thin")
    for at in (low, high):
        yield line((BAR_AT - 5.0, at), (BAR_AT + 9.0, at), "mark")
    for number, text in enumerate(
        ("check bar:", "must measure", f"{with_unit(BAR[unit], unit)}", "end to end")
    ):
        yield Text((BAR_AT + 6.0, middle + 8 - 5 * number), text, height=SMALL, bold=number == 2)


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
    drawn = []
    for case in option.cases:
        for faces in grouped(marked_faces(plan, option, case), _marks):
            names = listed([face.name for face in faces])
            title = f"{stick_word(plan.unit)}, {printable(case.name)}: {names}"
            drawn.append(Stick(title, faces[0]))
    return drawn


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
