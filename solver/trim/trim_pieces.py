"""Every piece of trim of one case as planned: what, where, how long, on the case or on the wall.

The trade's allowance for running trim, beside what the sticks are planned to be.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from math import ceil

from solver.carcass.boards_of_case import lip_pieces
from solver.carcass.decided import PlannedCase
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

LAST = "stays; put on last, with the case hung and opened all the way"
BUILT_IN = "stays; fitted to the walls once the case stands"
ON_CASE = "on the case"


@dataclass(frozen=True)
class Trimmed(PlannedCase):
    """A case whose trim is worked out."""

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


def pieces_of(one: Trimmed) -> tuple[TrimPiece, ...]:
    """Return every piece of a case's trim, in the order: casing, toe and foot, scribes, bands,
    lips.
    """
    cuts = trim_cuts(one.job, one.case, one.counts, one.depth)
    casing = [cut for cut in cuts if _part(cut, one) in _CASING]
    rest = [cut for cut in cuts if _part(cut, one) not in _CASING]
    return (
        *(_cut_piece(one, cut) for cut in casing),
        *_blocks(one),
        *_old(one),
        *_toe(one),
        *(_cut_piece(one, cut) for cut in rest),
        *_lips(one),
    )


_CASING = ("leg", "head", "plinth", "block")


def _short(cut: TrimCut, one: Trimmed) -> str:
    return cut.id.removeprefix(f"{one.case.name}/trim-")


def _part(cut: TrimCut, one: Trimmed) -> str:
    return _short(cut, one).partition("-")[0]


def _cut_piece(one: Trimmed, cut: TrimCut) -> TrimPiece:
    part, _, side = _short(cut, one).partition("-")
    moulding = one.job.moulding(cut.moulding)
    travels, why = _travels(one, part, side)
    width = moulding.width
    if part in ("plinth", "block"):
        width = _size(one, part).width
    return TrimPiece(
        id=cut.id,
        case=one.case.name,
        name=_name(part, side),
        where=_where(part, side),
        got="moulding",
        moulding=cut.moulding,
        length=cut.length - _shorter(one, part, travels=travels),
        width=width,
        thickness=moulding.thickness,
        ends=cut.ends,
        cut_length=cut.cut,
        travels=travels,
        why=why,
    )


def _shorter(one: Trimmed, part: str, *, travels: bool) -> Ticks:
    """What comes off a leg that travels: it hangs clear of the floor and of the head [tick]."""
    if one.case.kind != "hung" or not travels or part != "leg":
        return 0
    assert one.case.trim is not None
    return one.lift + one.case.trim.joint_gap


def _travels(one: Trimmed, part: str, side: str) -> tuple[bool, str]:
    kind = one.case.kind
    if part in ("band", "lip"):
        return True, ON_CASE
    if kind == "hung":
        if part in ("head", "block"):
            return False, LAST
        choice = one.choice(side)
        if choice is None:
            return False, LAST
        if part == "plinth":
            return choice.travels, f"goes with the leg on it, {side} side"
        return choice.travels, choice.why
    if kind == "built-in" and one.door is not None:
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


def _size(one: Trimmed, part: str) -> Block:
    order = one.case.trim
    assert order is not None
    return (plinth_of if part == "plinth" else block_of)(one.job, order)


def _blocks(one: Trimmed) -> Iterator[TrimPiece]:
    """Plinths and corner blocks that are cut from no moulding."""
    order, face = new_casing(one.case), face_of(one.job, one.case)
    if order is None or face is None or order.set != "classical":
        return
    for part, stock in (("plinth", order.plinth), ("block", order.block)):
        size = _size(one, part)
        for leg in face.legs if stock is None else ():
            travels, why = _travels(one, part, leg.side)
            yield TrimPiece(
                id=f"{one.case.name}/trim-{part}-{leg.side}",
                case=one.case.name,
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


def _toe(one: Trimmed) -> Iterator[TrimPiece]:
    """The toe under a raised bottom; it comes out of a sheet, as the plan has it."""
    for part in one.parts:
        if part.name == "toe":
            yield TrimPiece(
                id=part.id,
                case=one.case.name,
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


def _old(one: Trimmed) -> Iterator[TrimPiece]:
    """The trim that the doorway lists, put back where it was."""
    order, door, swing = one.case.trim, one.door, one.planned.swing
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
            id=f"{one.case.name}/trim-old-{at}",
            case=one.case.name,
            name=strip.name,
            where=f"{strip.side} side, {'room' if strip.face == 'room' else 'far'} face",
            got="there",
            length=high - (one.lift + order.joint_gap if travels else 0),
            width=strip.width,
            thickness=strip.thickness,
            ends=("square", "square"),
            travels=travels,
            why=why,
        )


def _lips(one: Trimmed) -> Iterator[TrimPiece]:
    """A lip on the front edge of each shelf."""
    for ident, name, length in lip_pieces(one.job, one.case, one.counts):
        moulding = one.job.moulding(name)
        shelf = ident.removeprefix(f"{one.case.name}/lip-").replace("-", " ")
        yield TrimPiece(
            id=ident,
            case=one.case.name,
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


PAINTED, CLEAR = Decimal("0.05"), Decimal("0.10")
"""woodweb.com Waste_Allowance_for_Running_Trim [-]."""


def with_waste(need: int, waste: Decimal) -> int:
    """Return what is bought where a share is lost: need / (1 - waste), rounded up.

    woodweb.com Quantifying_the_Waste_Factor.
    """
    return ceil(need / (1 - waste))


def allowances(job: Job, option: Option) -> Iterator[Explained]:
    """Yield, for each moulding, what the allowance would buy and what the plan buys."""
    waste = CLEAR if job.finished.kind == "clear" else PAINTED
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
