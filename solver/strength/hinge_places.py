"""Where the hinges go: old mortises first, then the usual places, never fewer than are needed."""

from __future__ import annotations

import itertools

from solver.built import CasePlan
from solver.doorway import Doorway
from solver.hanging import HingePlace
from solver.strength.hinges import case_hinge_count, leaf_height
from solver.units import TICKS_PER_INCH, Ticks

FROM_TOP, FROM_BOTTOM = 7 * TICKS_PER_INCH, 11 * TICKS_PER_INCH
"""Top of the top hinge from the top, bottom of the bottom one from the bottom: woodweb.com
Hinge Placement Rules and Traditions; 5 and 10 in are also taught [tick]."""
SHELF_CLEAR = TICKS_PER_INCH
"""Least distance of a hinge screw from a shelf line: common practice [tick]."""


def leaf_of(doorway: Doorway | None, width: Ticks) -> Ticks:
    """Height of the hinge leaf: that of the old mortises, else by the table for doors [tick]."""
    if doorway is not None and doorway.mortise_height is not None:
        return doorway.mortise_height
    return round((leaf_height(width / TICKS_PER_INCH) or 5.0) * TICKS_PER_INCH)


def hinge_places(doorway: Doorway | None, planned: CasePlan) -> tuple[HingePlace, ...]:
    """Return the hinges of a hung case from the top down.

    On the case a hinge is the head gap higher than its mortise is below the head. Old
    mortises that lie on the case are all used; where they are fewer than the case needs,
    more go into the widest spaces between them.
    """
    high, leaf = planned.outside.height, leaf_of(doorway, planned.outside.width)
    gap = doorway.head_gap if doorway else 0
    marks = sorted(one - gap for one in (doorway.old_mortises if doorway else ()))
    old = [mark for mark in marks if 0 <= mark <= high - leaf]
    tops = list(old) or [FROM_TOP, high - FROM_BOTTOM - leaf]
    if len(tops) < 2:
        tops.append(FROM_TOP if tops[0] > high // 2 else high - FROM_BOTTOM - leaf)
        tops.sort()
    while len(tops) < case_hinge_count(high / TICKS_PER_INCH):
        spaces = [below - above for above, below in itertools.pairwise(tops)]
        at = spaces.index(max(spaces))
        tops.insert(at + 1, (tops[at] + tops[at + 1]) // 2)
    return tuple(
        HingePlace(
            from_top=top, from_head=top + gap, old=top in old, near_shelf=_near(planned, top, leaf)
        )
        for top in tops
    )


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
