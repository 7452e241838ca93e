"""Front elevation: the case with its shelves, what stands there, and its dimensions.

On the left the marks as running dimensions from the bottom end of the sides, on the right the
clear heights, below the clear widths and the width over all. Cases that stand beside each other
are in one elevation, with the lines that their shelves share.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from cli.drawings.fonts import printable, text_width
from cli.drawings.keys import KeyMark
from cli.drawings.running import running, spread
from cli.drawings.scene import Scene
from cli.drawings.shapes import FIGURES, Dimension, Path, Shape, Text, line, moved, rectangle
from cli.drawings.things import Pictures, letters, things
from cli.screen.wording import grouped, listed
from solver.carcass.front_boards import ceiling, front_boards
from solver.job.job import Job
from solver.plan.built import Bay, CasePlan
from solver.units import Ticks, Unit, format_length, to_mm

FIRST, STEP = 8.0, 10.0
"""From the case to the first dimension line, and from one to the next [mm] on paper."""
PITCH = 1.5 * FIGURES
"""Least distance of two lines of lettering [mm] on paper."""


def elevation(
    case: CasePlan,
    unit: Unit,
    scale: int,
    marks: Mapping[str, KeyMark] | None = None,
    pictures: Pictures | None = None,
) -> Scene:
    """Return the front elevation of a case.

    Parameters
    ----------
    case
        The case as planned.
    unit
        What lengths are lettered in.
    scale
        Millimetres of the thing to one on paper [-].
    marks
        Letters and hatching of the things; None: they are left out.
    pictures
        Pictures of kinds, by name.
    """
    shapes: list[Shape] = [*standing(case, scale, marks or {}, pictures or {})]
    shapes += _marks(case, unit, scale)
    shapes += _clear_heights(case, unit, scale)
    shapes += _widths(case, unit, scale)
    title = f"Front elevation, {printable(case.name)}"
    return Scene("front", title, scale, tuple(shapes))


def standing(
    case: CasePlan, scale: int, marks: Mapping[str, KeyMark], pictures: Pictures
) -> Iterator[Shape]:
    """Yield a case and what stands in it, without dimensions; no things where `marks` is empty."""
    openings = [(bay, one) for bay in case.bays for one in bay.openings] if marks else []
    for bay, opening in openings:
        yield from things(bay, opening, marks, scale, pictures)
    yield from board_outlines(case)
    for bay, opening in openings:
        yield from letters(bay, opening, marks, scale)


def board_outlines(case: CasePlan) -> Iterator[Path]:
    """Yield the boards of a case as seen from the front."""
    for board in front_boards(case):
        x = to_mm(board.x), to_mm(board.x + board.width)
        y = to_mm(board.y), to_mm(board.y + board.height)
        yield rectangle(x, y, "outline", filled=True)


def bay_label(case: CasePlan, bays: Sequence[Bay]) -> str:
    """Return which bays of a case are meant; empty where there is only one."""
    if len(case.bays) == 1:
        return ""
    return f"bay{'s' if len(bays) > 1 else ''} {', '.join(str(bay.number) for bay in bays)}"


def bays_alike(case: CasePlan) -> list[list[Bay]]:
    """Return the bays of a case, those with the same heights together."""
    return grouped(case.bays, lambda bay: tuple((o.floor, o.height) for o in bay.openings))


def _marks(case: CasePlan, unit: Unit, scale: int) -> Iterator[Shape]:
    """One running dimension for each kind of bay, the first nearest to the case.

    What is farthest out comes first, so that lettering keeps the lines off that cross it.
    """
    across, shapes = -FIRST * scale, []
    for bays in bays_alike(case):
        bay = bays[0]
        lines = [0, bay.openings[0].floor, *(shelf.underside for shelf in bay.shelves)]
        lines += [ceiling(bay), case.outside.height]
        shape = running((0.0, 0.0), "y", across, lines, unit, scale, bay_label(case, bays))
        shapes.append(shape)
        wide = max(text_width(mark.text, FIGURES) for mark in shape.marks)
        wide = max(wide, text_width(shape.heading, FIGURES))
        across -= (FIRST + wide + STEP / 2) * scale
    yield from reversed(shapes)


def _clear_heights(case: CasePlan, unit: Unit, scale: int) -> Iterator[Shape]:
    """A chain of clear heights for each kind of bay, the last nearest, then the whole height."""
    right, height = to_mm(case.outside.width), case.outside.height
    across, shapes = right + FIRST * scale, []
    groups = bays_alike(case)
    for bays in reversed(groups):
        label = bay_label(case, bays) if len(groups) > 1 else ""
        texts = [format_length(one.height, unit) for one in bays[0].openings]
        across += (max(text_width(text, FIGURES) for text in (*texts, label)) + 1) * scale
        chain: list[Shape] = [*_chain(bays[0], texts, (right, across), scale)]
        if label:
            above = to_mm(height) + 2 * FIGURES * scale
            chain.append(Text((across, above), label, "dimension", align="end"))
        shapes.append(chain)
        across += STEP / 2 * scale
    text = format_length(height, unit)
    across += (text_width(text, FIGURES) + 1) * scale
    yield Dimension((right, 0.0), (right, to_mm(height)), "y", across, height, text)
    yield from (shape for chain in reversed(shapes) for shape in chain)


def _chain(
    bay: Bay, texts: Sequence[str], across: tuple[float, float], scale: int
) -> Iterator[Dimension]:
    """The clear heights of a bay; `across` is the case's edge and where the line is [mm]."""
    edge, at = across
    middles = [to_mm(2 * one.floor + one.height) / 2 for one in bay.openings]
    places = spread(middles, PITCH * scale)
    for opening, text, place in zip(bay.openings, texts, places, strict=True):
        low, high = to_mm(opening.floor), to_mm(opening.floor + opening.height)
        yield Dimension((edge, low), (edge, high), "y", at, opening.height, text, place)


def _widths(case: CasePlan, unit: Unit, scale: int) -> Iterator[Shape]:
    """The clear width of each bay, then the width over all."""
    for bay in case.bays:
        yield _width(bay.x, bay.x + bay.inside.width, -FIRST * scale, unit)
    yield _width(0, case.outside.width, -(FIRST + STEP) * scale, unit)


def _width(low: Ticks, high: Ticks, across: float, unit: Unit) -> Dimension:
    text = format_length(high - low, unit)
    return Dimension((to_mm(low), 0.0), (to_mm(high), 0.0), "x", across, high - low, text)


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


def joint_elevation(
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
    shapes += _case_widths(cases, lefts, unit, scale)
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


def _case_widths(
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
