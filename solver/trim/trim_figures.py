"""The arithmetic of a case's trim: each figure with formula, numbers of the job, source."""

from __future__ import annotations

from collections.abc import Iterator

from solver.carcass.trim_face import (
    CasingFace,
    CasingLeg,
    block_of,
    face_of,
    head_length,
    head_moulding,
    latch_gap,
    leg_length,
    leg_moulding,
    new_casing,
    plinth_of,
    side_gap,
)
from solver.job.case_fittings import TrimOrder
from solver.plan.trimming import Explained
from solver.trim.trim_pieces import TrimmedCase
from solver.units import Ticks, with_unit

ARITHMETIC = "arithmetic"
REVEAL = "reveal 3/16 to 1/4 in: callchampionservices.com door-casing-reveal"


def figures(trimmed: TrimmedCase) -> tuple[Explained, ...]:
    """Return the arithmetic of everything that is asked for."""
    return (
        *_casing(trimmed),
        *_flute_flat(trimmed),
        *_baseboard(trimmed),
        *_scribe_gap(trimmed),
        *_overlength(trimmed),
    )


def _casing(trimmed: TrimmedCase) -> Iterator[Explained]:
    order, face = new_casing(trimmed.case), face_of(trimmed.job, trimmed.case)
    if order is None or face is None:
        return
    if trimmed.case.kind == "hung" and order.hide_gap:
        yield _latch_cover(trimmed, order)
    for leg in face.legs:
        yield _leg(trimmed, order, face, leg)
    yield _head(trimmed, order, face)
    if order.set == "classical":
        yield from _blocks(trimmed, order)


def _latch_cover(trimmed: TrimmedCase, order: TrimOrder) -> Explained:
    u, door = trimmed.job.unit, trimmed.door
    assert door is not None
    gap = latch_gap(trimmed.job, trimmed.case, door)
    return Explained(
        what="casing over the opening, latch side",
        value=with_unit(gap + order.overlap, u),
        formula="latch gap at rest + overlap on the case",
        numbers=f"{with_unit(gap, u)} + {with_unit(order.overlap, u)}",
        source="casing fixed to the case covers the gap it swings in: sethrylan.org bookcase door",
    )


def _leg(trimmed: TrimmedCase, order: TrimOrder, face: CasingFace, leg: CasingLeg) -> Explained:
    u, job = trimmed.job.unit, trimmed.job
    head = head_moulding(job, order).width
    formula, numbers = "lower edge of the head - foot", f"{with_unit(leg.height, u)}"
    numbers += f" - {with_unit(face.foot, u)}"
    if order.set == "classical":
        lower = (block_of(job, order).width - head) // 2
        plinth = plinth_of(job, order).height
        formula += " - (corner block - head) / 2 - plinth"
        numbers += f" - {with_unit(lower, u)} - {with_unit(plinth, u)}"
    elif order.corners == "mitre":
        formula += " + head width, for the mitre"
        numbers += f" + {with_unit(head, u)}"
    return Explained(
        what=f"leg, {leg.side} side, floor to head",
        value=with_unit(leg_length(job, order, face, leg), u),
        formula=f"{formula}; the head's lower edge is the height there + reveal",
        numbers=numbers,
        source=f"{ARITHMETIC}; {REVEAL}",
    )


def _head(trimmed: TrimmedCase, order: TrimOrder, face: CasingFace) -> Explained:
    u, job = trimmed.job.unit, trimmed.job
    casing = leg_moulding(job, order).width
    formula, numbers = "between the inner edges of the legs", with_unit(face.inner, u)
    if order.set == "classical":
        formula += " - (corner block - casing)"
        numbers += f" - {with_unit(block_of(job, order).width - casing, u)}"
    else:
        formula += " + 2 x casing width"
        numbers += f" + 2 x {with_unit(casing, u)}"
    return Explained(
        what="head casing",
        value=with_unit(head_length(job, order, face), u),
        formula=formula,
        numbers=numbers,
        source=ARITHMETIC,
    )


