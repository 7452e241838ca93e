"""Side section: a bay cut through from front to back, the front on the left.

`x` is the distance from the case's front, `y` the height above the bottom end of the sides.
"""

from __future__ import annotations

from collections.abc import Iterator

from cli.drawings.fonts import printable, text_width
from cli.drawings.front_elevation import FIRST, STEP, bay_label, bays_alike
from cli.drawings.hatching import CUT_PITCH, hatched
from cli.drawings.running import running
from cli.drawings.scene import Scene
from cli.drawings.shapes import FIGURES, SMALL, Dimension, Point, Shape, Text, line, rectangle
from solver.carcass.boards_of_case import lip_sizes
from solver.carcass.front_boards import board_thickness, ceiling
from solver.job.job import Job
from solver.plan.built import Bay, CasePlan
from solver.units import Ticks, Unit, format_length, to_mm


def section(job: Job, case: CasePlan, bay: Bay, scale: int) -> Scene:
    """Return the section through a bay of a case, looking to the right, with what stands there."""
    unit = job.unit
    shapes: list[Shape] = [*_things(bay), *_boards(job, case, bay, scale)]
    shapes += _floor(case, unit, scale)
    shapes += _heights(case, bay, unit, scale)
    shapes += _depths(job, case, bay, unit, scale)
    bays = next((group for group in bays_alike(case) if bay in group), [bay])
    where = bay_label(case, bays)
    title = f"Side section, {printable(case.name)}{f', {where}' if where else ''}"
    return Scene("section", title, scale, tuple(shapes))


def _mm(low: Ticks, high: Ticks) -> Point:
    return to_mm(low), to_mm(high)


def _things(bay: Bay) -> Iterator[Shape]:
    """The outlines of the things from the side, equal ones once, what is nearest last."""
    seen = set()
    for opening in bay.openings:
        for thing in sorted(opening.items, key=lambda one: -one.x):
            y = opening.floor + thing.y
            place = thing.z, thing.z + thing.depth, y, y + thing.height
            if place not in seen:
                seen.add(place)
                yield rectangle(_mm(*place[:2]), _mm(*place[2:]), "item", filled=True)


def _boards(job: Job, case: CasePlan, bay: Bay, scale: int) -> Iterator[Shape]:
    """All that is cut through, hatched; the side behind it is only an outline."""
    t, deep, high = board_thickness(case), bay.inside.depth, case.outside.height
    floor, top = bay.openings[0].floor, ceiling(bay)
    lip, above, below = lip_sizes(job, job.case(case.name))
    yield rectangle(_mm(0, deep), _mm(0, high), "outline")
    cut = [((0, deep), (top, high)), ((0, deep), (floor - t, floor))]
    if floor > t:
        cut.append(((0, t), (0, floor - t)))
    for shelf in bay.shelves:
        cut.append(((lip, shelf.depth), (shelf.underside, shelf.top)))
        if lip:
            cut.append(((0, lip), (shelf.underside - below, shelf.top + above)))
    if case.outside.depth > deep:
        inset = job.case(case.name).back_inset // 2
        cut.append(((deep, case.outside.depth), (inset, high - inset)))
    for across, up in cut:
        yield from _cut(_mm(*across), _mm(*up), scale)


def _cut(x: Point, y: Point, scale: int) -> Iterator[Shape]:
    yield rectangle(x, y, "board", filled=True)
    hatch = hatched(x, y, 1, scale, CUT_PITCH)
    if hatch is not None:
        yield hatch


def _floor(case: CasePlan, unit: Unit, scale: int) -> Iterator[Shape]:
    """The floor of the room, and how high above it the case is."""
    at, deep = -to_mm(case.above_floor), to_mm(case.outside.depth)
    yield line((-6.0 * scale, at), (deep + 6.0 * scale, at), "place")
    if case.above_floor:
        text = f"{format_length(case.above_floor, unit)} above the floor"
        yield Text((0.0, at - (SMALL + 1.5) * scale), text)
    else:
        yield Text((0.0, at - (SMALL + 1.5) * scale), "floor")


def _heights(case: CasePlan, bay: Bay, unit: Unit, scale: int) -> Iterator[Shape]:
    """Both faces of every board as running dimensions on the left, clear heights on the right."""
    lines = [0, bay.openings[0].floor, ceiling(bay), case.outside.height]
    lines += [mark for shelf in bay.shelves for mark in (shelf.underside, shelf.top)]
    if case.bays[0].openings[0].floor > board_thickness(case):
        lines.append(case.bays[0].openings[0].floor - board_thickness(case))
    yield running((0.0, 0.0), "y", -FIRST * scale, lines, unit, scale)
    right = to_mm(case.outside.depth)
    wide = max(text_width(format_length(o.height, unit), FIGURES) for o in bay.openings)
    for opening in bay.openings:
        low, high = _mm(opening.floor, opening.floor + opening.height)
        text = format_length(opening.height, unit)
        across = right + (FIRST + wide + 1) * scale
        yield Dimension((right, low), (right, high), "y", across, opening.height, text)


def _depths(job: Job, case: CasePlan, bay: Bay, unit: Unit, scale: int) -> Iterator[Shape]:
    """Above: the shelf's own depth behind its lip, the inside depth, and the depth over all."""
    top, across = to_mm(case.outside.height), FIRST
    lip = lip_sizes(job, job.case(case.name))[0]
    spans = [(0, bay.inside.depth), (0, case.outside.depth)]
    if lip:
        spans.insert(0, (lip, bay.inside.depth))
    for low, high in dict.fromkeys(spans):
        text = format_length(high - low, unit)
        ends = _mm(low, high)
        yield Dimension(
            (ends[0], top), (ends[1], top), "x", to_mm(case.outside.height) + across * scale,
            high - low, text,
        )  # fmt: skip
        across += STEP
