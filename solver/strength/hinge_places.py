"""Where the hinges go: old mortises first, then the usual places, never fewer than are needed."""

from __future__ import annotations

import itertools

from solver.job.doorway import Doorway
from solver.plan.built import CasePlan
from solver.plan.hanging import HingePlace
from solver.strength.hinges import LEAST_HINGES, case_hinge_count, leaf_height
from solver.units import TICKS_PER_INCH, Ticks, round_down, round_up

FROM_TOP, FROM_BOTTOM = 7 * TICKS_PER_INCH, 11 * TICKS_PER_INCH
"""Top of the top hinge from the top, bottom of the bottom one from the bottom: woodweb.com
Hinge Placement Rules and Traditions; 5 and 10 in are also taught [tick]."""
SHELF_CLEAR = TICKS_PER_INCH
"""Least distance of a hinge screw from a shelf line: common practice [tick]."""

MOVED_MOST = 3 * TICKS_PER_INCH
"""How far a new hinge may move from its usual place to be clear of a shelf: common practice, no
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

    The rules are round figures in inches; no new mortise need be truer than a mark.
    """
    size, gap = planned.outside, doorway.head_gap if doorway else 0
    leaf = leaf_of(doorway, size.width, size.height)
    old = _old(doorway, size.height, leaf)
    tops = hinge_tops(doorway, size.width, size.height)
    for at, top in enumerate(tops):
        if top not in old:
            low = tops[at - 1] + leaf if at else 0
            high = (tops[at + 1] if at + 1 < len(tops) else size.height) - leaf
            tops[at] = _clear(planned, _marked(top, (low, high), step), leaf, (low, high), step)
    return tuple(
        HingePlace(
            from_top=top, from_head=top + gap, old=top in old, near_shelf=_near(planned, top, leaf)
        )
        for top in tops
    )


def _marked(top: Ticks, within: tuple[Ticks, Ticks], step: Ticks) -> Ticks:
    """To the nearest marking step, where that is clear of the hinges beside it [tick]."""
    marked = round_down(top + step // 2, step)
    return marked if within[0] <= marked <= within[1] else top


def _clear(
    planned: CasePlan, top: Ticks, leaf: Ticks, within: tuple[Ticks, Ticks], step: Ticks
) -> Ticks:
    """Return the place nearest to `top` that is clear of shelves, if one is near enough [tick]."""
    if not _near(planned, top, leaf):
        return top
    high = planned.outside.height
    shelves = [shelf for bay in planned.bays for shelf in bay.shelves]
    places = [round_up(high - (shelf.underside - SHELF_CLEAR), step) for shelf in shelves]
    places += [round_down(high - (shelf.top + SHELF_CLEAR) - leaf, step) for shelf in shelves]
    found = [
        place
        for place in places
        if abs(place - top) <= MOVED_MOST
        and within[0] <= place <= within[1]
        and not _near(planned, place, leaf)
    ]
    return min(found, key=lambda place: (abs(place - top), place), default=top)


def _old(doorway: Doorway | None, high: Ticks, leaf: Ticks) -> list[Ticks]:
    """Old mortises that lie on the case: the head gap higher there than below the head [tick].

    One that begins within the leaf above it is none of its own.
    """
    found: list[Ticks] = []
    gap = doorway.head_gap if doorway else 0
    for mark in sorted(one - gap for one in (doorway.old_mortises if doorway else ())):
        if 0 <= mark <= high - leaf and (not found or mark >= found[-1] + leaf):
            found.append(mark)
    return found


def hinge_tops(doorway: Doorway | None, width: Ticks, high: Ticks) -> list[Ticks]:
    """Return the top of each hinge's leaf, down from the top of the case, the first first [tick].

    Old mortises that lie on the case are all used; where they are fewer than the case needs,
    more go where there is most room: near an end, or midway. Only on a case so low that they
    leave no room for that are they not used.
    """
    leaf, count = leaf_of(doorway, width, high), case_hinge_count(high / TICKS_PER_INCH)
    spare = (high - LEAST_HINGES * leaf) // 4  # a low case has less than the usual margins
    ends = min(FROM_TOP, spare), high - leaf - min(FROM_BOTTOM, spare)
    tops = _old(doorway, high, leaf) or list(ends)
    while len(tops) < count:
        room, at = max(_rooms(tops, ends), key=lambda one: (one[0], -one[1]))
        if room < leaf:
            step = (ends[1] - ends[0]) // (count - 1)
            return [ends[0] + step * number for number in range(count)]
        tops = sorted([*tops, at])
    return tops


def _rooms(tops: list[Ticks], ends: tuple[Ticks, Ticks]) -> list[tuple[Ticks, Ticks]]:
    """(how far from the next hinge, where) of a hinge near each end and between any two [tick]."""
    between = [((low - top) // 2, (top + low) // 2) for top, low in itertools.pairwise(tops)]
    return [(tops[0] - ends[0], ends[0]), (ends[1] - tops[-1], ends[1]), *between]


def least_spread(doorway: Doorway | None, width: Ticks, high: Ticks) -> Ticks:
    """How near top and bottom hinge may come, wherever the shelves are [tick]."""
    tops = hinge_tops(doorway, width, high)
    old = _old(doorway, high, leaf_of(doorway, width, high))
    moved = sum(MOVED_MOST for top in (tops[0], tops[-1]) if top not in old)
    apart = tops[-1] - tops[0]
    return max(apart - moved, apart // 2)


def spread(places: tuple[HingePlace, ...]) -> Ticks:
    """Vertical distance of the top and the bottom hinge, centre to centre [tick]."""
    return places[-1].from_top - places[0].from_top


def _near(planned: CasePlan, top: Ticks, leaf: Ticks) -> bool:
    high = planned.outside.height - top
    low = high - leaf
    return any(
        shelf.underside - SHELF_CLEAR < high and shelf.top + SHELF_CLEAR > low
        for bay in planned.bays
        for shelf in bay.shelves
    )
