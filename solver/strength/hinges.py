"""Hinges of a hung case: the pull on them, how many, what size, what rating, and where they go.

Formulas take any units that belong together; the tables of the trade are in inches. Hinges use old
mortises first, then the usual places, and are never fewer than the case needs.
"""

from __future__ import annotations

import itertools
from math import ceil, hypot

from solver.job.doorway import Doorway
from solver.plan.built import CasePlan
from solver.plan.hanging import HingePlace
from solver.strength.constants import MM_PER_INCH
from solver.units import TICKS_PER_INCH, Ticks, round_down, round_up

EN_1935_ARM, EN_1935_SPREAD = 500.0, 1540.0
"""Arm and hinge spacing of the door that hinges are rated on, EN 1935 as quoted by
techgoggler.com: 2000 x 1000 mm, hinges 1540 mm apart [mm]."""
LEAST_HINGES = 3
"""Hinges of a loaded case, at least: practice, jlconline.com A Door in Disguise [-]."""


def pull(weight: float, arm: float, spread: float) -> float:
    """Horizontal pull on the top hinge, and push on the bottom one, W a / s [force].

    Statics; OpenStax University Physics vol. 1, Example 12.6. Assumed: two hinges take all
    of it (those between them take none), plumb pins, the weight at rest.

    Parameters
    ----------
    weight
        W [force].
    arm
        Plan distance a of the centre of gravity from the line of the pins [length].
    spread
        Vertical distance s of top and bottom hinge, centre to centre [length].
    """
    return weight * arm / spread


def plan_arm(across: float, back: float) -> float:
    """Plan distance of a point from the pins, from its distances along and square to the case.

    sqrt(across2 + back2) [length]: a case is deep, so half its width is not the whole arm.
    """
    return hypot(across, back)


def pull_with(weight: float, arm: float, spread: float, edge: tuple[float, float]) -> float:
    """Pull with a load hung on the open latch edge as well, (W a + P r) / s [force].

    `edge` is the load P [force] and its distance r from the pins [length]. Both are taken
    to pull the same way, which is the worst.
    """
    load, reach = edge
    return (weight * arm + load * reach) / spread


def hinge_count(height: float) -> int:
    """Hinges of an ordinary door by its height [in]: 2 to 60, one more for each further 30 [-].

    NFPA 80 6.4, as quoted.
    """
    return 2 if height <= 60 else 2 + ceil((height - 60) / 30)


def case_hinge_count(height: float) -> int:
    """Hinges of a loaded case by its height [in]: by the rule for doors, and never under three."""
    return max(LEAST_HINGES, hinge_count(height))


LEAF_HEIGHTS = ((36.0, 4.5), (48.0, 5.0))
"""Leaf height by width of a door 1-3/4 in thick, both in [in]: butt-hinge table of the trade,
bigsurspiritgarden.com where-should-door-hinges-be-placed."""


def leaf_height(width: float) -> float | None:
    """Height of a butt hinge's leaf by the width of the leaf it carries [in]; None over 48 in.

    A starting point for the size alone: the table is for doors, so the load rating decides.
    """
    return next((leaf for most, leaf in LEAF_HEIGHTS if width <= most), None)


def rated_weight(weight: float, arm: float, spread: float, margin: float) -> float:
    """Weight that the hinges must be rated for [the unit of `weight`].

    margin x W x the larger of 1 and (a / s) / (500 / 1540): a rating is for a door of
    ordinary shape (EN 1935), and a case whose pull is worse than that needs more.
    """
    reference = EN_1935_ARM / EN_1935_SPREAD
    return margin * weight * max(1.0, arm / spread / reference)


def droop(play: float, width: float, spread: float) -> float:
    """How far the latch edge hangs when the top hinge gives by `play`: e w / s [length].

    Similar triangles: the case turns about the bottom hinge.
    """
    return play * width / spread


TOP_HINGE_GIVE = MM_PER_INCH / 32
"""Give of the top hinge that foot clearance allows for, 1/32 in: common practice [mm]."""


FROM_TOP, FROM_BOTTOM = 7 * TICKS_PER_INCH, 11 * TICKS_PER_INCH
"""Top of the top hinge from the top, bottom of the bottom one from the bottom: woodweb.com
Hinge Placement Rules and Traditions; 5 and 10 in are also taught [tick]."""
SHELF_CLEARANCE = TICKS_PER_INCH
"""Least distance of a hinge screw from a shelf line: common practice [tick]."""

MOVED_MOST = 3 * TICKS_PER_INCH
"""Farthest that a new hinge moves from its usual place to be clear of a shelf: common practice, no
source [tick]."""


