"""Trim seen from the room: new casing where it goes, every piece numbered and listed.

`x` runs from the left edge of the opening, `y` from the floor, as the plan's trim has them. What
travels with the case is hatched, what stays on the wall is not.
"""

from __future__ import annotations

from collections.abc import Iterator

from cli.drawings.fonts import printable, text_width
from cli.drawings.front_elevation import FIRST, STEP
from cli.drawings.hatching import hatched
from cli.drawings.running import OccupiedAreas, running
from cli.drawings.scene import Scene
from cli.drawings.shapes import (
    SMALL,
    Arc,
    Dimension,
    Path,
    Point,
    Shape,
    Strokes,
    Text,
    line,
    rectangle,
)
from solver.carcass.settled_job import settled_job
from solver.carcass.trim_face import face_of
from solver.doorway.swing_of_job import doorway_of
from solver.job.hinge_side import hinge_side
from solver.job.job import Job
from solver.plan.built import CasePlan
from solver.plan.plan import Option
from solver.plan.trimming import FluteLayout, TrimPiece, TrimSet
from solver.units import Ticks, Unit, format_length, to_mm

RING = 2.6
"""Least radius of the ring round a number [mm] on paper."""

Placed = tuple[int, TrimPiece, Ticks, Ticks]
"""Number in the list, the piece, and its lower left corner [tick]."""


def trim_elevation(
    job: Job, option: Option, case: CasePlan, trim: TrimSet, scale: int
) -> Scene | None:
    """Return the elevation of a case's new casing; None where it has none with a place."""
    placed = list(_placed(trim))
    face = face_of(settled_job(job, option), settled_job(job, option).case(case.name))
    if not placed or face is None:
        return None
    shapes: list[Shape] = [*_behind(job, case, face.opening, placed)]
    for _, piece, x, y in placed:
        shapes += _piece(piece, x, y, scale)
        if trim.flutes is not None and "/trim-leg-" in piece.id:
            shapes.append(_flutes(trim.flutes, piece, x, y))
    taken = OccupiedAreas()
    for number, piece, x, y in placed:
        shapes += _number(number, piece, x, y, scale, taken)
    shapes += _sizes(face.opening, placed, job.unit, scale)
    title = f"Trim, {printable(case.name)}"
    note = "Hatched: travels with the case. Plain: stays on the wall. Dashed: the case behind."
    return Scene("trim", title, scale, tuple(shapes), note)


def trim_rows(trim: TrimSet, unit: Unit) -> list[str]:
    """Return one line for each piece: number, what it is, its size and where it is."""
    return [
        f"{number}: {printable(piece.name)}, {printable(piece.where)},"
        f" {format_length(piece.length, unit)} of {format_length(piece.width, unit)}"
        f" x {format_length(piece.thickness, unit)}, {'case' if piece.travels else 'wall'}"
        for number, piece in enumerate(trim.pieces, start=1)
    ]


def _placed(trim: TrimSet) -> Iterator[Placed]:
    for number, piece in enumerate(trim.pieces, start=1):
        if piece.x is not None and piece.y is not None:
            yield number, piece, piece.x, piece.y


def _size(piece: TrimPiece) -> tuple[Ticks, Ticks]:
    return (piece.length, piece.width) if piece.across else (piece.width, piece.length)


def _behind(job: Job, case: CasePlan, opening: Ticks, placed: list[Placed]) -> Iterator[Shape]:
    """The floor, and the case behind the trim."""
    left = min(0, *(x for _, _, x, _ in placed))
    right = max(opening, *(x + _size(piece)[0] for _, piece, x, _ in placed))
    more = (right - left) // 10
    yield line((to_mm(left - more), 0.0), (to_mm(right + more), 0.0), "place")
    x = (opening - case.outside.width) // 2
    ordered = job.case(case.name)
    if case.kind == "hung":
        door = doorway_of(job, ordered)
        x = door.hinge_gap
        if hinge_side(job, door, ordered) == "right":
            x = opening - door.hinge_gap - case.outside.width
    low, high = case.above_floor, case.above_floor + case.outside.height
    across = to_mm(x), to_mm(x + case.outside.width)
    yield rectangle(across, (to_mm(low), to_mm(high)), "hidden")


