"""Rules on the swing of hung cases, restated from the job: the gap needed, and what is said.

The gap is worked out by another road than the plan's: as the distance that the jamb's face must
have from the pin. Each corner of the case as built moves on a circle of radius R, and the jamb
must stay off it by the running clearance c. Where the circle is level with the jamb the distance
is R + c. Where the jamb ends before that level, at q, its edge counts: sqrt((R + c)^2 - q^2).

A face that moves past an edge of the jamb comes nearest at the end of its turn, or where one of
its corners takes over. With h the distance of the face from the pin, its normal turned to phi and
the edge at y, it needs x = (h + c - y sin phi) / cos phi, which has a least value and no greatest
one between. So faces are looked at shut and fully open only.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import asin, atan2, ceil, cos, hypot, pi, radians, sin, sqrt

from solver.checking.findings import Code, Finding, finding
from solver.checking.views import CaseView, OptionView, at_least, length_pair
from solver.job.doorway import Doorway
from solver.plan.built import Size
from solver.plan.swinging import Swinging
from solver.units import Ticks

Point = tuple[float, float]
Band = tuple[float, float]
"""From where to where, both included [tick]."""
EASE = 1e-3
"""Two ways to the same figure may differ by so much before it is rounded [tick]."""
TOUCH = 1e-6
"""What only touches, but for the rounding of floats, is not beside [tick]."""


def present(view: CaseView) -> Iterator[Finding]:
    """A case hung in a doorway carries its swing; no other case does."""
    has = view.plan.swing is not None
    if has != (_doorway(view) is not None):
        yield finding(
            Code.SWING_PRESENT,
            view.where,
            "swing",
            "none" if has else "worked out, as the case hangs in a doorway",
            "given" if has else "left out",
        )


def gaps(view: OptionView) -> Iterator[Finding]:
    """The latch gap, at rest and as needed; of two cases in a doorway each beside the other."""
    for case, door, swing, other in hung(view):
        yield from _gap(case, door, swing, other)
        yield from _gap_at_rest(case, door, swing, other)


def hung(view: OptionView) -> Iterator[tuple[CaseView, Doorway, Swinging, Size | None]]:
    """Each case that hangs in a doorway, its swing, and the size of the other one in it."""
    for case in view.cases:
        door, swing = _doorway(case), case.plan.swing
        if door is None or swing is None:
            continue
        same = [one for one in view.cases if _doorway(one) == door]
        other = next((one for one in same if one.case.name != case.case.name), None)
        yield case, door, swing, None if other is None else other.plan.outside


def _gap(view: CaseView, door: Doorway, swing: Swinging, other: Size | None) -> Iterator[Finding]:
    """The latch gap needed is that of the corner that needs most."""
    needs, has = gap_needed(view, door, other), swing.latch_gap_needed
    if has not in (needs, gap_needed(view, door, other, EASE)):
        shown = length_pair(needs, has, view.unit)
        yield finding(Code.SWING_GAP, view.where, "latch gap needed", *shown)


def _gap_at_rest(
    view: CaseView, door: Doorway, swing: Swinging, other: Size | None
) -> Iterator[Finding]:
    """What is left at the latch is the clear width less hinge gap and case, of each there is."""
    needs = door.clear_width - door.hinge_gap - view.plan.outside.width
    if other is not None:
        needs -= door.hinge_gap + other.width
    if needs != swing.latch_gap:
        shown = length_pair(needs, swing.latch_gap, view.unit)
        yield finding(Code.SWING_GAP_AT_REST, view.where, "latch gap at rest", *shown)


def swings(view: CaseView) -> Iterator[Finding]:
    """A case said to swing has the gap for it, and runs into nothing."""
    swing = view.plan.swing
    if swing is None or not swing.swings:
        return
    yield from at_least(
        Code.SWING_SWINGS,
        view.where,
        "latch gap of a case that is said to swing",
        swing.latch_gap_needed,
        swing.latch_gap,
        view.unit,
    )
    if swing.binds_at is not None:
        yield finding(
            Code.SWING_SWINGS,
            view.where,
            "a case that is said to swing",
            "free all the way",
            f"bound at {swing.binds_at} degrees",
        )


def noted(view: OptionView) -> Iterator[Finding]:
    """A hung case that does not swing, or hangs in no doorway, is named in the option's notes."""
    for case in view.option.cases:
        if case.kind != "hung" or (case.swing is not None and case.swing.swings):
            continue
        fault = "does not swing" if case.swing else "hangs in no doorway"
        if not any(note.startswith(f"case {case.name!r} {fault}") for note in view.option.notes):
            yield finding(
                Code.SWING_NOTED,
                f"{view.where}, case {case.name!r}",
                f"that it {fault}",
                "a note",
                "left unsaid",
            )


def _doorway(view: CaseView) -> Doorway | None:
    if view.case.kind != "hung":
        return None
    return next((one for one in view.job.doorways if one.name == view.case.doorway), None)