def _blocks(trimmed: TrimmedCase, order: TrimOrder) -> Iterator[Explained]:
    u, casing = trimmed.job.unit, leg_moulding(trimmed.job, order)
    plinth, block = plinth_of(trimmed.job, order), block_of(trimmed.job, order)
    yield Explained(
        what="plinth block",
        value=" x ".join(with_unit(x, u) for x in (plinth.width, plinth.height, plinth.thickness)),
        formula="casing + a little, 1-1/2 to 2 widths high and over the base, thicker than both",
        numbers=(
            f"casing {with_unit(casing.width, u)} x {with_unit(casing.thickness, u)}, height / "
            f"width {plinth.height / plinth.width:.2f}"
        ),
        source="chestofbooks.com 169-Plinth-Blocks; skinscanapp.com plinth block; 1/8 in thicker: "
        "runtheyear2016.com 7642",
    )
    yield Explained(
        what="corner block",
        value=f"{with_unit(block.width, u)} square, {with_unit(block.thickness, u)} thick",
        formula="casing + a little, centred where legs and head meet",
        numbers=f"{with_unit(casing.width, u)} + {with_unit(block.width - casing.width, u)}",
        source="common practice, no source",
    )


def _flute_flat(trimmed: TrimmedCase) -> Iterator[Explained]:
    laid = trimmed.flutes
    if laid is None:
        return
    u = trimmed.job.unit
    yield Explained(
        what="flat at each edge of a fluted leg",
        value=with_unit(laid.margin, u),
        formula="(width - m flute - (m - 1) space) / 2",
        numbers=(
            f"({with_unit(laid.width, u)} - {laid.count} x {with_unit(laid.flute, u)} - "
            f"{laid.count - 1} x {with_unit(laid.space, u)}) / 2"
        ),
        source="woodweb.com Flute_Size_and_Spacing, Making_Fluted_Pilasters",
    )


def _baseboard(trimmed: TrimmedCase) -> Iterator[Explained]:
    order = trimmed.case.trim
    if order is None or order.baseboard is None or trimmed.door is not None:
        return
    u, size = trimmed.job.unit, trimmed.planned.outside
    thick = trimmed.job.moulding(order.baseboard).thickness
    for what, length, times in (
        ("baseboard, front", size.width, 2),
        ("baseboard return", size.depth, 1),
    ):
        yield Explained(
            what=what,
            value=with_unit(length + times * thick, u),
            formula="case outside + its thickness at each mitre",
            numbers=f"{with_unit(length, u)} + {times} x {with_unit(thick, u)}",
            source="as in published cases: issuhub.com 5674 p. 20, paperzz.com 7843242",
        )


def _scribe_gap(trimmed: TrimmedCase) -> Iterator[Explained]:
    order, door = trimmed.case.trim, trimmed.door
    if order is None or order.scribe is None or door is None:
        return
    u, wide = trimmed.job.unit, trimmed.planned.outside.width
    least: Ticks = max(0, min(door.widths) - wide) // 2
    yield Explained(
        what="gap at each side, closed by the scribe strip",
        value=f"{with_unit(least, u)} to {with_unit(side_gap(wide, door.widths), u)}",
        formula="(width measured - case outside) / 2, at the least and the most width",
        numbers=f"({with_unit(min(door.widths), u)} to {with_unit(max(door.widths), u)} - "
        f"{with_unit(wide, u)}) / 2",
        source="wall scribes at most 1-1/2 in: Architectural Woodwork Standards 1st ed. p. 253",
    )


def _overlength(trimmed: TrimmedCase) -> Iterator[Explained]:
    order = trimmed.case.trim
    if order is None or not order.over:
        return
    u = trimmed.job.unit
    yield Explained(
        what="cut over-long, each piece of trim",
        value=with_unit(order.over, u),
        formula="length to cut = finished length, long point to long point, + over",
        numbers=f"over = {with_unit(order.over, u)}; a mitre costs no more, the long points count",
        source="common practice, no source; tape: joewoodworker.com edgebanding-guide",
    )
