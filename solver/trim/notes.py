"""What is to be known of a case's trim beside the pieces."""

from __future__ import annotations

from collections.abc import Iterator

from solver.trim.clear import FARTHEST, clear_reveal
from solver.trim.pieces import Trimmed
from solver.trim_face import face_of, leg_moulding, new_casing, outer
from solver.trim_order import TrimOrder
from solver.units import with_unit


def notes(one: Trimmed) -> tuple[str, ...]:
    """Return the notes on one case's trim."""
    order = one.case.trim
    if order is None:
        return ("no trim is asked for: [case.trim] in the job file has casing, strips and bands",)
    return (
        *_binding(one),
        *_hung(one, order),
        *_proud(one, order),
        *_beside(one, order),
        *_old(order),
    )


def _binding(one: Trimmed) -> Iterator[str]:
    """Trim that binds whichever way it is fixed, and where it would not."""
    swing = one.planned.swing
    for choice in swing.trim if swing else ():
        if choice.binds_at is None:
            continue
        back = clear_reveal(one, choice.name)
        shows = ", the gap then not hidden (hide_gap = false)" if "latch" in choice.name else ""
        would = (
            f"nothing up to {with_unit(FARTHEST[one.job.unit], one.job.unit)} back would do: bring "
            "the pin out to its face"
            if back is None
            else f"on the wall {with_unit(back, one.job.unit)} back it clears the case{shows}"
        )
        yield f"{choice.name} BINDS at {choice.binds_at:.0f}° whichever way it is fixed; {would}"


def _hung(one: Trimmed, order: TrimOrder) -> Iterator[str]:
    if one.case.kind != "hung" or order.set == "none":
        return
    u = one.job.unit
    yield (
        f"make a test piece of each leg, {with_unit(FARTHEST[u], u)} long, tack it on and open the "
        "case all the way before the long pieces are cut (woodweb.com Hidden-Pivot Bookcase Door)"
    )
    yield (
        f"trim that travels stays {with_unit(order.joint_gap, u)} below trim that stays, and "
        f"{with_unit(one.lift, u)} off the floor, as the case does"
    )


def _proud(one: Trimmed, order: TrimOrder) -> Iterator[str]:
    """What lies between casing on the wall's plane and a case that is not flush with it."""
    if one.case.kind != "hung" or order.set == "none" or not one.proud:
        return
    by = with_unit(abs(one.proud), one.job.unit)
    if one.proud > 0:
        yield (
            f"the case stands {by} in front of the wall on the room's side: what covers the gap is "
            "rabbeted over its edge by so much, or the case is set back"
        )
    else:
        yield f"the case stands {by} behind the wall's face: pack casing that travels out by that"


def _beside(one: Trimmed, order: TrimOrder) -> Iterator[str]:
    """Where the room's baseboard is cut back to, and casing that stands out over the side."""
    face, u = face_of(one.job, one.case), one.job.unit
    base = order.room_baseboard
    if face is None or new_casing(one.case) is None:
        if base is not None and one.case.kind in ("standing", "built-in"):
            yield (
                f"the room's baseboard, {with_unit(base, u)} high: take it off behind the case and "
                "return its ends to the sides, or notch the sides round it"
            )
        return
    for leg in face.legs:
        wide = with_unit(outer(one.job, order, leg), u)
        if face.on_case and leg_moulding(one.job, order).width > leg.covers:
            yield f"casing stands {wide} out beyond the case's {leg.side} side"
        elif not face.on_case and order.room_baseboard is not None:
            yield (
                f"cut the room's baseboard back to {wide} from the opening's edge, {leg.side} side"
            )


def _old(order: TrimOrder) -> Iterator[str]:
    if order.set == "old":
        yield (
            "old casing: cut the paint line, lift it with a flat bar, draw the nails through from "
            "behind, number each piece on its back, the head with them; in a house of before 1978 "
            "take its paint for lead (40 CFR 745)"
        )
