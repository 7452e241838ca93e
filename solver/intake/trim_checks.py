"""Checks of a case's trim: what cannot be made is refused with both numbers and what would do.

Sizes that are left open are taken at their most. While a doorway still gives a case its size,
these checks wait for the true one.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.carcass.outline import floor_height, outside_outline
from solver.carcass.trim_face import (
    CasingFace,
    CasingLeg,
    block_of,
    doorway,
    face_of,
    head_moulding,
    leg_moulding,
    new_casing,
    outer_reach,
    plinth_of,
    side_gap,
)
from solver.job.case import Case, most_size
from solver.job.case_fittings import TrimOrder
from solver.job.job import Job
from solver.trim.flutes import flutes_fault
from solver.units import Unit, with_unit

MOULDINGS = ("casing", "head", "plinth", "block", "baseboard", "scribe", "band")
"""Keys of [case.trim] that name a moulding."""


def check_trim(job: Job, case: Case) -> None:
    """Raise ValueError for the first thing that cannot be in a case's trim.

    Sizes that are left open are taken at their most: trim that is refused there is wrong at all.
    """
    if case.trim is None:
        return
    settled = case.model_copy(
        update={"width": most_size(case.width), "height": most_size(case.height)}
    )
    for key, wrong in _faults(job, settled, case.trim):
        msg = f"case {case.name!r} trim: {key}: {wrong}"
        raise ValueError(msg)


Faults = Iterator[tuple[str, str]]


def _faults(job: Job, case: Case, order: TrimOrder) -> Faults:
    yield from _names(job, order)
    yield from _sets(job, case, order)
    face = face_of(job, case)
    if new_casing(case) is not None and face is not None:
        yield from _casing(job, order, face, job.unit)
        yield from _under_ceiling(job, case, order, face)
        yield from _set_sizes(job, order, job.unit)
    yield from _foot(job, case, order)
    yield from _scribe(job, case, order)
    yield from _band(job, case, order)


def _names(job: Job, order: TrimOrder) -> Faults:
    """Every moulding named is listed."""
    known = {moulding.name for moulding in job.mouldings}
    listed = ", ".join(map(repr, sorted(known))) or "none is listed"
    for key in MOULDINGS:
        name = getattr(order, key)
        if name is not None and name not in known:
            yield key, f"{name!r} is no [[moulding]] of the job; allowed: {listed}"


def _sets(job: Job, case: Case, order: TrimOrder) -> Faults:
    """A set has what it is made of, and a place to stand."""
    door = doorway(job, case)
    if order.set in ("plain", "classical") and order.casing is None:
        yield "casing", f'set = "{order.set}" needs one: name the [[moulding]] of the legs'
    if order.set == "old" and (door is None or not door.trim):
        yield (
            "set",
            (
                '"old" puts back the trim that the doorway lists, and none is listed; '
                "write trim = [...] in its [[doorway]]"
            ),
        )
    if order.set == "none" and order.casing is not None:
        yield "set", 'a casing is named but set is "none"; write "plain" or "classical"'
    if case.kind == "hung" and order.set != "none":
        if door is None:
            yield "set", "casing of a hung case goes round its doorway; name the doorway"
        same = [c for c in job.cases if c.kind == "hung" and c.doorway == case.doorway]
        if len(same) > 1 and order.set != "old":
            yield (
                "set",
                (
                    "two cases hang in this doorway, and no new casing is worked out for a pair; "
                    'leave it out, or set = "old"'
                ),
            )
    if order.flutes and order.set != "classical":
        yield "flutes", f'flutes are cut in pilasters, set = "classical"; set is "{order.set}"'


def _casing(job: Job, order: TrimOrder, face: CasingFace, unit: Unit) -> Faults:
    """Casing has room on the wall, bears on it, and meets the head at 45 degrees."""
    for leg in face.legs:
        yield from _leg(job, order, leg, unit, on_case=face.on_case)
    casing, head = leg_moulding(job, order).width, head_moulding(job, order).width
    least = face.cover + order.bearing
    if face.cover and head < least:
        yield (
            "head",
            f"it must cover {with_unit(face.cover, unit)} over the case and bear "
            f"{with_unit(order.bearing, unit)} on the wall, and is {with_unit(head, unit)} wide; "
            f"{with_unit(least, unit)} or wider would do",
        )
    if order.set == "plain" and order.corners == "mitre" and head != casing:
        yield (
            "head",
            f"legs {with_unit(casing, unit)} and head {with_unit(head, unit)} wide do not meet in "
            'a mitre; corners = "butt", or one moulding for both',
        )


def _under_ceiling(job: Job, case: Case, order: TrimOrder, face: CasingFace) -> Faults:
    """The head, or its corner blocks, end under the ceiling."""
    place = doorway(job, case)
    if place is None or place.ceiling is None:
        return
    head = head_moulding(job, order).width
    over = max(head, (block_of(job, order).width + head) // 2) if order.set == "classical" else head
    top = max(leg.height for leg in face.legs) + over
    if top > place.ceiling:
        yield (
            "head",
            f"its top comes {with_unit(top, job.unit)} above the floor and the ceiling is "
            f"{with_unit(place.ceiling, job.unit)}; a head "
            f"{with_unit(top - place.ceiling, job.unit)} lower would do",
        )


def _leg(job: Job, order: TrimOrder, leg: CasingLeg, unit: Unit, *, on_case: bool) -> Faults:
    wide, casing = outer_reach(job, order, leg), leg_moulding(job, order).width
    if leg.wall is not None and wide > leg.wall:
        yield (
            "casing",
            f"on the {leg.side} side it reaches {with_unit(wide, unit)} beyond the opening, and "
            f"the wall there is {with_unit(leg.wall, unit)} wide; a casing "
            f"{with_unit(wide - leg.wall, unit)} narrower would do",
        )
    if on_case and order.baseboard is not None and wide > 0:
        yield (
            "casing",
            f"it is {with_unit(casing, unit)} wide and reaches {with_unit(wide, unit)} beyond the "
            f"case's {leg.side} side, where the baseboard turns round the corner; casing "
            f"{with_unit(max(leg.covers, 0), unit)} wide or less, or no baseboard, would do",
        )
    covers = max(leg.covers, 0)
    if not on_case and casing - covers < order.bearing:
        yield (
            "casing",
            f"on the {leg.side} side it must cover {with_unit(covers, unit)} and bear "
            f"{with_unit(order.bearing, unit)} on the wall, and is {with_unit(casing, unit)} "
            f"wide; {with_unit(covers + order.bearing, unit)} or wider would do",
        )


def _set_sizes(job: Job, order: TrimOrder, unit: Unit) -> Faults:
    """Plinths and corner blocks are no smaller than what they meet; flutes fit the leg."""
    if order.set != "classical":
        return
    casing, head = leg_moulding(job, order), head_moulding(job, order)
    for key, has, width in (
        ("plinth", plinth_of(job, order), casing.width),
        ("block", block_of(job, order), max(casing.width, head.width)),
    ):
        if has.width < width or has.thickness < casing.thickness:
            yield (
                key,
                (
                    f"it is {with_unit(has.width, unit)} wide and {with_unit(has.thickness, unit)} "
                    f"thick, less than the casing, {with_unit(width, unit)} x "
                    f"{with_unit(casing.thickness, unit)}; as large or larger would do"
                ),
            )
    wrong = flutes_fault(order, casing.width, unit)
    if wrong:
        yield "flutes", wrong


def _foot(job: Job, case: Case, order: TrimOrder) -> Faults:
    """Baseboard goes round a case that stands on the floor, no higher than its bottom board."""
    if order.baseboard is None:
        return
    if case.kind in ("hung", "wall"):
        yield (
            "baseboard",
            (
                f"a {case.kind} case has no foot: it hangs clear of the baseboard line; "
                "room_baseboard says how high the room's is"
            ),
        )
        return
    high = job.moulding(order.baseboard).width
    most = case.above_floor + floor_height(job, case)
    if high > most:
        yield (
            "baseboard",
            (
                f"it is {with_unit(high, job.unit)} high and the top of the bottom board "
                f"{with_unit(most, job.unit)} above the floor; raised_bottom "
                f"{with_unit(case.raised_bottom + high - most, job.unit)} or more would do"
            ),
        )


def _scribe(job: Job, case: Case, order: TrimOrder) -> Faults:
    """Strips reach from the case to the wall at its widest."""
    if order.scribe is None:
        return
    alcove = doorway(job, case)
    if case.kind != "built-in" or alcove is None:
        yield (
            "scribe",
            'strips close a built-in case to its walls; kind = "built-in", and name its doorway',
        )
        return
    wide, high = outside_outline(job, case)
    strip = job.moulding(order.scribe).width
    side = side_gap(wide, alcove.widths)
    over = max(alcove.heights) - case.above_floor - high
    for what, gap, wanted, sides in (
        ("at each side", side, True, 2),
        ("over the case", over, order.scribe_head, 1),
    ):
        if wanted and gap > strip:
            more = with_unit(sides * (gap - strip), job.unit)
            yield (
                "scribe",
                f"the gap {what} is {with_unit(gap, job.unit)} at its widest and the strip "
                f"{with_unit(strip, job.unit)} wide; a wider strip, or a case {more} larger, "
                "would do",
            )


def _band(job: Job, case: Case, order: TrimOrder) -> Faults:
    """Banding covers the edge."""
    if order.band is None:
        return
    wide, thick = job.moulding(order.band).width, job.thickness(case.material)
    if wide < thick:
        yield (
            "band",
            (
                f"it is {with_unit(wide, job.unit)} wide and the edge "
                f"{with_unit(thick, job.unit)}; 7/8 in is usual for 3/4 in sheet, 22 mm for 18 mm"
            ),
        )
