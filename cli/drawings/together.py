"""Cases that stand beside each other in one elevation, with the lines that their shelves share."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from cli.drawings.fonts import printable
from cli.drawings.front_elevation import FIRST, STEP, standing
from cli.drawings.keys import KeyMark
from cli.drawings.running import running
from cli.drawings.scene import Scene
from cli.drawings.shapes import Dimension, Shape, line, moved
from cli.drawings.things import Pictures
from cli.tables.words import listed
from solver.built import CasePlan
from solver.job import Job
from solver.units import Ticks, Unit, format_length, to_mm


def neighbours(job: Job, cases: Sequence[CasePlan]) -> list[list[CasePlan]]:
    """Return the cases that stand beside each other, in the job's order, two and more."""
    groups: list[list[CasePlan]] = []
    for case in cases:
        beside = job.case(case.name).beside
        near = [group for group in groups if any(one.name == beside for one in group)]
        if near:
            near[0].append(case)
        else:
            groups.append([case])
    return [group for group in groups if len(group) > 1]


def together(
    cases: Sequence[CasePlan],
    unit: Unit,
    scale: int,
    marks: Mapping[str, KeyMark],
    pictures: Pictures,
) -> Scene:
    """Return cases side by side without a gap, on the floor that they stand on or hang over.

    On the left the heights above the floor of the shelves' upper faces, those of all cases.
    """
    shapes: list[Shape] = []
    lefts, x = [], 0
    for case in cases:
        own = standing(case, scale, marks, pictures)
        shapes += [moved(shape, to_mm(x), to_mm(case.above_floor)) for shape in own]
        lefts.append(x)
        x += case.outside.width
    more = FIRST * scale
    shapes.append(line((-more / 2, 0.0), (to_mm(x) + more / 2, 0.0), "place"))
    shapes.append(running((0.0, 0.0), "y", -more, _lines(cases), unit, scale, "above the floor"))
    shapes += _widths(cases, lefts, unit, scale)
    title = f"Front elevation, {listed([printable(case.name) for case in cases])} side by side"
    return Scene("together", title, scale, tuple(shapes))


def _lines(cases: Sequence[CasePlan]) -> list[Ticks]:
    """Upper faces of the boards above the floor, and the upper ends of the cases [tick]."""
    tops = {0}
    for case in cases:
        heights = [case.bays[0].openings[0].floor, case.outside.height]
        heights += [shelf.top for bay in case.bays for shelf in bay.shelves]
        tops |= {case.above_floor + height for height in heights}
    return sorted(tops)


def _widths(
    cases: Sequence[CasePlan], lefts: Sequence[Ticks], unit: Unit, scale: int
) -> Iterator[Dimension]:
    spans = [
        (left, left + case.outside.width, FIRST) for case, left in zip(cases, lefts, strict=True)
    ]
    spans.append((0, lefts[-1] + cases[-1].outside.width, FIRST + STEP))
    for low, high, off in spans:
        text = format_length(high - low, unit)
        ends = (to_mm(low), 0.0), (to_mm(high), 0.0)
        yield Dimension(*ends, "x", -off * scale, high - low, text)
