"""What would let a case swing that does not: each change by itself, with its numbers.

Every change is confirmed by the whole test (jambs, trim and all that stands in the swing), not
only by the formula that proposed it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from solver.carcass.trim_face import doorway_trim
from solver.doorway import swing_clearance
from solver.doorway.swing_of_job import doorway_of, swing_of
from solver.doorway.swing_scene import Relief, Swing
from solver.doorway.swing_trim import with_trim
from solver.job.case import Case
from solver.job.job import Job
from solver.plan.swinging import WayOut
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, with_unit

OVERLAP: dict[Unit, Ticks] = {"in": TICKS_PER_INCH // 2, "mm": 12 * TICKS_PER_MM}
"""How far trim over a gap reaches past it. Common practice, no source [tick]."""
PIN_REACH: dict[Unit, Ticks] = {"in": 4 * TICKS_PER_INCH, "mm": 100 * TICKS_PER_MM}
"""Farthest that a pin stands from the case's side on wide-throw hinges. Common practice, no
source [tick]."""


def ways_out(job: Job, case: Case, swing: Swing, opens_to: int) -> tuple[WayOut, ...]:
    """Return each change that may do, and whether the case then swings in full."""
    ways = [
        _less_depth(job.unit, swing, opens_to),
        _narrower(job.unit, swing, opens_to),
        *_reliefs(job.unit, swing, opens_to),
        _pin(job.unit, swing, opens_to),
        _proud(job.unit, swing, opens_to),
        _other_way(job, case, swing, opens_to),
        _wider(job.unit, swing, opens_to),
    ]
    return tuple(way for way in ways if way is not None)


def _less_depth(unit: Unit, swing: Swing, opens_to: int) -> WayOut | None:
    deepest = swing_clearance.deepest(swing, opens_to)
    if deepest is None or deepest >= swing.depth:
        return None
    by = swing.depth - deepest
    return WayOut(
        what="less depth",
        swings=swing_clearance.swings(swing.but(depth=deepest), opens_to),
        by=by,
        to=deepest,
        text=f"{with_unit(by, unit)} less depth, {with_unit(deepest, unit)} over all",
    )


def _narrower(unit: Unit, swing: Swing, opens_to: int) -> WayOut | None:
    widest = swing_clearance.widest(swing, opens_to)
    if widest is None or widest >= swing.width:
        return None
    by, gap = swing.width - widest, swing.opening - swing.hinge_gap - widest
    cover = with_unit(gap + OVERLAP[unit], unit)
    return WayOut(
        what="narrower",
        swings=swing_clearance.swings(swing.but(width=widest), opens_to),
        by=by,
        to=widest,
        text=(
            f"{with_unit(by, unit)} narrower, {with_unit(widest, unit)} wide, with latch trim "
            f"of {cover} or more that travels with it over the gap of {with_unit(gap, unit)}"
        ),
    )


def _reliefs(unit: Unit, swing: Swing, opens_to: int) -> Iterator[WayOut]:
    """The corner diagonal from the pin bevelled over the whole depth, at 45 degrees, or stepped."""
    most = min(swing.width, swing.depth) - 1
    bevel = _least_relief(swing, opens_to, lambda a: Relief(a, swing.depth, stepped=False), most)
    if bevel:
        yield _relief(unit, swing, opens_to, bevel, "the latch side bevelled to its trailing edge")
    clip = _least_relief(swing, opens_to, lambda a: Relief(a, a, stepped=False), most)
    if clip:
        yield _relief(unit, swing, opens_to, clip, "the trailing latch corner clipped")
    step = _step(swing, opens_to, most)
    if step:
        yield _relief(unit, swing, opens_to, step, "the trailing latch corner stepped in")


def _step(swing: Swing, opens_to: int, most: Ticks) -> Relief | None:
    """Return the least step that passes, behind a front that is shallow enough at full width."""
    deepest = swing_clearance.deepest(swing.but(back=0), opens_to)
    if deepest is None or deepest >= swing.depth:
        return None
    deep = swing.depth - deepest
    return _least_relief(swing, opens_to, lambda a: Relief(a, deep, stepped=True), most)


def _least_relief(
    swing: Swing, opens_to: int, make: Callable[[Ticks], Relief], most: Ticks
) -> Relief | None:
    """The least relief of its kind that clears the latch jamb."""
    least = _least_that_passes(swing, opens_to, lambda a: swing.but(relief=make(a)), (1, most))
    return None if least is None else make(least)


def _least_that_passes(
    swing: Swing, opens_to: int, changed: Callable[[Ticks], Swing], between: tuple[Ticks, Ticks]
) -> Ticks | None:
    """The least change that lets a swing pass the latch jamb; None if needless or none does."""

    def good(by: Ticks) -> bool:
        return swing_clearance.passes_latch(changed(by), opens_to)

    if swing_clearance.passes_latch(swing, opens_to) or not good(between[1]):
        return None
    return swing_clearance.least_that(good, *between)


def _relief(unit: Unit, swing: Swing, opens_to: int, relief: Relief, how: str) -> WayOut:
    return WayOut(
        what="step" if relief.stepped else "bevel",
        swings=swing_clearance.swings(swing.but(relief=relief), opens_to),
        by=relief.across,
        to=swing.width - relief.across,
        text=(
            f"{how}: {with_unit(relief.across, unit)} off the width over "
            f"{with_unit(relief.deep, unit)} of depth"
        ),
    )


def _pin(unit: Unit, swing: Swing, opens_to: int) -> WayOut | None:
    """The pin moved out over the wall beside the hinge jamb, no farther than hinges reach.

    A pivot set in from the hinge side is no way out: the two corners that then sweep are
    together never nearer to the pin than the diagonal is long (the triangle's inequality), so
    both gaps together are never less than the one gap of a case hung at its corner.
    """
    reach = swing.aside, PIN_REACH[unit]
    aside = _least_that_passes(swing, opens_to, lambda a: swing.but(aside=a), reach)
    if aside is None or swing.aside < 0:
        return None
    return WayOut(
        what="pin",
        swings=swing_clearance.swings(swing.but(aside=aside), opens_to),
        by=aside - swing.aside,
        to=aside,
        text=(
            f"the pin {with_unit(aside - swing.aside, unit)} farther out over the wall, "
            f"{with_unit(aside, unit)} from the case's side"
        ),
    )


def _proud(unit: Unit, swing: Swing, opens_to: int) -> WayOut | None:
    """The case stood out of the wall with its pin: less of it has to pass the jamb."""
    reach = swing.stands_out, swing.stands_out + swing.depth
    out = _least_that_passes(swing, opens_to, lambda o: swing.but(stands_out=o), reach)
    if out is None:
        return None
    return WayOut(
        what="proud",
        swings=swing_clearance.swings(swing.but(stands_out=out), opens_to),
        by=out - swing.stands_out,
        to=out,
        text=(
            f"the case and its pin stood {with_unit(out - swing.stands_out, unit)} farther out "
            f"of the wall"
        ),
    )


def _other_way(job: Job, case: Case, swing: Swing, opens_to: int) -> WayOut:
    way = "out" if swing.back_leads else "in"
    untrimmed = swing_of(job, case, swing.depth, beside=swing.neighbour, way=way).but(things=())
    door = doorway_of(job, case)
    other, _ = with_trim(untrimmed, door, doorway_trim(job, case, door), opens_to)
    good = swing_clearance.swings(other, opens_to)
    need = with_unit(swing_clearance.gap_needed(other, opens_to), job.unit)
    return WayOut(
        what="other way",
        swings=good,
        text=(
            f"swung {way} instead: {'it clears' if good else 'it does not clear either'}, the "
            f"latch gap needed is {need}; what stands on that side is not known here"
        ),
    )


def _wider(unit: Unit, swing: Swing, opens_to: int) -> WayOut | None:
    needed = swing.hinge_gap + swing.width + swing_clearance.gap_needed(swing, opens_to)
    if needed <= swing.opening:
        return None
    by = needed - swing.opening
    return WayOut(
        what="wider opening",
        swings=swing_clearance.swings(swing.but(opening=needed), opens_to),
        by=by,
        to=needed,
        text=f"an opening {with_unit(by, unit)} wider, {with_unit(needed, unit)}",
    )
