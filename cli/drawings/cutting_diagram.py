"""A sheet with its parts and its cuts: numbered in the order in which they are made.

`x` runs along the sheet's length and `y` across it, both from the factory corner, as in the plan.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from cli.drawings.fonts import printable, text_width
from cli.drawings.keys import wrapped
from cli.drawings.running import OccupiedAreas, running
from cli.drawings.scene import Scene
from cli.drawings.shapes import SMALL, Arc, Dimension, Point, Shape, Text, line, rectangle
from cli.drawings.shapes import Path as Outline
from solver.plan.saw_cuts import Cut, Offcut
from solver.plan.stocked import Part, Piece, Sheet
from solver.units import Ticks, Unit, format_length, to_mm

FIRST, STEP = 8.0, 12.0
"""From the sheet to the first dimension line, and on to the next [mm] on paper."""
LEAD = 1.45
"""Distance of two lines of lettering over the height of a capital [-]."""
BUBBLE = 2.6
"""Radius of the circle round the number of a cut [mm] on paper."""
ROOM = 1.0
"""Kept free in a part round its lettering [mm] on paper."""


def sheet_scene(
    sheet: Sheet, number: int, parts: Mapping[str, Part], unit: Unit, scale: int
) -> Scene:
    """Return the drawing of one sheet.

    Parameters
    ----------
    sheet, number
        The sheet, and its number in the plan from 1 [-].
    parts
        All parts of the option by their ids.
    unit, scale
        Of the lettering, and of the drawing [-].
    """
    long, wide = to_mm(sheet.length), to_mm(sheet.width)
    taken = OccupiedAreas()
    corner = list(_corner(scale))
    taken.take(Scene("", "", scale, tuple(corner)).bounds)
    shapes: list[Shape] = [rectangle((0.0, long), (0.0, wide), "outline", filled=True)]
    for piece in sheet.pieces:
        shapes += _piece(piece, parts, unit, scale, taken)
    for offcut in sheet.offcuts:
        shapes += _offcut(offcut, unit, scale, taken)
    shapes += [_cut_line(cut, sheet) for cut in sheet.cuts]
    for cut in sheet.cuts:
        shapes += _bubble(cut, sheet, scale, taken)
    shapes += corner
    shapes += _grain(sheet, parts, scale)
    shapes += _sizes(sheet, unit, scale)
    title = f"Sheet {number}: {printable(sheet.stock)}"
    note = (
        "Numbers in rings: cuts in their order, at the middle of the kerf. Dashed: offcut to keep."
    )
    return Scene(f"sheet-{number}", title, scale, tuple(shapes), note)


def cut_rows(sheet: Sheet, parts: Mapping[str, Part], unit: Unit) -> list[str]:
    """Return one line a cut: its number, how the saw is set, and what comes off."""
    rows = []
    for cut in sheet.cuts:
        off = cut.comes_off
        what = "" if off is None or off.what == "waste" else f" → {_panel(off.name, parts)}"
        size = format_length(cut.setting, unit)
        rows.append(f"{cut.number}: {cut.kind} {size}{what}")
    return rows


def _panel(name: str, parts: Mapping[str, Part]) -> str:
    """Return what a panel is called: a part by its number and name."""
    if name not in parts:
        return printable(name)
    return f"{list(parts).index(name) + 1} {printable(short_name(name, parts))}"


def short_name(part: str, parts: Mapping[str, Part]) -> str:
    """Return a part's id, without its case where all parts are of one case."""
    cases = {one.case for one in parts.values()}
    return part.rpartition("/")[2] if len(cases) == 1 else part


def _piece(
    piece: Piece, parts: Mapping[str, Part], unit: Unit, scale: int, taken: OccupiedAreas
) -> Iterator[Shape]:
    x = to_mm(piece.x), to_mm(piece.x + piece.length)
    y = to_mm(piece.y), to_mm(piece.y + piece.width)
    yield rectangle(x, y, "part", filled=True)
    part = parts[piece.part]
    number = str(list(parts).index(piece.part) + 1)
    name = printable(short_name(piece.part, parts))
    size = f"{format_length(part.length, unit)} x {format_length(part.width, unit)}"
    yield from _fitted(x, y, (number, name, size), scale, taken)


def _fitted(
    x: Point, y: Point, words: tuple[str, str, str], scale: int, taken: OccupiedAreas
) -> Iterator[Shape]:
    """Letter number, name and size of a part, as much of it as there is room for."""
    wide, high = (x[1] - x[0]) / scale - 2 * ROOM, (y[1] - y[0]) / scale - 2 * ROOM
    for lines in _ways(words, wide):
        widths = [text_width(text, height, bold=bold) for text, height, bold in lines]
        total = sum(height * LEAD for _, height, _ in lines)
        last = lines == [(words[0], SMALL, True)]
        if (max(widths) <= wide and total <= high) or last:
            yield from _lines(lines, (sum(x) / 2, sum(y) / 2), total, scale)
            half = max(widths) / 2 * scale, total / 2 * scale
            taken.take(
                (
                    sum(x) / 2 - half[0],
                    sum(y) / 2 - half[1],
                    sum(x) / 2 + half[0],
                    sum(y) / 2 + half[1],
                )
            )
            return


Lettered = list[tuple[str, float, bool]]
"""Lines: text, height of capitals [mm], bold."""