def _outline(piece: TrimPiece, left: Ticks, low: Ticks) -> tuple[Point, ...]:
    """Corners of a piece [mm]; a mitred end is cut off at 45 degrees on the opening's side."""
    wide, high = _size(piece)
    x, y = (to_mm(left), to_mm(left + wide)), (to_mm(low), to_mm(low + high))
    cut = to_mm(piece.width)
    first, second = (cut if end == "mitre" else 0.0 for end in piece.ends)
    if piece.across:
        return (x[0] + first, y[0]), (x[1] - second, y[0]), (x[1], y[1]), (x[0], y[1])
    if left < 0:  # the left leg: the opening is on its right
        return (x[0], y[0]), (x[1], y[0] + first), (x[1], y[1] - second), (x[0], y[1])
    return (x[0], y[0] + first), (x[1], y[0]), (x[1], y[1]), (x[0], y[1] - second)


def _piece(piece: TrimPiece, left: Ticks, low: Ticks, scale: int) -> Iterator[Shape]:
    yield Path(_outline(piece, left, low), "trim", closed=True, filled=True)
    wide, high = _size(piece)
    if piece.travels:
        x = to_mm(left), to_mm(left + wide)
        y = to_mm(low), to_mm(low + high)
        hatch = hatched(x, y, 1, scale)
        if hatch is not None:
            yield hatch


def _flutes(flutes: FluteLayout, piece: TrimPiece, left: Ticks, low: Ticks) -> Strokes:
    """Both edges of every flute, stopped before the ends of the leg."""
    bottom, top = to_mm(low + flutes.stop), to_mm(low + piece.length - flutes.stop)
    step = flutes.flute + flutes.space
    edges = [
        to_mm(left + flutes.margin + at * step + side)
        for at in range(flutes.count)
        for side in (0, flutes.flute)
    ]
    return Strokes(tuple(((x, bottom), (x, top)) for x in edges), "thin")


def _number(
    number: int, piece: TrimPiece, left: Ticks, low: Ticks, scale: int, taken: OccupiedAreas
) -> Iterator[Shape]:
    wide, high = (to_mm(size) for size in _size(piece))
    x, y = to_mm(left), to_mm(low)
    radius = max(RING, text_width(str(number), SMALL) / 2 + 0.8) * scale
    shares = ((0.5, 0.5), (0.5, 0.3), (0.5, 0.7), (0.3, 0.5), (0.7, 0.5))
    places = [(x + across * wide, y + up * high) for across, up in shares]
    at = taken.best(places, (radius, radius))
    yield Arc(at, radius, "thin", filled=True)
    yield Text((at[0], at[1] - SMALL / 2 * scale), str(number), align="middle")


def _sizes(opening: Ticks, placed: list[Placed], unit: Unit, scale: int) -> Iterator[Shape]:
    """Heights from the floor on both sides; below the opening, and the width over all."""
    left = min(x for _, _, x, _ in placed)
    right = max(x + _size(piece)[0] for _, piece, x, _ in placed)
    for edge, way in ((left, -1), (right, 1)):
        near = [
            (piece, y)
            for _, piece, x, y in placed
            if piece.across or (2 * x + _size(piece)[0] < opening) is (way < 0)
        ]
        ups = sorted({0, *(up for piece, y in near for up in (y, y + _size(piece)[1]))})
        across = to_mm(edge) + way * FIRST * scale
        yield running((to_mm(edge), 0.0), "y", across, ups, unit, scale)
    for step, (low, high) in enumerate(((0, opening), (left, right))):
        text = format_length(high - low, unit)
        ends = (to_mm(low), 0.0), (to_mm(high), 0.0)
        yield Dimension(*ends, "x", -(FIRST + step * STEP) * scale, high - low, text)
