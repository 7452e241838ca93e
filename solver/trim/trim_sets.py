"""The trim of every case of an option: pieces with their places, figures, notes, light, glass."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from solver.carcass.settled_job import planned_cases
from solver.carcass.trim_face import (
    CasingFace,
    CasingLeg,
    block_of,
    doorway_trim,
    face_of,
    head_moulding,
    leg_moulding,
    new_casing,
    outer_reach,
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
from solver.trim.trim_pieces import TrimmedCase, pieces_of
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, with_unit

FARTHEST: dict[Unit, Ticks] = {"in": 6 * TICKS_PER_INCH, "mm": 150 * TICKS_PER_MM}
"""Largest reveal that is tried: casing farther back frames nothing [tick]."""


def trim_sets(job: Job, option: Option) -> tuple[TrimSet, ...]:
    """Return the trim of each case, piece by piece; a pure function of job and option.

    Parameters
    ----------
    job
        As understood, open sizes and all.
    option
        One of its plan, with a layout.
    """
    return tuple(_trim_set(TrimmedCase(**vars(one))) for one in planned_cases(job, option))


def _trim_set(trimmed: TrimmedCase) -> TrimSet:
    order = trimmed.case.trim
    return TrimSet(
        case=trimmed.case.name,
        kind=trimmed.case.kind,
        set="none" if order is None else order.set,
        pieces=with_places(trimmed, pieces_of(trimmed)),
        flutes=trimmed.flutes,
        light=light_of(trimmed),
        glass=glass_of(trimmed),
        figures=figures(trimmed),
        notes=notes(trimmed),
    )


def clear_reveal(trimmed: TrimmedCase, name: str) -> Ticks | None:
    """Return the least reveal at which a strip on the wall clears, in 1/16 in or mm [tick].

    None where none up to 6 in (150 mm) does. Only the case moves: trim that travels with it is
    left out.
    """
    strips = () if trimmed.door is None else doorway_trim(trimmed.job, trimmed.case, trimmed.door)
    strip = next((strip for strip in strips if strip.name == name), None)
    return None if strip is None else _least_reveal(trimmed, strip)


def _least_reveal(trimmed: TrimmedCase, trim: Trim) -> Ticks | None:
    assert trimmed.door is not None
    swing = swing_of(trimmed.job, trimmed.case, trimmed.planned.outside.depth)
    strip = strip_of(trimmed.door, trim, leads=swing.back_leads)
    now = trim.reveal - trim.covers
    away = -1 if trim.side == "hinge" else 1
    step = TICKS_PER_INCH // 16 if trimmed.job.unit == "in" else TICKS_PER_MM
    for reveal in range(-(-max(now, 0) // step) * step, FARTHEST[trimmed.job.unit], step):
        by = away * (reveal - now)
        moved = replace(strip, left=strip.left + by, right=strip.right + by)
        if fixed_binds(swing, moved, trimmed.door.opens_to) is None:
            return reveal
    return None


def notes(trimmed: TrimmedCase) -> tuple[str, ...]:
    """Return the notes on one case's trim."""
    order = trimmed.case.trim
    if order is None:
        return ("no trim is asked for: [case.trim] in the job file has casing, strips and bands",)
    return (
        *_binding_notes(trimmed),
        *_hung_notes(trimmed, order),
        *_not_flush(trimmed, order),
        *_baseboard_notes(trimmed, order),
        *_old_casing(order),
    )


def _binding_notes(trimmed: TrimmedCase) -> Iterator[str]:
    """Note trim that binds on the case as on the wall, and where it would not."""
    swing = trimmed.planned.swing
    for choice in swing.trim if swing else ():
        if choice.binds_at is None:
            continue
        back, unit = clear_reveal(trimmed, choice.name), trimmed.job.unit
        shows = ", the gap then not hidden (hide_gap = false)" if "latch" in choice.name else ""
        would = (
            f"nothing up to {with_unit(FARTHEST[unit], unit)} back would do: "
            "bring the pin out to its face"
            if back is None
            else f"on the wall {with_unit(back, unit)} back it clears the case{shows}"
        )
        yield f"{choice.name} BINDS at {choice.binds_at:.0f}° whichever way it is fixed; {would}"


def _hung_notes(trimmed: TrimmedCase, order: TrimOrder) -> Iterator[str]:
    if trimmed.case.kind != "hung" or order.set == "none":
        return
    u = trimmed.job.unit
    yield (
        f"make a test piece of each leg, {with_unit(FARTHEST[u], u)} long, tack it on and open the "
        "case all the way before the long pieces are cut (woodweb.com Hidden-Pivot Bookcase Door)"
    )
    yield (
        f"trim that travels stays {with_unit(order.joint_gap, u)} below trim that stays, and "
        f"{with_unit(trimmed.lift, u)} off the floor, as the case does"
    )


