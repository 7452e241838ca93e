"""The trim of every case of an option."""

from __future__ import annotations

from solver.job import Job
from solver.plan import Option
from solver.settled import settled_job
from solver.trim.figures import figures
from solver.trim.light_glass import glass_of, light_of
from solver.trim.notes import notes
from solver.trim.pieces import Trimmed, pieces_of
from solver.trim_face import (
    Face,
    Leg,
    block_of,
    face_of,
    head_moulding,
    leg_moulding,
    new_casing,
    plinth_of,
)
from solver.trim_order import TrimOrder
from solver.trimming import TrimPiece, TrimSet
from solver.units import Ticks


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
    settled = settled_job(job, option)
    return tuple(
        _set(
            Trimmed(
                settled,
                case,
                planned,
                option.shelf_counts[case.name],
                tuple(part for part in option.parts if part.case == case.name),
            )
        )
        for case, planned in zip(settled.cases, option.cases, strict=True)
    )


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