def _ways(words: tuple[str, str, str], wide: float) -> Iterator[Lettered]:
    """Yield ways to letter a part, the fullest first."""
    number, name, size = words
    yield [(f"{number}  {name}", SMALL, True), (size, SMALL, False)]
    yield [(f"{number}  {name}   {size}", SMALL, True)]
    first, _, second = size.partition(" x ")
    rows = [first, f"x {second}"]
    yield [
        (number, SMALL, True),
        *((row, SMALL, False) for row in wrapped(name, max(wide, 4.0))),
        *((row, SMALL, False) for row in rows),
    ]
    yield [(number, SMALL, True), *((row, SMALL, False) for row in rows)]
    yield [(number, SMALL, True)]


def _lines(lines: Lettered, middle: Point, total: float, scale: int) -> Iterator[Text]:
    top = middle[1] + total / 2 * scale
    for text, height, bold in lines:
        baseline = top - (LEAD + 1) / 2 * height * scale
        if text:
            yield Text((middle[0], baseline), text, "text", height, "middle", bold=bold, halo=True)
        top -= LEAD * height * scale


def _offcut(offcut: Offcut, unit: Unit, scale: int, taken: OccupiedAreas) -> Iterator[Shape]:
    x = to_mm(offcut.x), to_mm(offcut.x + offcut.length)
    y = to_mm(offcut.y), to_mm(offcut.y + offcut.width)
    yield rectangle(x, y, "offcut")
    size = f"{format_length(offcut.length, unit)} x {format_length(offcut.width, unit)}"
    yield from _fitted(x, y, (printable(offcut.name), "to keep", size), scale, taken)


def _ends(cut: Cut, sheet: Sheet) -> tuple[Point, Point]:
    """The middle of the kerf of a cut, from start to end [mm]."""
    middle = to_mm(2 * cut.at + sheet.kerf) / 2
    start, end = to_mm(cut.start), to_mm(cut.end)
    if cut.direction == "rip":
        return (start, middle), (end, middle)
    return (middle, start), (middle, end)


def _cut_line(cut: Cut, sheet: Sheet) -> Outline:
    return line(*_ends(cut, sheet), "cut")


def _bubble(cut: Cut, sheet: Sheet, scale: int, taken: OccupiedAreas) -> Iterator[Shape]:
    """The number of a cut in a ring on its line, where nothing else stands."""
    (ax, ay), (bx, by) = _ends(cut, sheet)
    shares = (0.12, 0.88, 0.2, 0.8, 0.3, 0.7, 0.4, 0.6, 0.5, 0.05, 0.95, 0.02, 0.98)
    text = str(cut.number)
    radius = max(BUBBLE, text_width(text, SMALL) / 2 + 0.8) * scale
    beyond = radius if cut.kind == "trim" else 0.0  # trims are too near the edge to be told there
    places = [(ax + (bx - ax) * share, ay + (by - ay) * share) for share in shares]
    if beyond:
        off = (0.0, -radius if ay < to_mm(sheet.width) / 2 else radius)
        if cut.direction == "crosscut":
            off = (-radius if ax < to_mm(sheet.length) / 2 else radius, 0.0)
        places = [(x + off[0], y + off[1]) for x, y in places]
    at = taken.best(places, (radius, radius))
    yield Arc(at, radius, "thin", filled=True)
    yield Text((at[0], at[1] - SMALL / 2 * scale), text, align="middle")


def _corner(scale: int) -> Iterator[Shape]:
    """The factory corner, that everything is measured from."""
    side = 4.0 * scale
    yield Outline(((0.0, 0.0), (side, 0.0), (0.0, side)), "mark", closed=True)
    yield Text((0.0, -4.5 * scale), "factory corner")


def _grain(sheet: Sheet, parts: Mapping[str, Part], scale: int) -> Iterator[Shape]:
    """An arrow along the grain, above the sheet, where a part of it has one."""
    if all(parts[piece.part].grain == "any" for piece in sheet.pieces):
        return
    y = to_mm(sheet.width) + 6.0 * scale
    start, end = 0.0, 40.0 * scale
    head = 2.5 * scale
    yield line((start, y), (end, y), "mark")
    for way, tip in ((1, start), (-1, end)):
        back = tip + way * head
        points = ((back, y + head / 3), (tip, y), (back, y - head / 3))
        yield Outline(points, "mark")
    yield Text((end + 2 * scale, y - SMALL / 2 * scale), "grain")


def _sizes(sheet: Sheet, unit: Unit, scale: int) -> Iterator[Shape]:
    """The length below; on the left where the cuts over the whole length are, from the corner."""
    long, wide = sheet.length, sheet.width
    ups = {0, wide, *(cut.at for cut in _full(sheet, "rip"))}
    yield running((0.0, 0.0), "y", -(FIRST + BUBBLE) * scale, sorted(ups), unit, scale)
    yield _dimension(long, unit, -(FIRST + BUBBLE) * scale)


def _full(sheet: Sheet, direction: str) -> Iterator[Cut]:
    """Cuts of a direction that run over the whole sheet, but for its trimmed edges."""
    most = 2 * (sheet.edge_trim + sheet.kerf)
    length = sheet.length if direction == "rip" else sheet.width
    return (
        cut
        for cut in sheet.cuts
        if cut.direction == direction and cut.end - cut.start >= length - most
    )


def _dimension(length: Ticks, unit: Unit, across: float) -> Dimension:
    text = format_length(length, unit)
    return Dimension((0.0, 0.0), (to_mm(length), 0.0), "x", across, length, text)
