"""What would let a case swing that does not: each way by itself, with its numbers.

Every way is confirmed by the whole test (jambs, trim and all that stands in the swing), not
only by the formula that proposed it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import hypot

from solver.case import Case
from solver.job import Job
from solver.swing import limits
from solver.swing.of_job import doorway_of, swing_of
from solver.swing.scene import Relief, Swing
from solver.swing.trim import with_trim
from solver.swinging import WayOut
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, with_unit

OVERLAP: dict[Unit, Ticks] = {"in": TICKS_PER_INCH // 2, "mm": 12 * TICKS_PER_MM}
"""How far trim over a gap reaches past it. Common practice, no source."""


def ways_out(job: Job, case: Case, swing: Swing, opens_to: int) -> tuple[WayOut, ...]:
    """Return every way in which the case would swing, or what else would still stop it."""
    found = [
        _less_depth(job.unit, swing, opens_to),
        _narrower(job.unit, swing, opens_to),
        *_reliefs(job.unit, swing, opens_to),
        _pin(job.unit, swing, opens_to),
        _other_way(job, case, swing, opens_to),
        _wider(job.unit, swing, opens_to),
    ]
    return tuple(way for way in found if way is not None)


def _less_depth(unit: Unit, swing: Swing, opens_to: int) -> WayOut | None:
    deepest = limits.deepest(swing, opens_to)
    if deepest is None or deepest >= swing.depth:
        return None
    by = swing.depth - deepest
    return WayOut(
        what="less depth",
        swings=limits.swings(swing.but(depth=deepest), opens_to),
        by=by,
        to=deepest,
        text=f"{with_unit(by, unit)} less depth, {with_unit(deepest, unit)} over all",
    )


def _narrower(unit: Unit, swing: Swing, opens_to: int) -> WayOut | None:
    widest = limits.widest(swing, opens_to)
    if widest is None or widest >= swing.width:
        return None
    by, gap = swing.width - widest, swing.opening - swing.hinge_gap - widest
    cover = with_unit(gap + OVERLAP[unit], unit)
    return WayOut(
        what="narrower",
        swings=limits.swings(swing.but(width=widest), opens_to),
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
    """A step behind what is shallow enough to pass at full width; the least that does."""
    deepest = limits.deepest(swing.but(back=0), opens_to)
    if deepest is None or deepest >= swing.depth:
        return None
    deep = swing.depth - deepest
    return _least_relief(swing, opens_to, lambda a: Relief(a, deep, stepped=True), most)


def _least_relief(
    swing: Swing, opens_to: int, make: Callable[[Ticks], Relief], most: Ticks
) -> Relief | None:
    """The least relief of its kind that clears the latch jamb."""

    def good(across: Ticks) -> bool:
        return limits.passes_latch(swing.but(relief=make(across)), opens_to)

    if limits.passes_latch(swing, opens_to) or not good(most):
        return None
    return make(limits.least_that(good, 1, most))


def _relief(unit: Unit, swing: Swing, opens_to: int, relief: Relief, how: str) -> WayOut:
    return WayOut(
        what="step" if relief.stepped else "bevel",
        swings=limits.swings(swing.but(relief=relief), opens_to),
        by=relief.across,
        to=swing.width - relief.across,
        text=(
            f"{how}: {with_unit(relief.across, unit)} off the width over "
            f"{with_unit(relief.deep, unit)} of depth"
        ),
    )


def _pin(unit: Unit, swing: Swing, opens_to: int) -> WayOut | None:
    """The least move of the pin, in and back, that lets it swing: a pivot at head and floor."""
    step = TICKS_PER_INCH // 2 if unit == "in" else 10 * TICKS_PER_MM
    places = sorted(
        ((u, v) for u in range(0, swing.width // 2, step) for v in range(0, swing.depth, step)),
        key=lambda at: (at[0] + at[1], at),
    )
    for inside, behind in places:
        if _both_gaps(swing, inside, behind) > swing.opening - swing.width:
            continue
        moved = swing.but(aside=-inside, proud=-behind)
        if not limits.passes_latch(moved, opens_to):
            continue
        needed = limits.hinge_gap_needed(moved, opens_to)
        moved = moved.but(hinge_gap=max(needed, swing.hinge_gap))
        if moved.latch_gap > 0 and limits.swings(moved, opens_to):
            return WayOut(
                what="pin",
                swings=True,
                by=inside,
                to=behind,
                text=(
                    f"a pivot {with_unit(inside, unit)} in from the hinge side and "
                    f"{with_unit(behind, unit)} behind the face, with a hinge gap of "
                    f"{with_unit(moved.hinge_gap, unit)} and a latch gap of "
                    f"{with_unit(moved.latch_gap, unit)}"
                ),
            )
    return None


def _both_gaps(swing: Swing, inside: Ticks, behind: Ticks) -> float:
    """Gaps that a square-edged case needs on both sides of a pin set in, by its two corners [tick].

    The trailing latch corner and the leading hinge corner each pass level with the pin.
    """
    latch = hypot(swing.width - inside, swing.depth - behind) - (swing.width - inside)
    return latch + hypot(inside, behind) - inside + 2 * swing.clearance


def _other_way(job: Job, case: Case, swing: Swing, opens_to: int) -> WayOut:
    way = "out" if swing.back_leads else "in"
    bare = swing_of(job, case, swing.depth, way=way).but(things=())
    other, _ = with_trim(bare, doorway_of(job, case), opens_to)
    good = limits.swings(other, opens_to)
    need = with_unit(limits.gap_needed(other, opens_to), job.unit)
    return WayOut(
        what="other way",
        swings=good,
        text=(
            f"swung {way} instead: {'it clears' if good else 'it does not clear either'}, the "
            f"latch gap needed is {need}; what stands on that side is not known here"
        ),
    )


def _wider(unit: Unit, swing: Swing, opens_to: int) -> WayOut | None:
    needed = swing.hinge_gap + swing.width + limits.gap_needed(swing, opens_to)
    if needed <= swing.opening:
        return None
    by = needed - swing.opening
    return WayOut(
        what="wider opening",
        swings=limits.swings(swing.but(opening=needed), opens_to),
        by=by,
        to=needed,
        text=f"an opening {with_unit(by, unit)} wider, {with_unit(needed, unit)}",
    )
