"""Where the casing of a case stands, how long its pieces are, and which strips the swing must pass.

The trade's arithmetic: casing stands a reveal back from the edge that it frames. With corner
blocks the leg is opening height + reveal - plinth, and the head between the blocks is opening
width + 2 reveals. Mitred, the head gains two casing widths and each leg one.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from solver.carcass.outline import outside_outline, outside_width
from solver.job.case import Case
from solver.job.case_fittings import TrimOrder
from solver.job.doorway import Doorway, Trim
from solver.job.job import Job
from solver.job.materials import MouldingStock
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit

Side = Literal["hinge", "latch", "left", "right"]
EIGHTH = TICKS_PER_INCH // 8
OVER_BASEBOARD = {"in": TICKS_PER_INCH // 4, "mm": 6 * TICKS_PER_MM}
"""A plinth is a little higher than the base: chestofbooks.com 169-Plinth-Blocks; how much:
common practice, no source [tick]."""


@dataclass(frozen=True)
class CasingLeg:
    """Where one leg of casing stands.

    Attributes
    ----------
    side
        Hinge or latch side of a hung case, left or right of any other.
    covers
        Its inner edge over the opening; below 0 back from the opening's edge [tick].
    height
        Lower edge of the head above the floor, at this leg [tick].
    wall
        From the opening's edge to a wall at right angles; None where none is near [tick].
    """

    side: Side
    covers: Ticks
    height: Ticks
    wall: Ticks | None = None


@dataclass(frozen=True)
class CasingFace:
    """The casing of one case, seen from the room.

    Attributes
    ----------
    opening
        Width between the edges that the legs are measured from [tick].
    legs
        Hinge side first, or left.
    foot
        Lower end of the legs above the floor [tick].
    cover
        What the head must cover above its lower edge before it bears on anything [tick].
    on_case
        True where it stands on the case's own edges and not on a wall.
    """

    opening: Ticks
    legs: tuple[CasingLeg, CasingLeg]
    foot: Ticks
    cover: Ticks = 0
    on_case: bool = False

    @property
    def inner(self) -> Ticks:
        """Between the inner edges of the legs [tick]."""
        return self.opening - sum(leg.covers for leg in self.legs)


@dataclass(frozen=True)
class Block:
    """A plinth or a corner block [tick]."""

    width: Ticks
    height: Ticks
    thickness: Ticks


def new_casing(case: Case) -> TrimOrder | None:
    """Return the order of new casing that names its moulding; None for any other trim."""
    order = case.trim
    new = order is not None and order.set in ("plain", "classical") and order.casing is not None
    return order if new else None


def leg_moulding(job: Job, order: TrimOrder) -> MouldingStock:
    """Return the moulding of the legs."""
    assert order.casing is not None
    return job.moulding(order.casing)


def head_moulding(job: Job, order: TrimOrder) -> MouldingStock:
    """Return the moulding of the head."""
    return job.moulding(order.head) if order.head else leg_moulding(job, order)


def doorway(job: Job, case: Case) -> Doorway | None:
    """Return the place that a case goes into, where it names one."""
    return next((one for one in job.doorways if one.name == case.doorway), None)


def face_of(job: Job, case: Case) -> CasingFace | None:
    """Return where new casing stands; None where there is none. Sizes must be settled."""
    order, door = new_casing(case), doorway(job, case)
    if order is None:
        return None
    if case.kind == "hung":
        return None if door is None else _of_doorway(job, case, order, door)
    return _of_case(job, case, order, door if case.kind == "built-in" else None)


def latch_gap(job: Job, case: Case, door: Doorway) -> Ticks:
    """Between a hung case and the latch jamb at rest [tick]."""
    return door.clear_width - door.hinge_gap - outside_width(job, case)


def _of_doorway(job: Job, case: Case, order: TrimOrder, door: Doorway) -> CasingFace:
    """Legs beside the opening; at the latch over it, to hide the gap, unless that is not wished."""
    left = (door.hinge_side or "left") == "left"
    at_hinge, at_latch = (0, -1) if left else (-1, 0)
    highs = door.heights[:2]
    covers = max(latch_gap(job, case, door), 0) + order.overlap
    if not order.hide_gap:
        covers = -order.reveal
    return CasingFace(
        opening=door.widths[0],
        legs=(
            CasingLeg("hinge", -order.reveal, highs[at_hinge] + order.reveal, door.wall_by_hinge),
            CasingLeg("latch", covers, highs[at_latch] + order.reveal, door.wall_by_latch),
        ),
        foot=0,
    )


def _of_case(job: Job, case: Case, order: TrimOrder, alcove: Doorway | None) -> CasingFace:
    """Legs on the sides' front edges, a reveal back; of an alcove over the gap onto its wall.

    Legs on a case with baseboard round its foot stand on that.
    """
    t, (wide, high) = job.thickness(case.material), outside_outline(job, case)
    over, top = t - order.reveal, case.above_floor + high - t + order.reveal
    if alcove is None:
        legs = CasingLeg("left", over, top), CasingLeg("right", over, top)
        base = 0 if order.baseboard is None else job.moulding(order.baseboard).width
        return CasingFace(wide, legs, case.above_floor + base, cover=0, on_case=True)
    gap = max(alcove.clear_width - wide, 0) // 2
    walls = alcove.wall_by_hinge, alcove.wall_by_latch
    if alcove.hinge_side == "right":
        walls = walls[1], walls[0]
    return CasingFace(
        opening=alcove.clear_width,
        legs=(
            CasingLeg("left", gap + over, top, walls[0]),
            CasingLeg("right", gap + over, top, walls[1]),
        ),
        foot=case.above_floor,
        cover=max(0, max(alcove.heights) - top),
    )


def side_gap(wide: Ticks, widths: tuple[Ticks, ...]) -> Ticks:
    """Widest gap at each side of a case that stands in the middle, rounded up [tick]."""
    return -(-max(max(widths) - wide, 0) // 2)


def plinth_of(job: Job, order: TrimOrder) -> Block:
    """Return the size of a plinth: of its moulding, else the casing's and a little more."""
    casing = leg_moulding(job, order)
    width, thick = casing.width + order.larger, casing.thickness + order.thicker
    if order.plinth is not None:
        stock = job.moulding(order.plinth)
        width, thick = stock.width, stock.thickness
    return Block(width, order.plinth_height or plinth_height(order, width, job.unit), thick)


