"""The moulding that a case's lips and trim need, restated from the job and the case as planned.

Worked out here from where things lie on the wall, seen from the room: the lines of the inner
edges, the middle lines of legs and head that corner blocks are centred on, and the outlines
that mitres run to.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checking.parts import lips, shelf_part_id
from solver.checking.views import CaseView
from solver.job.case_fittings import TrimOrder
from solver.job.doorway import Doorway
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks

Needs = tuple[str, str, Ticks]
"""Id within the case, moulding, finished length [tick]."""
Lines = tuple[tuple[Ticks, Ticks], tuple[Ticks, Ticks], Ticks]
"""Inner edge and lower edge of the head at the left leg and at the right; foot [tick]."""


def moulded(view: CaseView) -> dict[str, tuple[str, Ticks]]:
    """Moulding and length to cut [tick] of each lip and piece of trim, by part id."""
    pieces, order = lips(view), view.case.trim
    if order is None:
        return pieces
    for rule in (_casing, _baseboard, _scribe, _band):
        for ident, name, length in rule(view, order):
            pieces[f"{view.case.name}/trim-{ident}"] = name, length + order.over
    return pieces


def carried(view: CaseView) -> Iterator[tuple[str, Ticks, Ticks]]:
    """(moulding, length, place from the left [tick]) of each leg that a hung case carries.

    The plan says which travel; a leg counts from the floor to the head's lower edge, its block
    and plinth taken as the same board.
    """
    order, door, swing = view.case.trim, _place(view), view.plan.swing
    new = order is not None and order.set in ("plain", "classical") and order.casing is not None
    if not new or view.case.kind != "hung" or door is None or swing is None:
        return
    assert order is not None
    assert order.casing is not None
    travels = {choice.name for choice in swing.trim if choice.travels}
    names, (left, right, foot) = _lines(view, order, door)
    sides = zip(names, (left, right), (0, view.plan.outside.width), strict=True)
    for name, (_, top), at in sides:
        if f"casing leg, {name} side" in travels:
            yield order.casing, top - foot, at


def _place(view: CaseView) -> Doorway | None:
    named = [door for door in view.job.doorways if door.name == view.case.doorway]
    return named[0] if named else None


def _casing(view: CaseView, order: TrimOrder) -> Iterator[Needs]:
    if order.set not in ("plain", "classical") or order.casing is None:
        return
    door = _place(view)
    if view.case.kind == "hung" and door is None:
        return
    names, lines = _lines(view, order, door)
    if order.set == "plain":
        yield from _plain(view, order, names, lines)
    else:
        yield from _classical(view, order, names, lines)


def _lines(view: CaseView, order: TrimOrder, door: Doorway | None) -> tuple[tuple[str, str], Lines]:
    """Inner edges of the casing; x from the left edge of the opening or case that it frames."""
    case, size = view.case, view.plan.outside
    if case.kind == "hung":
        assert door is not None
        gap = max(0, min(door.widths) - _stops(door) - door.hinge_gap - size.width)
        wide, reveal = door.widths[0], order.reveal
        edge = wide - gap - order.overlap if order.hide_gap else wide + reveal
        if door.hinge_side == "right":
            left, right = door.heights[0], door.heights[min(1, len(door.heights) - 1)]
            # the latch is at the left: the same picture in a mirror
            lines = (wide - edge, left + reveal), (wide + reveal, right + reveal), 0
            return ("latch", "hinge"), lines
        highs = (*door.heights[:2], door.heights[0])
        return ("hinge", "latch"), ((-reveal, highs[0] + reveal), (edge, highs[1] + reveal), 0)
    t = view.thickness - order.reveal
    top = case.above_floor + size.height - t
    frame = size.width
    if case.kind == "built-in" and door is not None:
        opening = min(door.widths) - _stops(door)
        aside = max(0, opening - size.width) // 2
        return ("left", "right"), (
            (aside + t, top),
            (opening - aside - t, top),
            case.above_floor,
        )
    on = 0 if order.baseboard is None else view.job.moulding(order.baseboard).width
    return ("left", "right"), ((t, top), (frame - t, top), case.above_floor + on)


def _stops(door: Doorway) -> Ticks:
    return 2 * door.stop if door.stop_stays and door.stop else 0


def _plain(
    view: CaseView, order: TrimOrder, names: tuple[str, str], lines: Lines
) -> Iterator[Needs]:
    """Mitred, each piece runs to the outline of the set; butted, the head lies on the legs."""
    assert order.casing is not None
    (left, left_top), (right, right_top), foot = lines
    legs = view.job.moulding(order.casing)
    across = view.job.moulding(order.head or order.casing)
    outline = (left - legs.width, right + legs.width)
    up = across.width if order.corners == "mitre" else 0
    for name, top in zip(names, (left_top, right_top), strict=True):
        yield f"leg-{name}", legs.name, top + up - foot
    yield "head", across.name, outline[1] - outline[0]


def _classical(
    view: CaseView, order: TrimOrder, names: tuple[str, str], lines: Lines
) -> Iterator[Needs]:
    """Blocks are centred where the middle lines of legs and head cross; plinths under the legs."""
    assert order.casing is not None
    (left, left_top), (right, right_top), foot = lines
    legs = view.job.moulding(order.casing)
    across = view.job.moulding(order.head or order.casing)
    side = max(legs.width, across.width) + order.larger
    if order.block is not None:
        side = view.job.moulding(order.block).width
    plinth = _plinth(view, order, legs.width)
    for name, top in zip(names, (left_top, right_top), strict=True):
        under_block = -(-(2 * top + across.width - side) // 2)
        yield f"leg-{name}", legs.name, under_block - plinth - foot
    middles = (2 * left - legs.width, 2 * right + legs.width)
    yield "head", across.name, (middles[1] - middles[0] - 2 * side) // 2
    for name in names:
        if order.plinth is not None:
            yield f"plinth-{name}", order.plinth, plinth
        if order.block is not None:
            yield f"block-{name}", order.block, side


def _plinth(view: CaseView, order: TrimOrder, casing: Ticks) -> Ticks:
    """Height of a plinth: given, else 1-1/2 widths up to the eighth or mm, over the base."""
    if order.plinth_height is not None:
        return order.plinth_height
    wide = casing + order.larger
    if order.plinth is not None:
        wide = view.job.moulding(order.plinth).width
    inch = view.unit == "in"
    step = TICKS_PER_INCH // 8 if inch else TICKS_PER_MM
    steps = -(-3 * wide // 2 // step) if wide % 2 == 0 else -(-3 * wide // (2 * step))
    over = TICKS_PER_INCH // 4 if inch else 6 * TICKS_PER_MM
    base = 0 if order.room_baseboard is None else order.room_baseboard + over
    return max(steps * step, base)


def _baseboard(view: CaseView, order: TrimOrder) -> Iterator[Needs]:
    """Outside corners are mitred to the baseboard's own face; an alcove has a front alone."""
    if order.baseboard is None:
        return
    board, size, door = view.job.moulding(order.baseboard), view.plan.outside, _place(view)
    if view.case.kind == "built-in" and door is not None:
        long = max(door.widths)
        if order.casing is not None and order.set in ("plain", "classical"):
            _, ((left, _), (right, _), _) = _lines(view, order, door)
            long = right - left
        yield "base-front", board.name, long
        return
    yield "base-front", board.name, board.thickness + size.width + board.thickness
    for side in ("left", "right"):
        yield f"base-{side}", board.name, size.depth + board.thickness


