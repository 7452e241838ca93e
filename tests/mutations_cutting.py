"""The part of :mod:`tests.mutations` that is about sheets, cuts, stock and sticks."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import TypeAlias

from solver.checking.findings import Code
from solver.cuts import Cut
from solver.plan import Part, Piece, Plan, Sheet, StickPiece
from tests.edits import both, in_job, in_option, more, put
from tests.two_bays_cutting import EDGES, cuts_of
from tests.two_bays_job import mm

Change: TypeAlias = Callable[[Plan], Plan]

BOARDS, BACKS = 0, 1
"""Sheets of the good plan, and stocks of its job."""
TOE_AT = 9
"""The toe is the last piece of the first sheet."""


def used_board(plan: Plan) -> Plan:
    """Bring the share of board used up to date."""
    option = plan.options[0]
    sheets = sum(sheet.length * sheet.width for sheet in option.sheets)
    parts = sum(part.length * part.width for part in option.parts)
    return put(plan, "options.0.scores.board_used", parts / sheets)


def _another_sheet(kind: int, pieces: tuple[Piece, ...], cuts: tuple[Cut, ...] = ()) -> Change:
    """Add a sheet that is on hand, with pieces on it, and keep the plan's figures true."""

    def change(plan: Plan) -> Plan:
        like = plan.options[0].sheets[kind]
        sheet: Sheet = like.model_copy(
            update={"on_hand": True, "price": None, "pieces": pieces, "cuts": cuts}
        )
        plan = in_job(f"sheets.{kind}.on_hand", 1)(plan)
        return used_board(put(plan, "options.0.sheets", lambda old: (*old, sheet)))

    return change


def _alone(kind: int, part: str, length: float, width: float, *, turned: bool = False) -> Change:
    """Add a sheet that is on hand with one piece on it, cut free."""
    piece = Piece(part=part, x=mm(6), y=mm(6), length=mm(length), width=mm(width), turned=turned)
    cuts = cuts_of(
        [
            *EDGES,
            ("rip", "rip", 6 + width + 1, 6, 2440, width),
            ("crosscut", "crosscut", 6 + length + 1, 6, 6 + width + 1, length),
        ]
    )
    return _another_sheet(kind, (piece,), cuts)


def _take(*parts: str) -> Change:
    """Take pieces off the first sheet."""
    return in_option(
        "sheets.0.pieces",
        lambda pieces: tuple(p for p in pieces if p.part not in parts),
    )


def _moved(part: str, x: float, y: float, length: float, width: float) -> Piece:
    return Piece(part=part, x=mm(x), y=mm(y), length=mm(length), width=mm(width), turned=False)


CLEAT = Part(
    id="hall/cleat",
    name="cleat",
    case="hall",
    material="birch ply 18",
    length=mm(600),
    width=mm(50),
    thickness=mm(18),
    grain="length",
)

# Four pieces that turn round each other: no line from edge to edge misses them all.
_ROUND = (
    _moved("hall/toe", 6, 6, 1218, 60),
    _moved("hall/bay-1-shelf-1", 6 + 1218 + 4, 6, 612, 204),
    _moved("hall/upright-1", 6, 6 + 60 + 4, 916, 212),
    _moved("hall/bay-1-shelf-2", 6 + 916 + 4, 6 + 204 + 4, 612, 204),
)
# A shelf with the toe above it, and a side beside both: crosscut, rip, crosscut.
_THREE = (
    _moved("hall/bay-1-shelf-1", 6, 6, 612, 204),
    _moved("hall/toe", 6, 6 + 204 + 4, 1218, 60),
    _moved("hall/side-left", 6 + 1218 + 4, 6, 1000, 212),
)
_THREE_CUTS = cuts_of(
    [
        *EDGES,
        ("crosscut", "crosscut", 6 + 1218 + 1, 6, 1220, 1218),
        ("rip", "rip", 6 + 204 + 1, 6, 1225, 204),
        ("crosscut", "crosscut", 6 + 612 + 1, 6, 211, 612),
        ("rip", "rip", 214 + 60 + 1, 6, 1225, 60),
        ("rip", "rip", 6 + 212 + 1, 1228, 2440, 212),
        ("crosscut", "crosscut", 1228 + 1000 + 1, 6, 219, 1000),
    ]
)


def _parts_of(pieces: tuple[Piece, ...]) -> tuple[str, ...]:
    return tuple(piece.part for piece in pieces)


def _one_more_cut(kind: str, at: float, start: float, end: float) -> Change:
    cut = cuts_of([(kind, kind, at, start, end, at)])[0]
    return in_option(
        "sheets.0.cuts",
        lambda cuts: (*cuts, cut.model_copy(update={"number": len(cuts) + 1})),
    )


def _margin(ticks: int) -> Change:
    return both(
        in_job("shop.margin", ticks),
        in_option("sheets.0.margin", ticks),
        in_option("sheets.1.margin", ticks),
    )


def _edge_trim(ticks: int) -> Change:
    return both(
        in_job("shop.edge_trim", ticks),
        in_option("sheets.0.edge_trim", ticks),
        in_option("sheets.1.edge_trim", ticks),
    )


TOE_Y = 6 + 3 * (212 + 4) + (204 + 4)
"""The toe is in the fifth strip."""