def gap_needed(
    view: CaseView, door: Doorway, other: Size | None = None, ease: float = -1e-6
) -> Ticks:
    """Latch gap that the case as built needs, and `ease` more, rounded up [tick]."""
    size = view.plan.outside
    reach = reach_of(view, door, (size.width, size.depth), door.running_clearance, other)
    return max(0, ceil(reach - pin_aside(door) - size.width + ease))


def pin_aside(door: Doorway) -> Ticks:
    """How far the case's hinge side is beside the pin's middle [tick]."""
    pin = door.pin
    aside = -pin.inside if pin.inside is not None else pin.aside
    return door.hinge_gap if aside is None else aside


def shapes(view: CaseView, door: Doorway, size: tuple[Ticks, Ticks]) -> list[list[Point]]:
    """Corners of box and back of a case of that width and depth, about the pin [tick]."""
    x0, y0 = pin_aside(door), -(door.pin.proud - door.pin.behind)
    return [[(x0 + u, y0 - v) for u, v in shape] for shape in _shapes(view, door, *size)]


def reach_of(
    view: CaseView,
    door: Doorway,
    size: tuple[Ticks, Ticks],
    clearance: float,
    other: Size | None = None,
) -> float:
    """How far from the pin the latch jamb must be for a case of that width and depth [tick]."""
    y0 = -(door.pin.proud - door.pin.behind)
    top = y0 - (door.stands_out - door.set_back)
    deep = view.plan.outside.depth
    jamb = (top - (door.jamb_depth if door.jamb_depth is not None else deep), top)
    if other is not None:
        jamb = (y0 - other.depth, y0)
    turn = radians(door.opens_to)
    return max(reach_needed(one, jamb, clearance, turn) for one in shapes(view, door, size))


def _shapes(view: CaseView, door: Doorway, width: Ticks, deep: Ticks) -> list[list[Point]]:
    """Box and back, their corners in order, from the hinge side and from the leading face."""
    back, inset = view.back, (view.case.back_inset // 2 if view.back else 0)
    box, behind = (0, deep - back), (deep - back, deep)
    if door.swing == "in":
        box, behind = (back, deep), (0, back)
    sides = [(0, width, *box)] + ([(inset, width - inset, *behind)] if back else [])
    return [[(u0, v0), (u1, v0), (u1, v1), (u0, v1)] for u0, u1, v0, v1 in sides]


def reach_needed(outline: Sequence[Point], jamb: Band, clearance: float, turn: float) -> float:
    """How far from the pin the jamb's face must be [tick]; all about the pin, turn in [rad].

    `outline` is convex, its corners in order; `jamb` is from where to where it is deep. 0 where
    nothing gets past the pin on that side.
    """
    reaches = [0.0]
    for corner in outline:
        reaches += _passing(corner, jamb, clearance, turn)
    for angle in (0.0, turn):
        reaches += _standing([_turned(corner, angle) for corner in outline], jamb, clearance)
    return max(reaches)


def _passing(corner: Point, jamb: Band, clearance: float, turn: float) -> Iterator[float]:
    """Where a corner needs most on its way, if it gets there."""
    radius, start = hypot(*corner), atan2(corner[1], corner[0])
    level = min(max(0.0, jamb[0]), jamb[1])
    if abs(level) < radius + clearance and _within(asin(level / (radius + clearance)), start, turn):
        yield sqrt((radius + clearance) ** 2 - level**2)


def _standing(outline: Sequence[Point], jamb: Band, clearance: float) -> Iterator[float]:
    """How far an outline that stands still, grown by the clearance, reaches beside the jamb."""
    low, high = jamb[0] + TOUCH, jamb[1] - TOUCH
    for x, y in outline:
        off = max(low - y, y - high, 0.0)
        if off < clearance or off == 0:
            yield x + sqrt(clearance**2 - off**2)
    for (ax, ay), (bx, by) in pairwise([*outline, outline[0]]):
        long = hypot(bx - ax, by - ay)
        for side in (clearance / long, -clearance / long) if long else ():
            out = side * (by - ay), side * (ax - bx)
            edge = (ax + out[0], ay + out[1]), (bx + out[0], by + out[1])
            yield from _between(*edge, (low, high))


def _between(start: Point, end: Point, band: Band) -> Iterator[float]:
    """The x of the ends of that part of an edge whose y lies in a band [tick]."""
    (ax, ay), (bx, by) = start, end
    low, high = max(min(ay, by), band[0]), min(max(ay, by), band[1])
    if low > high:
        return
    if abs(by - ay) < TOUCH:
        yield max(ax, bx)
        return
    for level in (low, high):
        yield ax + (level - ay) / (by - ay) * (bx - ax)


def _turned(point: Point, angle: float) -> Point:
    radius, start = hypot(*point), atan2(point[1], point[0])
    return radius * cos(start + angle), radius * sin(start + angle)


def _within(angle: float, start: float, turn: float) -> bool:
    return (angle - start) % (2 * pi) <= turn
