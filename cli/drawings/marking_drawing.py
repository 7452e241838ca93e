"""Fixing and marking detail: one face of a side or an upright, with all that is marked on it.

Both sides of each line, a cross where the board goes, the fasteners on its middle line, and the
hinge mortises; heights from the board's own foot. `x` runs from the left edge of the face
as one looks at it. A planted back is drawn as seen from behind, with the lines on which it is
fastened to the boards before it: there `x` runs from the left as one looks at it from behind, so
the case's right side is on the left, and heights are from the back's own lower end.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Literal

from cli.drawings.fonts import printable
from cli.drawings.front_elevation import FIRST, STEP
from cli.drawings.hatching import hatched
from cli.drawings.keys import wrapped
from cli.drawings.marks import HingeMark, MarkedFace, MetBoard
from cli.drawings.running import running, spread
from cli.drawings.scene import Scene
from cli.drawings.shapes import SMALL, Arc, Path, Point, Shape, Text, line, rectangle
from cli.screen.wording import listed
from solver.carcass.front_boards import board_thickness, ceiling
from solver.plan.built import CasePlan
from solver.plan.plan import Option, Plan
from solver.strength.hang_sheet import hanging_of
from solver.units import TICKS_PER_INCH, Ticks, Unit, to_mm, with_unit

DOT = 0.6
"""Radius of a fastener's mark [mm] on paper."""
MORTISE: Ticks = TICKS_PER_INCH
"""How wide a mortise is drawn; its own width is that of the hinge bought [tick]."""
NAMES = 22.0
"""Room for the names of boards beside the face [mm] on paper."""
CAPTION = 36.0
"""Room for what is said beside a row of dimensions [mm] on paper."""
PITCH = 1.5 * SMALL
"""Least distance of two lines of lettering [mm] on paper."""


def marking(case: str, face: MarkedFace, unit: Unit, scale: int) -> Scene:
    """Return the drawing of a face of the case that is called `case`."""
    deep = to_mm(face.depth)
    outline = rectangle((0.0, deep), (0.0, to_mm(face.height)), "outline", filled=True)
    shapes: list[Shape] = [outline]
    for hinge in face.hinges:
        shapes += _mortise(face, hinge, scale)
    for board in face.boards:
        shapes += _board(face, board, scale)
    shapes += _edges(face, scale)
    shapes += _heights(face, unit, scale)
    shapes += _names(face, scale)
    shapes += _depths(face, unit, scale)
    title = f"Marking out, {printable(case)}: {face.name}"
    return Scene("marking", title, scale, tuple(shapes), _note(face))


def _note(face: MarkedFace) -> str:
    note = f"Heights from the {face.foot}. X: a board goes here."
    if any(board.fastened for board in face.boards):
        note += " Rings: fasteners."
    if face.pins:
        note += " Shelves lie on pins under their lower line."
    if face.hinges:
        note += " Hatched: hinge mortises, on the outer face."
    return note


def _across(face: MarkedFace, behind: Ticks) -> float:
    """Return x of what is so far behind the front edge [tick]."""
    return to_mm(behind if face.front_left else face.depth - behind)


def _board(face: MarkedFace, board: MetBoard, scale: int) -> Iterator[Shape]:
    end = face.depth if board.end is None else board.end
    x = sorted((_across(face, board.front), _across(face, end)))
    low, high = to_mm(board.underside), to_mm(board.top)
    for y in (low, high):
        yield line((x[0], y), (x[1], y), "mark")
    for edge in (board.front, board.end):
        if edge:
            yield line((_across(face, edge), low), (_across(face, edge), high), "mark")
    side = min(high - low, x[1] - x[0])
    for at in (x[0], x[1] - side):  # a square cross at either end leaves the fasteners free
        yield line((at, low), (at + side, high), "thin")
        yield line((at, high), (at + side, low), "thin")
    middle = (low + high) / 2
    if board.fastened:
        yield line((x[0], middle), (x[1], middle), "fixing")
    for place in board.from_front:
        yield Arc((_across(face, place), middle), DOT * scale, "mark", filled=True)


def _mortise(face: MarkedFace, hinge: HingeMark, scale: int) -> Iterator[Shape]:
    """On the outer face, so dashed; at the edge that the pin is on."""
    edge = _across(face, 0 if face.hinges_in_front else face.depth)
    inward = min(to_mm(MORTISE), to_mm(face.depth) / 3)
    x = (edge, edge + inward) if edge == 0.0 else (edge - inward, edge)
    y = to_mm(hinge.low), to_mm(hinge.high)
    yield rectangle(x, y, "hidden")
    hatch = hatched(x, y, 1, scale)
    if hatch is not None:
        yield hatch


def _edges(face: MarkedFace, scale: int) -> Iterator[Shape]:
    """Which edge is the front, and which the back."""
    high = to_mm(face.height) + 3.5 * scale
    names = ("front", "back") if face.front_left else ("back", "front")
    deep = to_mm(face.depth)
    yield Text((0.0, high), names[0], align="end", bold=names[0] == "front")
    yield Text((deep, high), names[1], align="start", bold=names[1] == "front")


def _heights(face: MarkedFace, unit: Unit, scale: int) -> Iterator[Shape]:
    """Every mark as a running dimension on the left; those of hinges on the right."""
    marks = {mark for board in face.boards for mark in (board.underside, board.top)}
    lines = sorted({0, face.height, *marks})
    yield running((0.0, 0.0), "y", -FIRST * scale, lines, unit, scale)
    if face.hinges:
        ends = sorted({0, *(mark for h in face.hinges for mark in (h.low, h.high))})
        right = to_mm(face.depth) + NAMES * scale
        yield running((right, 0.0), "y", right + FIRST * scale, ends, unit, scale, "hinge mortises")