SHEETS: dict[Code, Change] = {
    Code.PARTS_UNWANTED: both(
        in_option("parts", lambda parts: (*parts, CLEAT)), _alone(BOARDS, "hall/cleat", 600, 50)
    ),
    Code.CUT_PART_MISSING: _take("hall/toe"),
    Code.CUT_PART_REPEATED: _alone(BOARDS, "hall/toe", 1218, 60),
    Code.CUT_PART_UNKNOWN: _alone(BOARDS, "hall/cleat", 600, 50),
    Code.CUT_MATERIAL: both(_take("hall/toe"), _alone(BACKS, "hall/toe", 1218, 60)),
    Code.CUT_SIZE: in_option(f"sheets.0.pieces.{TOE_AT}.length", more(1)),
    Code.CUT_TURNED: both(
        _take("hall/bay-1-shelf-1"),
        _alone(BOARDS, "hall/bay-1-shelf-1", 204, 612, turned=True),
    ),
    Code.CUT_OUTSIDE: _edge_trim(mm(6) + 1),
    # 4 mm lie between two strips: the margin and a kerf of 3 mm.
    Code.CUT_KERF: in_option(f"sheets.0.pieces.{TOE_AT}.y", more(-mm(1) - 1)),
    Code.CUT_MARGIN: _margin(mm(1) + 1),
    Code.CUT_GUILLOTINE: both(
        in_job("shop.stages", "any"), _take(*_parts_of(_ROUND)), _another_sheet(BOARDS, _ROUND)
    ),
    Code.CUT_STAGES: both(_take(*_parts_of(_THREE)), _another_sheet(BOARDS, _THREE, _THREE_CUTS)),
    Code.CUT_FIRST: in_job("shop.first_cut", "crosscut"),
    Code.CUT_NUMBER: in_option("sheets.0.cuts.0.number", 2),
    Code.CUT_EDGE_TO_EDGE: _one_more_cut("rip", 1200, 6, 1000),
    Code.CUT_THROUGH: _one_more_cut("rip", TOE_Y + 30, 6, 6 + 1218 + 1),
    Code.CUT_FREED: in_option("sheets.0.cuts", lambda cuts: cuts[:-1]),
}

STOCK: dict[Code, Change] = {
    Code.STOCK_UNKNOWN: in_option("sheets.0.stock", "birch ply 18, 3050 x 1525"),
    Code.STOCK_SIZE: in_job("sheets.0.length", more(1)),
    Code.STOCK_PRICE: in_job("sheets.0.price", Decimal("93.00")),
    Code.STOCK_SHOP: in_job("shop.edge_trim", more(1)),
    Code.STOCK_LIMIT: in_job("sheets.0.limit", 0),
    Code.STOCK_ON_HAND: both(
        _take("hall/toe"), _alone(BOARDS, "hall/toe", 1218, 60), in_job("sheets.0.on_hand", 0)
    ),
    Code.STOCK_ON_HAND_FIRST: in_job("sheets.0.on_hand", 1),
}


def _one_more_stick(part: str) -> Change:
    """Add a stick that is on hand with one lip on it."""

    def change(plan: Plan) -> Plan:
        plan = in_job("mouldings.0.lengths.0.on_hand", 1)(plan)
        piece = StickPiece(part=part, start=0, length=mm(600))
        stick = (
            plan.options[0].mouldings[0].model_copy(update={"length": mm(2400), "pieces": (piece,)})
        )
        return put(plan, "options.0.mouldings", lambda old: (*old, stick))

    return change


def _another_moulding(plan: Plan) -> Plan:
    plan = in_job(
        "mouldings", lambda old: (*old, old[0].model_copy(update={"name": "lip of oak"}))
    )(plan)
    return in_job("cases.0.lip.moulding", "lip of oak")(plan)


LENGTH = "mouldings.0.lengths.1"
"""The 1800 mm sticks."""

STICKS: dict[Code, Change] = {
    Code.STICK_UNKNOWN: in_job(f"{LENGTH}.length", more(1)),
    Code.STICK_PRICE: in_job(f"{LENGTH}.price", Decimal("7.50")),
    Code.STICK_KERF: in_option("mouldings.0.kerf", mm(2)),
    Code.STICK_LIMIT: in_job(f"{LENGTH}.limit", 0),
    Code.STICK_ON_HAND: in_job(f"{LENGTH}.on_hand", 0),
    Code.STICK_ON_HAND_FIRST: in_job(f"{LENGTH}.on_hand", 2),
    Code.STICK_OUTSIDE: in_option("mouldings.0.pieces.1.start", mm(1800 - 600) + 1),
    Code.STICK_APART: in_option("mouldings.0.pieces.1.start", more(-1)),
    Code.STICK_PART_MISSING: in_option("mouldings.0.pieces", lambda pieces: pieces[:1]),
    Code.STICK_PART_REPEATED: _one_more_stick("hall/lip-bay-1-shelf-1"),
    Code.STICK_PART_UNKNOWN: _one_more_stick("hall/lip-bay-3-shelf-1"),
    Code.STICK_LENGTH: in_option("mouldings.0.pieces.1.length", more(-1)),
    Code.STICK_MOULDING: _another_moulding,
}

CUTTING: dict[Code, Change] = {**SHEETS, **STOCK, **STICKS}
"""All of them."""