def _scribe(view: CaseView, order: TrimOrder) -> Iterator[Needs]:
    if order.scribe is None:
        return
    door, size = _place(view), view.plan.outside
    for side in ("left", "right"):
        yield f"scribe-{side}", order.scribe, view.case.above_floor + size.height
    if order.scribe_head:
        yield "scribe-head", order.scribe, size.width if door is None else max(door.widths)


def _band(view: CaseView, order: TrimOrder) -> Iterator[Needs]:
    """Every front edge that has no lip of its own."""
    if order.band is None:
        return
    size, t, case = view.plan.outside, view.thickness, view.case
    lengths = {"side-left": size.height, "side-right": size.height}
    lengths |= dict.fromkeys(("top", "bottom"), size.width - 2 * t)
    inside = size.height - 2 * t - case.raised_bottom
    lengths |= {f"upright-{n}": inside for n in range(1, len(view.bays))}
    if case.lip is None:
        shorter = case.pin_clearance if case.fixing == "pins" else 0
        lengths |= {
            shelf_part_id(view, bay.bay.number, shelf.index).removeprefix(f"{case.name}/"): (
                bay.bay.inside.width - shorter
            )
            for bay in view.bays
            for shelf in bay.bay.shelves
        }
    for name, length in lengths.items():
        yield f"band-{name}", order.band, length
