"""Rules on the figures of a swing that a shop builds by: angle, sizes, room and clear way.

They follow from the circles of :mod:`solver.checking.swing`. The widest and the deepest case are
the last whose corners keep off the jamb. The tightest room is the running clearance with which
they would just keep off it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import ceil, cos, hypot, radians, sin

from solver.checking.findings import Code, Finding, finding
from solver.checking.swing import EASE, hung, pin_aside, reach_of, shapes
from solver.checking.views import CaseView, OptionView, same_length
from solver.job.doorway import Doorway
from solver.units import Ticks, with_unit

RIGHT = 90.0
"""What the first clear way is told at [degrees]."""
DEEPEST = 4
"""Cases deeper than so many openings are not looked for [-]."""


def ordered(view: OptionView) -> Iterator[Finding]:
    """How far it is to open, and the gap at the hinge, are those of the doorway."""
    for case, door, swing, _ in hung(view):
        if (door.opens_to, door.hinge_gap) != (swing.opens_to, swing.hinge_gap):
            needs, has = (
                f"{angle} degrees, {with_unit(gap, view.unit)}"
                for angle, gap in (
                    (door.opens_to, door.hinge_gap),
                    (swing.opens_to, swing.hinge_gap),
                )
            )
            yield finding(Code.SWING_ORDERED, case.where, "opening and hinge gap", needs, has)


def sizes(view: OptionView) -> Iterator[Finding]:
    """The radius is that of the farthest corner; widest and deepest are the last that pass."""
    for case, door, swing, other in hung(view):
        far = _farthest(case, door)
        if swing.radius not in (ceil(far - EASE), ceil(far + EASE)):
            needs, has = f"{far:.3f} ticks, rounded up", f"{swing.radius} ticks"
            yield finding(Code.SWING_SIZES, case.where, "radius", needs, has)
        if other is None:
            yield from _widest(case, door, swing.widest)
            yield from _deepest(case, door, swing.deepest)


def _widest(case: CaseView, door: Doorway, widest: Ticks | None) -> Iterator[Finding]:
    deep = case.plan.outside.depth
    most = door.clear_width - door.hinge_gap
    sizes = [] if widest is None else [(widest, deep), (widest + 1, deep)]
    yield from _last(case, door, "widest case", sizes, (1, deep), most)


def _deepest(case: CaseView, door: Doorway, deepest: Ticks | None) -> Iterator[Finding]:
    wide = case.plan.outside.width
    sizes = [] if deepest is None else [(wide, deepest), (wide, deepest + 1)]
    most = DEEPEST * door.clear_width
    yield from _last(case, door, "deepest case", sizes, (wide, case.back + 1), most)


def _last(
    case: CaseView,
    door: Doorway,
    what: str,
    sizes: list[tuple[Ticks, Ticks]],
    least: tuple[Ticks, Ticks],
    most: Ticks,
) -> Iterator[Finding]:
    """The first of two sizes passes the jamb and the second does not; none: nor does the least."""
    has = "none" if not sizes else " x ".join(with_unit(one, case.unit) for one in sizes[0])
    if not sizes:
        good = not _passes(case, door, least, EASE)
    else:
        at_most = max(a for a, b in zip(sizes[1], sizes[0], strict=True) if a != b) > most
        last = at_most or not _passes(case, door, sizes[1], EASE)
        good = last and _passes(case, door, sizes[0], -EASE)
    if not good:
        yield finding(Code.SWING_SIZES, case.where, what, "the last that passes the jamb", has)


def _passes(case: CaseView, door: Doorway, size: tuple[Ticks, Ticks], more: float) -> bool:
    """Whether a case of that width and depth keeps the clearance and `more` [tick]."""
    return reach_of(case, door, size, door.running_clearance + more) <= _jamb(door) - more


def _jamb(door: Doorway) -> Ticks:
    """How far from the pin the latch jamb is [tick]."""
    return door.clear_width - door.hinge_gap + pin_aside(door)


def room(view: OptionView) -> Iterator[Finding]:
    """The tightest room is the clearance with which the case would just pass; 0 where it binds."""
    for case, door, swing, other in hung(view):
        if other is not None or not swing.swings:
            continue
        size = (case.plan.outside.width, case.plan.outside.depth)
        jamb = _jamb(door)
        enough = reach_of(case, door, size, swing.tightest) <= jamb + EASE
        more = reach_of(case, door, size, swing.tightest + 1) <= jamb - EASE
        if not enough or more:
            needs, has = "the least on the way", with_unit(swing.tightest, case.unit)
            yield finding(Code.SWING_ROOM, case.where, "tightest room", needs, has)


def passage(view: OptionView) -> Iterator[Finding]:
    """The clear way is the opening less what the open case stands in; trim on it takes more."""
    for case, door, swing, _ in hung(view):
        trimmed = any(one.travels for one in swing.trim)
        for what, angle, has in (
            ("clear way at 90 degrees", min(RIGHT, swing.opens_fully), swing.passage_90),
            ("clear way fully open", swing.opens_fully, swing.passage_full),
        ):
            needs = _clear(case, door, radians(angle))
            slack = 1 + _arc(case, door) * (angle != RIGHT)
            if has > needs + slack or (not trimmed and has < needs - slack):
                yield from same_length(
                    Code.SWING_PASSAGE, case.where, what, round(needs), has, view.unit
                )


def _clear(case: CaseView, door: Doorway, turn: float) -> float:
    size = (case.plan.outside.width, case.plan.outside.depth)
    every = (corner for shape in shapes(case, door, size) for corner in shape)
    reach = max(x * cos(turn) - y * sin(turn) for x, y in every)
    blocked = max(0.0, reach + door.hinge_gap - pin_aside(door))
    return max(0.0, door.clear_width - blocked)


def _arc(case: CaseView, door: Doorway) -> float:
    """What a twentieth of a degree, to which angles are told, moves the farthest corner [tick]."""
    return radians(0.05) * _farthest(case, door)


def _farthest(case: CaseView, door: Doorway) -> float:
    """From the pin to the farthest corner [tick]."""
    size = (case.plan.outside.width, case.plan.outside.depth)
    return max(hypot(*corner) for shape in shapes(case, door, size) for corner in shape)


RULES: tuple[Callable[[OptionView], Iterator[Finding]], ...] = (ordered, sizes, room, passage)
"""All rules on the figures of swings."""