def _names(face: MarkedFace, scale: int) -> Iterator[Shape]:
    """What each board is, beside its line on the right."""
    right = to_mm(face.depth) + 2.0 * scale
    boards = sorted(face.boards, key=lambda board: board.underside)
    middles = [to_mm(board.underside + board.top) / 2 for board in boards]
    for board, at in zip(boards, spread(middles, PITCH * scale), strict=True):
        yield Text((right, at - SMALL / 2 * scale), board.name, halo=True)


def _depths(face: MarkedFace, unit: Unit, scale: int) -> Iterator[Shape]:
    """Below: how far fasteners, and boards that stop short, are from the front edge."""
    rows: dict[tuple[Ticks, ...], list[str]] = {}
    for board in face.boards:
        if board.from_front:
            rows.setdefault(board.from_front, []).append(board.part)
    across = -FIRST * scale
    origin: Point = (_across(face, 0), 0.0)
    way: Literal[1, -1] = 1 if face.front_left else -1
    edges = {0, face.depth, *(edge for b in face.boards for edge in (b.front, b.end or 0))}
    for places, parts in (rows or {(): []}).items():
        run = running(origin, "x", across, [*edges, *places], unit, scale, way=way)
        yield run
        if parts:
            names = listed(list(dict.fromkeys(parts)))
            beyond = max(to_mm(face.depth), *(mark.text_at for mark in run.marks)) + 10.0 * scale
            words = wrapped(f"fasteners of {names}, from the front edge", CAPTION)
            top = across + ((len(words) - 1) * PITCH - SMALL) / 2 * scale
            for row, text in enumerate(words):
                yield Text((beyond, top - row * PITCH * scale), text)
        across -= STEP * 1.2 * scale


def back_marking(plan: Plan, option: Option, case: CasePlan, scale: int) -> Scene:
    """Return the drawing of the back of a case that has one."""
    fixing = hanging_of(plan.job, option).of(case.name).back
    assert fixing is not None
    ordered = plan.job.case(case.name)
    low = ordered.back_inset // 2
    wide = case.outside.width - ordered.back_inset
    high = case.outside.height - ordered.back_inset
    shapes: list[Shape] = [
        rectangle((0.0, to_mm(wide)), (0.0, to_mm(high)), "outline", filled=True)
    ]
    shapes += [
        line((to_mm(x), 0.0), (to_mm(x), to_mm(high)), "outline")
        for x in _joints(option, case, low, wide)
    ]
    fixed = ordered.fixing == "fixed"
    shapes += [_moved(path, low, (wide, high)) for path in _lines(case, fixed=fixed)]
    ups = sorted({0, high, *(up - low for up in _board_heights(case, fixed=fixed))})
    across = sorted({0, wide, *(wide - (x - low) for x in _uprights(case))})
    shapes.append(running((0.0, 0.0), "y", -FIRST * scale, ups, plan.unit, scale))
    shapes.append(running((0.0, 0.0), "x", -FIRST * scale, across, plan.unit, scale))
    title = f"Marking out, {printable(case.name)}: back, from behind"
    note = (
        "Heights from the lower end of the back. Chain lines: glue and a fastener every"
        f" {with_unit(fixing.spacing, plan.unit)} at most, on the middle of each board."
    )
    return Scene("back", title, scale, tuple(shapes), note)


def _board_heights(case: CasePlan, *, fixed: bool) -> list[Ticks]:
    """Middles of bottom, top and fixed shelves above the bottom end of the sides [tick]."""
    t = board_thickness(case)
    ends = [case.bays[0].openings[0].floor - t // 2, ceiling(case.bays[0]) + t // 2]
    shelves = [s for bay in case.bays for s in bay.shelves if fixed]
    return ends + [(s.underside + s.top) // 2 for s in shelves]


def _uprights(case: CasePlan) -> list[Ticks]:
    """Middles of sides and uprights from the case's left side [tick]."""
    t = board_thickness(case)
    between = [(a.x + a.inside.width + b.x) // 2 for a, b in pairwise(case.bays)]
    return [t // 2, *between, case.outside.width - t // 2]


def _lines(case: CasePlan, *, fixed: bool) -> Iterator[Path]:
    """The lines of fasteners, seen from the front: x from the case's left side [mm]."""
    t, high = board_thickness(case), case.outside.height
    sides = 0, case.outside.width
    for at in (case.bays[0].openings[0].floor - t // 2, ceiling(case.bays[0]) + t // 2):
        yield line((to_mm(sides[0]), to_mm(at)), (to_mm(sides[1]), to_mm(at)), "fixing")
    for x in _uprights(case):
        yield line((to_mm(x), 0.0), (to_mm(x), to_mm(high)), "fixing")
    for bay in case.bays if fixed else ():
        for shelf in bay.shelves:
            y = to_mm((shelf.underside + shelf.top) // 2)
            yield line((to_mm(bay.x), y), (to_mm(bay.x + bay.inside.width), y), "fixing")


def _moved(path: Path, inset: Ticks, size: tuple[Ticks, Ticks]) -> Path:
    """Turn a line round to be seen from behind, and cut it off at the back's edges."""
    wide, high = map(to_mm, size)
    points = []
    for x, y in path.points:
        turned = wide - (x - to_mm(inset))
        points.append((min(max(turned, 0.0), wide), min(max(y - to_mm(inset), 0.0), high)))
    return Path(tuple(points), path.layer)


def _joints(option: Option, case: CasePlan, inset: Ticks, wide: Ticks) -> list[Ticks]:
    """Where pieces of the back meet, from the left as seen from behind [tick]."""
    pieces = [part for part in option.parts if part.case == case.name and part.name == "back"]
    if len(pieces) < 2:
        return []
    return [wide - (x - inset) for x in _uprights(case)[1:-1]]
