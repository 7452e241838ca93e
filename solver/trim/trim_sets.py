"""The trim of every case of an option."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from solver.carcass.decided import planned_cases
from solver.carcass.trim_face import (
    Face,
    Leg,
    block_of,
    doorway_trim,
    face_of,
    head_moulding,
    leg_moulding,
    new_casing,
    outer,
    plinth_of,
)
from solver.doorway.swing_of_job import strip_of, swing_of
from solver.doorway.swing_trim import fixed_binds
from solver.job.case_fittings import TrimOrder
from solver.job.doorway import Trim
from solver.job.job import Job
from solver.plan.plan import Option
from solver.plan.trimming import TrimPiece, TrimSet
from solver.trim.light_glass import glass_of, light_of
from solver.trim.trim_figures import figures
from solver.trim.trim_pieces import Trimmed, pieces_of
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, with_unit

FARTHEST: dict[Unit, Ticks] = {"in": 6 * TICKS_PER_INCH, "mm": 150 * TICKS_PER_MM}
"""Casing farther back than this frames nothing [tick]."""


def clear_reveal(one: Trimmed, name: str) -> Ticks | None:
    """Return the least reveal at which a strip on the wall clears, in 1/16 in or mm [tick].

    None where none up to 6 in (150 mm) does. Only the case moves: trim that travels with it is
    left out.
    """
    strips = () if one.door is None else doorway_trim(one.job, one.case, one.door)
    strip = next((strip for strip in strips if strip.name == name), None)
    return None if strip is None else _least(one, strip)


def _least(one: Trimmed, trim: Trim) -> Ticks | None:
    assert one.door is not None
    swing = swing_of(one.job, one.case, one.planned.outside.depth)
    strip = strip_of(one.door, trim, leads=swing.back_leads)
    now = trim.reveal - trim.covers
    away = -1 if trim.side == "hinge" else 1
    step = TICKS_PER_INCH // 16 if one.job.unit == "in" else TICKS_PER_MM
    for reveal in range(-(-max(now, 0) // step) * step, FARTHEST[one.job.unit], step):
        by = away * (reveal - now)
        moved = replace(strip, left=strip.left + by, right=strip.right + by)
        if fixed_binds(swing, moved, one.door.opens_to) is None:
            return reveal
    return None


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


def placed(one: Trimmed, pieces: tuple[TrimPiece, ...]) -> tuple[TrimPiece, ...]:
    """Return the pieces, those of new casing with the place of their lower left corner.

    x from the left edge of the opening, y from the floor [tick].
    """
    order, face = new_casing(one.case), face_of(one.job, one.case)
    if order is None or face is None:
        return pieces
    return tuple(_placed(one, order, face, piece) for piece in pieces)


def _placed(one: Trimmed, order: TrimOrder, face: Face, piece: TrimPiece) -> TrimPiece:
    part, _, side = piece.id.removeprefix(f"{one.case.name}/trim-").partition("-")
    if part == "head":
        x, y = _head(one, order, face)
        return piece.model_copy(update={"x": x, "y": y, "across": True})
    leg = next((leg for leg in face.legs if leg.side == side), None)
    if part not in ("leg", "plinth", "block") or leg is None:
        return piece
    casing = leg_moulding(one.job, order).width
    x = _inner(one, face, leg) - (casing if _left(one, face, leg) else 0)
    x -= (piece.width - casing) // 2
    return piece.model_copy(update={"x": x, "y": _foot(one, order, face, leg, piece, part)})


def _left(one: Trimmed, face: Face, leg: Leg) -> bool:
    """Whether a leg is the left one, seen from the room."""
    first = leg == face.legs[0]
    mirrored = one.case.kind == "hung" and one.door is not None and one.door.hinge_side == "right"
    return first != mirrored


def _inner(one: Trimmed, face: Face, leg: Leg) -> Ticks:
    return leg.covers if _left(one, face, leg) else face.opening - leg.covers


def _head(one: Trimmed, order: TrimOrder, face: Face) -> tuple[Ticks, Ticks]:
    casing = leg_moulding(one.job, order).width
    left = next(leg for leg in face.legs if _left(one, face, leg))
    x = _inner(one, face, left) - casing
    if order.set == "classical":
        x += casing + (block_of(one.job, order).width - casing) // 2
    return x, max(leg.height for leg in face.legs)


def _foot(
    one: Trimmed, order: TrimOrder, face: Face, leg: Leg, piece: TrimPiece, part: str
) -> Ticks:
    if part == "block":
        return leg.height + (head_moulding(one.job, order).width - piece.width) // 2
    floor = one.lift if piece.travels and one.case.kind == "hung" else face.foot
    raised = part == "leg" and order.set == "classical"
    return floor + (plinth_of(one.job, order).height if raised else 0)


def trim_sets(job: Job, option: Option) -> tuple[TrimSet, ...]:
    """Return the trim of each case, piece by piece; a pure function of job and option.

    Parameters
    ----------
    job
        As understood, open sizes and all.
    option
        One of its plan, with a layout.
    """
    return tuple(_set(Trimmed(**vars(one))) for one in planned_cases(job, option))


def _set(one: Trimmed) -> TrimSet:
    order = one.case.trim
    return TrimSet(
        case=one.case.name,
        kind=one.case.kind,
        set="none" if order is None else order.set,
        pieces=placed(one, pieces_of(one)),
        flutes=one.flutes,
        light=light_of(one),
        glass=glass_of(one),
        figures=figures(one),
        notes=notes(one),
    )
