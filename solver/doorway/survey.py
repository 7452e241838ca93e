"""A doorway as measured: what is out, by how much, what to do about it, and what is not measured.

Every threshold names its source; those without one say so.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from solver.doorway.old_door import DUTIES, Provided, old_door
from solver.doorway.survey_lean import leans
from solver.job.doorway import Doorway
from solver.quantities import Model
from solver.units import TICKS_PER_INCH, Ticks, Unit, with_unit

USUAL = TICKS_PER_INCH // 8
"""Jambs are usually within 1/8 in (3 mm): a published job had a jamb 1/8 in out of plumb and moved
its bottom pivot to suit (jlconline.com a-door-in-disguise_2) [tick]."""
TOLERATED = TICKS_PER_INCH // 4
"""A builder allowed 1/4 in of width: his frame was 3 to 4 mm out (sethrylan.org) [tick]."""
USUAL_SOURCE = "within 1/8 in (3 mm) is usual: jlconline.com a-door-in-disguise_2"
TEMPLATE = (
    "make a thin template of the opening and carry it to the shop",
    "a template where it is seriously out of square: oldhouseonline.com hanging-a-salvaged-door; "
    "1/4 in as the limit: common practice, no source",
)


NOTHING_PROVIDED = Provided()
"""For a hung case, where nothing is done yet about what the old door did."""


class Judgement(Model):
    """What the measurements say about one thing, and what to do."""

    what: str
    measured: str
    verdict: Literal["good", "mind", "refused"]
    do: str
    source: str


def judge(
    door: Doorway, unit: Unit, provided: Provided = NOTHING_PROVIDED
) -> tuple[Judgement, ...]:
    """Judge square, taper, bow, level, lean of the jambs, stop, floor, what the old door did.

    `provided` says what the job does about what the old door did.
    """
    return (
        *_square(door, unit),
        *_taper(door, unit, provided.hung),
        *_bow(door, unit, provided.hung),
        *_level(door, unit, provided.hung),
        *(Judgement(**row) for row in leans(door, unit)),
        *_stop(door, unit),
        *_floor(door, unit),
        *(Judgement(**row) for row in old_door(door.old_door, provided)),
    )


def _square(door: Doorway, unit: Unit) -> Iterator[Judgement]:
    if door.diagonals is None:
        return
    first, second = door.diagonals
    out, off = abs(first - second), head_offset(door)
    way = "right" if first > second else "left"
    do = f"the head stands {with_unit(off, unit)} to the {way} of the foot; "
    yield Judgement(
        what="out of square",
        measured=f"diagonals differ by {with_unit(out, unit)}",
        verdict="good" if out <= USUAL else "mind",
        do=_square_advice(out, do),
        source=TEMPLATE[1] if out > TOLERATED else USUAL_SOURCE,
    )


def _square_advice(out: Ticks, racked_text: str) -> str:
    if out <= USUAL:
        return "build the case square; even gaps hide this much"
    if out <= TOLERATED:
        return racked_text + "shim the hinge jamb plumb, take the size from the smallest width"
    return racked_text + TEMPLATE[0]


def head_offset(door: Doorway) -> Ticks:
    """How far the head is displaced sideways from the foot, by the diagonals, rounded [tick].

    For a parallelogram of width W, D1^2 - D2^2 = 4 W s.
    """
    assert door.diagonals is not None
    first, second = door.diagonals
    mean = sum(door.widths) // len(door.widths)
    return round(abs(first**2 - second**2) / (4 * mean))


def _taper(door: Doorway, unit: Unit, hung: bool) -> Iterator[Judgement]:
    if len(door.widths) < 2:
        return
    top, bottom = door.widths[0], door.widths[-1]
    out = abs(top - bottom)
    where = "top" if top < bottom else "bottom"
    hidden = f"narrower at the {where}: the case is made to that; " + (
        "taper the trim or shim the latch jamb, so that the gap looks even"
        if hung
        else "the strips scribed to the walls take up the rest"
    )
    yield Judgement(
        what="taper",
        measured=f"{with_unit(out, unit)} between top and bottom width",
        verdict="good" if out <= USUAL else "mind",
        do=_hidden_advice(hung) if out <= USUAL else hidden,
        source=USUAL_SOURCE,
    )


def _hidden_advice(hung: bool) -> str:
    return "gaps hide this much" if hung else "scribed strips hide this much"


def _bow(door: Doorway, unit: Unit, hung: bool) -> Iterator[Judgement]:
    if len(door.widths) < 3:
        return
    top, middle, bottom = door.widths
    out = round(middle - (top + bottom) / 2)
    inwards = out < 0
    jambs = (
        "a jamb bows into the opening: shim its ends or plane it before the hinges go on"
        if inwards
        else "the jambs bow apart: shim the middle hinge out to the line of the others"
    )
    walls = f"a wall bows {'in' if inwards else 'out'}: wider strips, scribed to it"
    bowed = jambs if hung else walls
    yield Judgement(
        what="bow",
        measured=f"middle {with_unit(abs(out), unit)} {'narrower' if inwards else 'wider'} than "
        "the mean of the ends",
        verdict="good" if abs(out) <= USUAL else "mind",
        do=_hidden_advice(hung) if abs(out) <= USUAL else bowed,
        source=USUAL_SOURCE,
    )


def _level(door: Doorway, unit: Unit, hung: bool) -> Iterator[Judgement]:
    if len(door.heights) < 2:
        return
    left, right = door.heights[0], door.heights[1]
    out = abs(left - right)
    low = "left" if left < right else "right"
    covers = "the head casing" if hung else "a scribed strip or moulding at the head"
    uneven = (
        f"head or floor is out: lower on the {low}; the case is made to that height, and {covers} "
        "covers the rest"
    )
    even = "the head gap hides this much" if hung else "the scribe at the head hides this much"
    yield Judgement(
        what="head and floor",
        measured=f"heights differ by {with_unit(out, unit)}",
        verdict="good" if out <= USUAL else "mind",
        do=even if out <= USUAL else uneven,
        source=USUAL_SOURCE,
    )


def _stop(door: Doorway, unit: Unit) -> Iterator[Judgement]:
    if not door.stop:
        return
    stays = door.stop_stays
    yield Judgement(
        what="door stop",
        measured=f"stands out {with_unit(door.stop, unit)} from each jamb",
        verdict="mind",
        do="it stays: the opening counts less by both stops"
        if stays
        else "take it off, and its nails too, before the case is hung",
        source="mygradeabologna.blogspot.com turn-closet-door-into-easy-storage",
    )


def _floor(door: Doorway, unit: Unit) -> Iterator[Judgement]:
    if door.highest_floor_in_swing is None:
        return
    bottom = door.floor_to_clear + door.floor_gap
    yield Judgement(
        what="floor in the swing",
        measured=f"{with_unit(door.floor_to_clear, unit)} up at its highest, pile included",
        verdict="good" if not door.floor_to_clear else "mind",
        do=f"bottom of the case {with_unit(bottom, unit)} above the floor, more for droop",
        source="highest point of the swept quarter circle, pile and a margin; plane geometry",
    )


DOORWAY_MEASUREMENTS = {
    "diagonals": "both diagonals",
    "jamb_depth": "jamb depth",
    "floor_covering": "floor covering",
    "pile": "thickness of pile and pad (0 on a hard floor)",
    "highest_floor_in_swing": "highest point of the floor in the swing",
    "hinge_side": "hinge side",
    "swing": "which way it swings",
    "hinge_lean": "plumb of the hinge jamb",
    "latch_lean": "plumb of the latch jamb",
    "stop": "door stop (0 where there is none)",
    "behind": "what is behind it",
    "room_in_front": "room in front",
    "room_behind": "room behind",
}
"""Measurements of a doorway that a case hangs in, in the order of the form."""
ALCOVE_MEASUREMENTS = {"ceiling": "height of the ceiling"}
"""What an alcove or a free space needs beside widths and heights."""


def missing_measurements(door: Doorway, *, hung: bool = True) -> tuple[str, ...]:
    """Return the names of the measurements and answers that are missing."""
    names = []
    if len(door.widths) < 3:
        names.append(f"{3 - len(door.widths)} of the three widths (top, middle, bottom)")
    if len(door.heights) < 2:
        names.append("the second height (left and right)")
    wanted = DOORWAY_MEASUREMENTS if hung else ALCOVE_MEASUREMENTS
    names += [name for key, name in wanted.items() if getattr(door, key) is None]
    if not hung:
        return (*names, *(() if door.ways_in else ("the way in: doors and turns",)))
    if not door.old_mortises:
        names.append("old hinge mortises, from the head down")
    if door.casing is None and not door.trim:
        names.append("casing: width, thickness, reveal")
    if door.obstacles is None and not door.in_the_swing:
        names.append('what stands in the swing (obstacles = "none" where nothing does)')
    names += _unanswered(door)
    return tuple(names)


def _unanswered(door: Doorway) -> list[str]:
    if door.old_door is None:
        return ["what the old door did: [doorway.old_door]"]
    keys = [duty.key for duty in DUTIES if getattr(door.old_door, duty.key) is None]
    return [f"old door: {', '.join(keys)}"] if keys else []