def _not_flush(trimmed: TrimmedCase, order: TrimOrder) -> Iterator[str]:
    """Note what lies between casing on the plane of the wall and a case not flush with it."""
    if trimmed.case.kind != "hung" or order.set == "none" or not trimmed.proud:
        return
    by = with_unit(abs(trimmed.proud), trimmed.job.unit)
    if trimmed.proud > 0:
        yield (
            f"the case stands {by} in front of the wall on the room's side: what covers the gap is "
            "rabbeted over its edge by so much, or the case is set back"
        )
    else:
        yield f"the case stands {by} behind the wall's face: pack casing that travels out by that"


def _baseboard_notes(trimmed: TrimmedCase, order: TrimOrder) -> Iterator[str]:
    """Note where the room's baseboard is cut back, and casing that stands out over the side."""
    face, u = face_of(trimmed.job, trimmed.case), trimmed.job.unit
    base = order.room_baseboard
    if face is None or new_casing(trimmed.case) is None:
        if base is not None and trimmed.case.kind in ("standing", "built-in"):
            yield (
                f"the room's baseboard, {with_unit(base, u)} high: take it off behind the case and "
                "return its ends to the sides, or notch the sides round it"
            )
        return
    for leg in face.legs:
        wide = with_unit(outer_reach(trimmed.job, order, leg), u)
        if face.on_case and leg_moulding(trimmed.job, order).width > leg.covers:
            yield f"casing stands {wide} out beyond the case's {leg.side} side"
        elif not face.on_case and order.room_baseboard is not None:
            yield (
                f"cut the room's baseboard back to {wide} from the opening's edge, {leg.side} side"
            )


def _old_casing(order: TrimOrder) -> Iterator[str]:
    if order.set == "old":
        yield (
            "old casing: cut the paint line, lift it with a flat bar, draw the nails through from "
            "behind, number each piece on its back, the head with them; in a house of before 1978 "
            "take its paint for lead (40 CFR 745)"
        )


def with_places(trimmed: TrimmedCase, pieces: tuple[TrimPiece, ...]) -> tuple[TrimPiece, ...]:
    """Return the pieces, those of new casing with the place of their lower left corner.

    x from the left edge of the opening, y from the floor [tick].
    """
    order, face = new_casing(trimmed.case), face_of(trimmed.job, trimmed.case)
    if order is None or face is None:
        return pieces
    return tuple(_placed(trimmed, order, face, piece) for piece in pieces)


def _placed(
    trimmed: TrimmedCase, order: TrimOrder, face: CasingFace, piece: TrimPiece
) -> TrimPiece:
    part, _, side = piece.id.removeprefix(f"{trimmed.case.name}/trim-").partition("-")
    if part == "head":
        x, y = _head_corner(trimmed, order, face)
        return piece.model_copy(update={"x": x, "y": y, "across": True})
    leg = next((leg for leg in face.legs if leg.side == side), None)
    if part not in ("leg", "plinth", "block") or leg is None:
        return piece
    casing = leg_moulding(trimmed.job, order).width
    x = _inner_edge(trimmed, face, leg) - (casing if _is_left(trimmed, face, leg) else 0)
    x -= (piece.width - casing) // 2
    return piece.model_copy(
        update={"x": x, "y": _lower_edge(trimmed, order, face, leg, piece, part)}
    )


def _is_left(trimmed: TrimmedCase, face: CasingFace, leg: CasingLeg) -> bool:
    """Whether a leg is the left one, seen from the room."""
    first = leg == face.legs[0]
    mirrored = (
        trimmed.case.kind == "hung"
        and trimmed.door is not None
        and trimmed.door.hinge_side == "right"
    )
    return first != mirrored


def _inner_edge(trimmed: TrimmedCase, face: CasingFace, leg: CasingLeg) -> Ticks:
    return leg.covers if _is_left(trimmed, face, leg) else face.opening - leg.covers


def _head_corner(trimmed: TrimmedCase, order: TrimOrder, face: CasingFace) -> tuple[Ticks, Ticks]:
    casing = leg_moulding(trimmed.job, order).width
    left = next(leg for leg in face.legs if _is_left(trimmed, face, leg))
    x = _inner_edge(trimmed, face, left) - casing
    if order.set == "classical":
        x += casing + (block_of(trimmed.job, order).width - casing) // 2
    return x, max(leg.height for leg in face.legs)


def _lower_edge(
    trimmed: TrimmedCase,
    order: TrimOrder,
    face: CasingFace,
    leg: CasingLeg,
    piece: TrimPiece,
    part: str,
) -> Ticks:
    if part == "block":
        return leg.height + (head_moulding(trimmed.job, order).width - piece.width) // 2
    floor = trimmed.lift if piece.travels and trimmed.case.kind == "hung" else face.foot
    raised = part == "leg" and order.set == "classical"
    return floor + (plinth_of(trimmed.job, order).height if raised else 0)