def leaf_of(doorway: Doorway | None, width: Ticks, high: Ticks) -> Ticks:
    """Height of the hinge leaf: that of the old mortises, else by the table for doors [tick].

    Never over a third of the case's height, so that three have room.
    """
    leaf = round((leaf_height(width / TICKS_PER_INCH) or 5.0) * TICKS_PER_INCH)
    if doorway is not None and doorway.mortise_height is not None:
        leaf = doorway.mortise_height
    return min(leaf, high // LEAST_HINGES)


def hinge_places(
    doorway: Doorway | None, planned: CasePlan, step: Ticks = 1
) -> tuple[HingePlace, ...]:
    """Return the hinges of a hung case from the top down, new ones on whole marking steps [tick].

    The rules are round figures in inches, so a new mortise needs no truer place than a mark.
    """
    size, gap = planned.outside, doorway.head_gap if doorway else 0
    leaf = leaf_of(doorway, size.width, size.height)
    old = _old_mortises(doorway, size.height, leaf)
    tops = hinge_tops(doorway, size.width, size.height)
    for at, top in enumerate(tops):
        if top not in old:
            low = tops[at - 1] + leaf if at else 0
            high = (tops[at + 1] if at + 1 < len(tops) else size.height) - leaf
            tops[at] = _clear_of_shelves(
                planned, _on_marking_step(top, (low, high), step), leaf, (low, high), step
            )
    return tuple(
        HingePlace(
            from_top=top,
            from_head=top + gap,
            old=top in old,
            near_shelf=_near_shelf(planned, top, leaf),
        )
        for top in tops
    )


def _on_marking_step(top: Ticks, within: tuple[Ticks, Ticks], step: Ticks) -> Ticks:
    """Round to the nearest marking step where that is clear of the hinges beside it [tick]."""
    marked = round_down(top + step // 2, step)
    return marked if within[0] <= marked <= within[1] else top


def _clear_of_shelves(
    planned: CasePlan, top: Ticks, leaf: Ticks, within: tuple[Ticks, Ticks], step: Ticks
) -> Ticks:
    """Return the place nearest to `top` that is clear of shelves, if one is near enough [tick]."""
    if not _near_shelf(planned, top, leaf):
        return top
    high = planned.outside.height
    shelves = [shelf for bay in planned.bays for shelf in bay.shelves]
    places = [round_up(high - (shelf.underside - SHELF_CLEARANCE), step) for shelf in shelves]
    places += [round_down(high - (shelf.top + SHELF_CLEARANCE) - leaf, step) for shelf in shelves]
    clear = [
        place
        for place in places
        if abs(place - top) <= MOVED_MOST
        and within[0] <= place <= within[1]
        and not _near_shelf(planned, place, leaf)
    ]
    return min(clear, key=lambda place: (abs(place - top), place), default=top)


def _old_mortises(doorway: Doorway | None, high: Ticks, leaf: Ticks) -> list[Ticks]:
    """Return the old mortises that lie on the case, measured from its top [tick].

    The survey measures them from the head, which is the head gap higher. A mark that begins within
    the leaf above it is not counted as a mortise of its own.
    """
    marks: list[Ticks] = []
    gap = doorway.head_gap if doorway else 0
    for mark in sorted(mortise - gap for mortise in (doorway.old_mortises if doorway else ())):
        if 0 <= mark <= high - leaf and (not marks or mark >= marks[-1] + leaf):
            marks.append(mark)
    return marks


def hinge_tops(doorway: Doorway | None, width: Ticks, high: Ticks) -> list[Ticks]:
    """Return the top of each hinge's leaf, measured down from the top of the case [tick].

    Old mortises that lie on the case are all used. Where the case needs more hinges, each goes
    where there is most room: near an end, or midway between two. A case so low that the old
    mortises leave no room for that has its hinges spaced evenly instead.
    """
    leaf, count = leaf_of(doorway, width, high), case_hinge_count(high / TICKS_PER_INCH)
    spare = (high - LEAST_HINGES * leaf) // 4  # a low case has less than the usual margins
    ends = min(FROM_TOP, spare), high - leaf - min(FROM_BOTTOM, spare)
    tops = _old_mortises(doorway, high, leaf) or list(ends)
    while len(tops) < count:
        room, at = max(_free_places(tops, ends), key=lambda place: (place[0], -place[1]))
        if room < leaf:
            step = (ends[1] - ends[0]) // (count - 1)
            return [ends[0] + step * number for number in range(count)]
        tops = sorted([*tops, at])
    return tops


def _free_places(tops: list[Ticks], ends: tuple[Ticks, Ticks]) -> list[tuple[Ticks, Ticks]]:
    """Return (distance to the next hinge, place) near each end and between any two [tick]."""
    between = [((low - top) // 2, (top + low) // 2) for top, low in itertools.pairwise(tops)]
    return [(tops[0] - ends[0], ends[0]), (ends[1] - tops[-1], ends[1]), *between]


def least_spread(doorway: Doorway | None, width: Ticks, high: Ticks) -> Ticks:
    """Return the least distance of top and bottom hinge, wherever the shelves are [tick]."""
    tops = hinge_tops(doorway, width, high)
    old = _old_mortises(doorway, high, leaf_of(doorway, width, high))
    moved = sum(MOVED_MOST for top in (tops[0], tops[-1]) if top not in old)
    apart = tops[-1] - tops[0]
    return max(apart - moved, apart // 2)


def spread(places: tuple[HingePlace, ...]) -> Ticks:
    """Vertical distance of the top and the bottom hinge, centre to centre [tick]."""
    return places[-1].from_top - places[0].from_top


def _near_shelf(planned: CasePlan, top: Ticks, leaf: Ticks) -> bool:
    """Whether a leaf comes nearer to a shelf than its screws may."""
    high = planned.outside.height - top
    low = high - leaf
    return any(
        shelf.underside - SHELF_CLEARANCE < high and shelf.top + SHELF_CLEARANCE > low
        for bay in planned.bays
        for shelf in bay.shelves
    )
