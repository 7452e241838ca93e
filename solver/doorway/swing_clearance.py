"""What a swing needs and allows, to the tick: gaps, widest, deepest, how far it opens.

All tests are monotone: more gap, less width and less depth never harm. Each limit is found by
bisection, as the last whole tick at which the exact test holds, so it is rounded to the safe side.
"""

from __future__ import annotations

from collections.abc import Callable
from math import degrees, pi, radians

from solver.doorway.sweep import Bind, first_bind, nearest
from solver.doorway.swing_scene import (
    Swing,
    carried,
    case_outlines,
    hinge_jamb,
    latch_jamb,
    surroundings,
    turned,
)
from solver.units import Ticks

TOLERANCE = 1e-6
"""Rounding error of the floats that is tolerated [tick]."""


def passes_latch(swing: Swing, opens_to: int) -> bool:
    """Whether the case keeps its running clearance to the latch jamb all the way [degrees]."""
    near = nearest(case_outlines(swing), (latch_jamb(swing),), radians(opens_to))
    return near.distance >= swing.clearance - TOLERANCE and not _runs_into(
        swing, opens_to, latch=True
    )


def passes_hinge(swing: Swing, opens_to: int) -> bool:
    """Whether the case turns without running into the hinge jamb up to `opens_to` [degrees].

    With the pin set in, the hinge side sweeps too, and keeps the running clearance.
    """
    if swing.aside < 0:
        near = nearest(case_outlines(swing), (hinge_jamb(swing),), radians(opens_to))
        if near.distance < swing.clearance - TOLERANCE:
            return False
    return not _runs_into(swing, opens_to, latch=False)


def _runs_into(swing: Swing, opens_to: int, *, latch: bool) -> bool:
    jamb = latch_jamb(swing) if latch else hinge_jamb(swing)
    return first_bind(case_outlines(swing), (jamb,), radians(opens_to)) is not None


def binding(swing: Swing, opens_to: int) -> Bind | None:
    """The first thing that anything of the case runs into up to `opens_to` [degrees]."""
    still = (hinge_jamb(swing), latch_jamb(swing), *surroundings(swing))
    return first_bind((*case_outlines(swing), *carried(swing)), still, radians(opens_to))


def swings(swing: Swing, opens_to: int) -> bool:
    """Whether it opens as far as asked [degrees], with running clearance at the latch."""
    return (
        passes_latch(swing, opens_to)
        and passes_hinge(swing, opens_to)
        and binding(swing, opens_to) is None
    )


def gap_needed(swing: Swing, opens_to: int) -> Ticks:
    """Least gap at the latch at rest, running clearance included [tick]."""

    def good(gap: Ticks) -> bool:
        opening = swing.hinge_gap + swing.width + gap
        return passes_latch(swing.but(opening=opening), opens_to)

    return least_that(good, 0, _gap_bound(swing))


def hinge_gap_needed(swing: Swing, opens_to: int) -> Ticks:
    """Least gap at the hinge at which the case turns clear of that jamb [tick]."""

    def good(gap: Ticks) -> bool:
        return passes_hinge(swing.but(hinge_gap=gap), opens_to)

    return least_that(good, 0, _gap_bound(swing))


def _gap_bound(swing: Swing) -> Ticks:
    """Return a gap that is enough on either side: no corner reaches farther from the pin [tick].

    The pin may be anywhere along the width or out over the wall, in front or behind.
    """
    reach = abs(swing.aside) + swing.width + abs(swing.proud) + swing.depth
    return reach + abs(swing.aside) + swing.clearance


def widest(swing: Swing, opens_to: int) -> Ticks | None:
    """The widest case for the opening at this depth [tick]; None where none would do."""
    most = swing.opening - swing.hinge_gap
    return most_that(lambda width: passes_latch(swing.but(width=width), opens_to), 1, most)


def deepest(swing: Swing, opens_to: int) -> Ticks | None:
    """The deepest case at this width [tick]; None where none would do."""
    least = swing.back + 1
    return most_that(
        lambda depth: passes_latch(swing.but(depth=depth), opens_to), least, 4 * swing.opening
    )


def least_that(good: Callable[[Ticks], bool], low: Ticks, high: Ticks) -> Ticks:
    """Return the least tick from which on `good` holds, by bisection; it does at `high`."""
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if good(middle) else (middle + 1, high)
    return low


def most_that(good: Callable[[Ticks], bool], low: Ticks, high: Ticks) -> Ticks | None:
    """Return the most whole tick of a range up to which `good` holds; None where it never does."""
    if low > high or not good(low):
        return None
    return least_that(lambda size: not good(size), low + 1, high + 1) - 1


def full_opening(swing: Swing) -> tuple[float, Bind | None]:
    """Return how far it opens, at most half a turn [degrees], and what stops it there."""
    stopped = binding(swing, 180)
    return (180.0, None) if stopped is None else (degrees(stopped.angle), stopped)


def tightest(swing: Swing, opens_to: int) -> tuple[Ticks, float]:
    """Least room at the latch jamb on the way, rounded down [tick], and at which angle [degrees].

    0 where it binds.
    """
    bound = first_bind(case_outlines(swing), (latch_jamb(swing),), radians(opens_to))
    if bound is not None:
        return 0, degrees(bound.angle)
    near = nearest(case_outlines(swing), (latch_jamb(swing),), radians(opens_to))
    return int(near.distance + TOLERANCE), degrees(near.angle)


def passage(swing: Swing, angle: float) -> Ticks:
    """Clear way beside the open case, measured along the wall, rounded down [tick].

    From the latch jamb back to the farthest that anything of the case reaches; the case may
    stand in front of the opening as well as in it. `angle` in [degrees].
    """
    turn = angle * pi / 180
    reach = max(
        turned(corner, turn)[0]
        for shape in (*case_outlines(swing), *carried(swing))
        for corner in shape.corners
    )
    blocked = max(0.0, reach + swing.pin[0])
    return max(0, int(swing.opening - blocked + TOLERANCE))
