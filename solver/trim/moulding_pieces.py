"""The pieces of a case that are cut from mouldings: lips and trim, in the order they are made.

All lengths grow with the case's sizes, and how many pieces there are depends on shelf counts alone,
so the same pieces for larger sizes never cost less.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from solver.carcass.boards_of_case import Box, box, lip_pieces, shelf_id
from solver.carcass.trim_face import (
    block_of,
    doorway,
    face_of,
    head_length,
    leg_length,
    new_casing,
    plinth_of,
)
from solver.job.case import Case
from solver.job.job import Job
from solver.plan.trimming import End
from solver.units import Ticks

Ends = tuple[End, End]


@dataclass(frozen=True)
class TrimCut:
    """One piece of trim that is cut from a moulding.

    Attributes
    ----------
    id
        Id of the piece, with its case.
    moulding
        Name of the moulding.
    length
        Finished; long point to long point where mitred [tick].
    cut
        As cut from the stick, to be fitted [tick].
    ends
        Lower or left end first.
    """

    id: str
    moulding: str
    length: Ticks
    cut: Ticks
    ends: Ends


def moulding_pieces(
    job: Job, case: Case, counts: Sequence[int], depth: Ticks
) -> tuple[tuple[str, str, Ticks], ...]:
    """Return (part id, moulding name, length to cut [tick]) of each lip and piece of trim.

    `counts` are the shelves of each bay, `depth` the inside depth [tick]. The finished length
    of a piece of trim is longer by `over`, for its mitres and to be fitted.
    """
    trim = trim_cuts(job, case, counts, depth)
    return (
        *lip_pieces(job, case, counts),
        *((piece.id, piece.moulding, piece.cut) for piece in trim),
    )


def trim_cuts(job: Job, case: Case, counts: Sequence[int], depth: Ticks) -> tuple[TrimCut, ...]:
    """Return every piece of trim that is cut from a moulding.

    Arguments are those of :func:`moulding_pieces`.
    """
    if case.trim is None:
        return ()
    sizes = box(job, case, depth)
    rows = (
        *_casing(job, case),
        *_baseboard(job, case, sizes),
        *_scribes(job, case, sizes),
        *_edge_bands(job, case, counts, sizes),
    )
    over = case.trim.over
    return tuple(
        TrimCut(f"{case.name}/trim-{ident}", moulding, length, length + over, ends)
        for ident, moulding, length, ends in rows
    )


Row = tuple[str, str, Ticks, Ends]
"""(name, moulding, finished length [tick], ends) of a piece."""


def _casing(job: Job, case: Case) -> Iterator[Row]:
    order, face = new_casing(case), face_of(job, case)
    if order is None or face is None:
        return
    assert order.casing is not None
    mitred: End = "mitre" if order.set == "plain" and order.corners == "mitre" else "square"
    for leg in face.legs:
        length = leg_length(job, order, face, leg)
        yield f"leg-{leg.side}", order.casing, length, ("square", mitred)
    yield "head", order.head or order.casing, head_length(job, order, face), (mitred, mitred)
    if order.set == "classical":
        for name, stock, size in (
            ("plinth", order.plinth, plinth_of(job, order)),
            ("block", order.block, block_of(job, order)),
        ):
            if stock is not None:
                for leg in face.legs:
                    yield f"{name}-{leg.side}", stock, size.height, ("square", "square")


def _baseboard(job: Job, case: Case, sizes: Box) -> Iterator[Row]:
    """Round the foot: a front and two returns; in an alcove a front alone, wall to wall or
    between the legs of its casing.
    """
    assert case.trim is not None
    name = case.trim.baseboard
    if name is None:
        return
    alcove = doorway(job, case) if case.kind == "built-in" else None
    face = face_of(job, case)
    if alcove is not None:
        wide = max(alcove.widths) if face is None else face.inner
        end: End = "scribed" if face is None else "square"
        yield "base-front", name, wide, (end, end)
        return
    thick = job.moulding(name).thickness
    yield "base-front", name, sizes.outside_width + 2 * thick, ("mitre", "mitre")
    for side in ("left", "right"):
        yield f"base-{side}", name, sizes.outside_depth + thick, ("mitre", "square")


def _scribes(job: Job, case: Case, sizes: Box) -> Iterator[Row]:
    """Strips from floor to the case's top at both walls; one across over it where asked."""
    assert case.trim is not None
    name = case.trim.scribe
    if name is None:
        return
    high = case.above_floor + sizes.outside_height
    for side in ("left", "right"):
        yield f"scribe-{side}", name, high, ("scribed", "square")
    if case.trim.scribe_head:
        alcove = doorway(job, case)
        wide = sizes.outside_width if alcove is None else max(alcove.widths)
        yield "scribe-head", name, wide, ("scribed", "scribed")


def _edge_bands(job: Job, case: Case, counts: Sequence[int], sizes: Box) -> Iterator[Row]:
    """Every front edge without a lip; the band is trimmed flush once it is on."""
    assert case.trim is not None
    name = case.trim.band
    if name is None:
        return
    ends: Ends = ("trimmed", "trimmed")
    for side in ("left", "right"):
        yield f"band-side-{side}", name, sizes.outside_height, ends
    for board in ("top", "bottom"):
        yield f"band-{board}", name, sizes.inside_width, ends
    for at in range(1, len(sizes.bays)):
        yield f"band-upright-{at}", name, sizes.inside_height, ends
    if case.lip is not None:
        return
    shorter = case.pin_clearance if case.fixing == "pins" else 0
    for bay, ((_, width), count) in enumerate(zip(sizes.bays, counts, strict=True), start=1):
        for k in range(1, count + 1):
            yield f"band-{shelf_id(case, bay, k)}", name, width - shorter, ends