def plinth_height(order: TrimOrder, width: Ticks, unit: Unit) -> Ticks:
    """1-1/2 times the width, rounded up, and a little over the room's baseboard [tick].

    1-1/2 to 2 times: skinscanapp.com what-is-plinth-block-moulding.
    """
    step = EIGHTH if unit == "in" else TICKS_PER_MM
    over = 0 if order.room_baseboard is None else order.room_baseboard + OVER_BASEBOARD[unit]
    return max(-(-3 * width // (2 * step)) * step, over)


def block_of(job: Job, order: TrimOrder) -> Block:
    """Return the size of a corner block: a square, of its moulding or a little over the casing."""
    casing, head = leg_moulding(job, order), head_moulding(job, order)
    side = max(casing.width, head.width) + order.larger
    thick = max(casing.thickness, head.thickness) + order.thicker
    if order.block is not None:
        stock = job.moulding(order.block)
        side, thick = stock.width, stock.thickness
    return Block(side, side, thick)


def leg_length(job: Job, order: TrimOrder, face: CasingFace, leg: CasingLeg) -> Ticks:
    """Return the finished length of a leg that stays; long point where mitred [tick]."""
    high, head = leg.height - face.foot, head_moulding(job, order).width
    if order.set == "classical":
        lower = (block_of(job, order).width - head) // 2
        return high - lower - plinth_of(job, order).height
    return high + (head if order.corners == "mitre" else 0)


def head_length(job: Job, order: TrimOrder, face: CasingFace) -> Ticks:
    """Return the finished length of the head; long point to long point where mitred [tick]."""
    casing = leg_moulding(job, order).width
    if order.set == "classical":
        return face.inner - (block_of(job, order).width - casing)
    return face.inner + 2 * casing


def outer_reach(job: Job, order: TrimOrder, leg: CasingLeg) -> Ticks:
    """How far a leg, or the plinth under it, reaches beyond the opening's edge [tick]."""
    casing = leg_moulding(job, order).width
    more = 0
    if order.set == "classical":
        widest = max(plinth_of(job, order).width, block_of(job, order).width)
        more = max(widest - casing, 0) // 2
    return casing - leg.covers + more


def leg_name(side: Side) -> str:
    """Return the name of a leg, in the swing as in the list of trim."""
    return f"casing leg, {side} side"


def doorway_trim(job: Job, case: Case, door: Doorway) -> tuple[Trim, ...]:
    """Return the strips beside a hung case: those measured, or the new legs in their place.

    New casing takes the place of all old trim on the room's face. A pilaster counts with its
    plinth: as wide and as thick as that.
    """
    order, face = new_casing(case), face_of(job, case)
    if order is None or face is None:
        return door.trim
    behind = tuple(one for one in door.trim if one.face == "behind")
    return (*behind, *(_strip(job, order, leg) for leg in face.legs))


def _strip(job: Job, order: TrimOrder, leg: CasingLeg) -> Trim:
    casing = leg_moulding(job, order)
    width, thick, edge = casing.width, casing.thickness, leg.covers
    if order.set == "classical":
        plinth = plinth_of(job, order)
        edge += max(plinth.width - width, 0) // 2
        width, thick = max(width, plinth.width), max(thick, plinth.thickness)
    return Trim(
        name=leg_name(leg.side),
        side="hinge" if leg.side == "hinge" else "latch",
        width=width,
        thickness=thick,
        reveal=max(0, -edge),
        covers=max(0, edge),
    )
