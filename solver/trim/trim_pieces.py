"""Every piece of trim of one case as planned: what, where, how long, on the case or on the wall.

Also the trade's allowance of waste for running trim, to hold beside the sticks that are planned.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from math import ceil

from solver.carcass.boards_of_case import lip_pieces
from solver.carcass.settled_job import PlannedCase
from solver.carcass.trim_face import (
    Block,
    block_of,
    doorway,
    face_of,
    leg_moulding,
    new_casing,
    plinth_of,
)
from solver.job.doorway import Doorway
from solver.job.job import Job
from solver.plan.plan import Option
from solver.plan.swinging import TrimChoice
from solver.plan.trimming import Explained, FluteLayout, TrimPiece
from solver.trim.flutes import flutes
from solver.trim.moulding_pieces import TrimCut, trim_cuts
from solver.units import Ticks, with_unit

PUT_ON_LAST = "stays; put on last, with the case hung and opened all the way"
BUILT_IN = "stays; fitted to the walls once the case stands"
ON_CASE = "on the case"


@dataclass(frozen=True)
class TrimmedCase(PlannedCase):
    """A case as planned, and what its trim depends on."""

    @property
    def depth(self) -> Ticks:
        """Inside depth [tick]."""
        return self.planned.bays[0].inside.depth

    @property
    def flutes(self) -> FluteLayout | None:
        """The flutes on each leg, where any are asked for."""
        order = new_casing(self.case)
        if order is None:
            return None
        return flutes(order, leg_moulding(self.job, order).width, self.job.unit)

    @property
    def door(self) -> Doorway | None:
        """The place it goes into."""
        return doorway(self.job, self.case)

    def choice(self, side: str) -> TrimChoice | None:
        """Whether the leg at that side travels; None where nothing swings."""
        strips = self.planned.swing.trim if self.planned.swing else ()
        return next((one for one in strips if one.name == f"casing leg, {side} side"), None)

    @property
    def proud(self) -> Ticks:
        """The case's face on the room's side in front of the wall; below 0 behind it [tick]."""
        door = self.door
        if door is None or self.case.kind != "hung":
            return 0
        leads = door.stands_out - door.set_back
        if door.swing != "in":
            return leads
        jamb = self.planned.outside.depth if door.jamb_depth is None else door.jamb_depth
        return self.planned.outside.depth - leads - jamb

    @property
    def lift(self) -> Ticks:
        """How far trim that travels stays off the floor: as far as the case [tick]."""
        door = self.door
        clear = 0 if door is None else door.floor_to_clear + door.floor_gap
        return max(self.case.above_floor, clear)


def pieces_of(trimmed: TrimmedCase) -> tuple[TrimPiece, ...]:
    """Return every piece of a case's trim, in the order: casing, toe and foot, scribes, bands,
    lips.
    """
    cuts = trim_cuts(trimmed.job, trimmed.case, trimmed.counts, trimmed.depth)
    casing = [cut for cut in cuts if _part(cut, trimmed) in _CASING]
    rest = [cut for cut in cuts if _part(cut, trimmed) not in _CASING]
    return (
        *(_cut_piece(trimmed, cut) for cut in casing),
        *_blocks(trimmed),
        *_old_casing(trimmed),
        *_toe(trimmed),
        *(_cut_piece(trimmed, cut) for cut in rest),
        *_lips(trimmed),
    )


_CASING = ("leg", "head", "plinth", "block")


def _piece_name(cut: TrimCut, trimmed: TrimmedCase) -> str:
    return cut.id.removeprefix(f"{trimmed.case.name}/trim-")


def _part(cut: TrimCut, trimmed: TrimmedCase) -> str:
    return _piece_name(cut, trimmed).partition("-")[0]


def _cut_piece(trimmed: TrimmedCase, cut: TrimCut) -> TrimPiece:
    part, _, side = _piece_name(cut, trimmed).partition("-")
    moulding = trimmed.job.moulding(cut.moulding)
    travels, why = _travels(trimmed, part, side)
    width = moulding.width
    if part in ("plinth", "block"):
        width = _size(trimmed, part).width
    return TrimPiece(
        id=cut.id,
        case=trimmed.case.name,
        name=_name(part, side),
        where=_where(part, side),
        got="moulding",
        moulding=cut.moulding,
        length=cut.length - _hung_clear(trimmed, part, travels=travels),
        width=width,
        thickness=moulding.thickness,
        ends=cut.ends,
        cut_length=cut.cut,
        travels=travels,
        why=why,
    )


def _hung_clear(trimmed: TrimmedCase, part: str, *, travels: bool) -> Ticks:
    """How much shorter a leg is that travels: it clears the floor and the head [tick]."""
    if trimmed.case.kind != "hung" or not travels or part != "leg":
        return 0
    assert trimmed.case.trim is not None
    return trimmed.lift + trimmed.case.trim.joint_gap


def _travels(trimmed: TrimmedCase, part: str, side: str) -> tuple[bool, str]:
    kind = trimmed.case.kind
    if part in ("band", "lip"):
        return True, ON_CASE
    if kind == "hung":
        if part in ("head", "block"):
            return False, PUT_ON_LAST
        choice = trimmed.choice(side)
        if choice is None:
            return False, PUT_ON_LAST
        if part == "plinth":
            return choice.travels, f"goes with the leg on it, {side} side"
        return choice.travels, choice.why
    if kind == "built-in" and trimmed.door is not None:
        return False, BUILT_IN
    return True, ON_CASE


def _name(part: str, side: str) -> str:
    names = {
        "head": "head casing",
        "block": "corner block",
        "plinth": "plinth block",
        "base": "baseboard" if side == "front" else "baseboard return",
        "scribe": "scribe strip",
        "band": "edge band",
    }
    return names.get(part, "casing leg")


def _where(part: str, side: str) -> str:
    if part == "head":
        return "over the opening"
    if part == "scribe" and side == "head":
        return "over the case"
    if part == "band":
        return side.replace("-", " ")
    return side if part == "base" else f"{side} side"


def _size(trimmed: TrimmedCase, part: str) -> Block:
    order = trimmed.case.trim
    assert order is not None
    return (plinth_of if part == "plinth" else block_of)(trimmed.job, order)


def _blocks(trimmed: TrimmedCase) -> Iterator[TrimPiece]:
    """Yield plinths and corner blocks that are not cut from a moulding."""
    order, face = new_casing(trimmed.case), face_of(trimmed.job, trimmed.case)
    if order is None or face is None or order.set != "classical":
        return
    for part, stock in (("plinth", order.plinth), ("block", order.block)):
        size = _size(trimmed, part)
        for leg in face.legs if stock is None else ():
            travels, why = _travels(trimmed, part, leg.side)
            yield TrimPiece(
                id=f"{trimmed.case.name}/trim-{part}-{leg.side}",
                case=trimmed.case.name,
                name=_name(part, leg.side),
                where=_where(part, leg.side),
                got="block",
                length=size.height,
                width=size.width,
                thickness=size.thickness,
                ends=("square", "square"),
                travels=travels,
                why=why,
            )


def _toe(trimmed: TrimmedCase) -> Iterator[TrimPiece]:
    """Yield the toe under a raised bottom, which the plan cuts out of a sheet."""
    for part in trimmed.parts:
        if part.name == "toe":
            yield TrimPiece(
                id=part.id,
                case=trimmed.case.name,
                name="toe",
                where="under the bottom board",
                got="sheet",
                length=max(part.length, part.width),
                width=min(part.length, part.width),
                thickness=part.thickness,
                ends=("square", "square"),
                travels=True,
                why=ON_CASE,
            )


def _old_casing(trimmed: TrimmedCase) -> Iterator[TrimPiece]:
    """Yield the old trim that the doorway lists, put back where it was."""
    order, door, swing = trimmed.case.trim, trimmed.door, trimmed.planned.swing
    if order is None or order.set != "old" or door is None:
        return
    chosen = {choice.name: choice for choice in swing.trim} if swing else {}
    for at, strip in enumerate(door.trim, start=1):
        left = (strip.side == "hinge") == ((door.hinge_side or "left") == "left")
        high = door.heights[:2][0 if left else -1] + strip.reveal
        choice = chosen.get(strip.name)
        travels = choice is not None and choice.travels
        why = choice.why if choice else "goes back where it was"
        yield TrimPiece(
            id=f"{trimmed.case.name}/trim-old-{at}",
            case=trimmed.case.name,
            name=strip.name,
            where=f"{strip.side} side, {'room' if strip.face == 'room' else 'far'} face",
            got="there",
            length=high - (trimmed.lift + order.joint_gap if travels else 0),
            width=strip.width,
            thickness=strip.thickness,
            ends=("square", "square"),
            travels=travels,
            why=why,
        )


def _lips(trimmed: TrimmedCase) -> Iterator[TrimPiece]:
    """Yield the lip on the front edge of each shelf."""
    for ident, name, length in lip_pieces(trimmed.job, trimmed.case, trimmed.counts):
        moulding = trimmed.job.moulding(name)
        shelf = ident.removeprefix(f"{trimmed.case.name}/lip-").replace("-", " ")
        yield TrimPiece(
            id=ident,
            case=trimmed.case.name,
            name="shelf lip",
            where=shelf if "shelf" in shelf else f"shelf {shelf}",
            got="moulding",
            moulding=name,
            length=length,
            width=moulding.width,
            thickness=moulding.thickness,
            ends=("square", "square"),
            cut_length=length,
            travels=True,
            why=ON_CASE,
        )


PAINTED_WASTE, CLEAR_WASTE = Decimal("0.05"), Decimal("0.10")
"""Share of running trim that is wasted: woodweb.com Waste_Allowance_for_Running_Trim [-]."""


def with_waste(need: int, waste: Decimal) -> int:
    """Return how much is bought where a share is wasted: need / (1 - waste), rounded up.

    woodweb.com Quantifying_the_Waste_Factor.
    """
    return ceil(need / (1 - waste))


def allowances(job: Job, option: Option) -> Iterator[Explained]:
    """Yield, for each moulding, what the allowance would buy and what the plan buys."""
    waste = CLEAR_WASTE if job.finished.kind == "clear" else PAINTED_WASTE
    for name in dict.fromkeys(stick.stock for stick in option.mouldings):
        sticks = [stick for stick in option.mouldings if stick.stock == name]
        need = sum(piece.length for stick in sticks for piece in stick.pieces)
        planned = with_unit(sum(stick.length for stick in sticks), job.unit)
        yield Explained(
            what=f"{name} by the trade's allowance",
            value=f"{with_unit(with_waste(need, waste), job.unit)} (the plan's sticks: {planned})",
            formula=f"need / (1 - {waste}), and one stick to spare where it is stained",
            numbers=f"{with_unit(need, job.unit)} / {1 - waste}",
            source="woodweb.com Waste_Allowance_for_Running_Trim, Quantifying_the_Waste_Factor; "
            "a plan of the sticks says it exactly",
        )
