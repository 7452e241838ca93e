"""The part of :mod:`tests.mutations` that is about sheets, cuts, stock and sticks."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import TypeAlias

from solver.checking.findings import Code
from solver.plan.plan import Plan
from solver.plan.saw_cuts import Cut
from solver.plan.stocked import Part, Piece, Sheet, StickPiece
from solver.sequence.sequencing import sequence
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


def in_order(*changes: Change) -> Change:
    """Make changes, then put the cuts of all sheets in order anew."""

    def change(plan: Plan) -> Plan:
        plan = both(*changes)(plan)
        option = plan.options[0]
        ordered = sequence(option.sheets, plan.job.shop, option.parts)
        plan = put(plan, "options.0.sheets", ordered.sheets)
        return put(plan, "options.0.settings", ordered.settings)

    return change


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
    Code.PARTS_UNWANTED: in_order(
        in_option("parts", lambda parts: (*parts, CLEAT)), _alone(BOARDS, "hall/cleat", 600, 50)
    ),
    Code.CUT_PART_MISSING: in_order(_take("hall/toe")),
    Code.CUT_PART_REPEATED: in_order(_alone(BOARDS, "hall/toe", 1218, 60)),
    Code.CUT_PART_UNKNOWN: in_order(_alone(BOARDS, "hall/cleat", 600, 50)),
    Code.CUT_MATERIAL: in_order(_take("hall/toe"), _alone(BACKS, "hall/toe", 1218, 60)),
    Code.CUT_SIZE: in_option(f"sheets.0.pieces.{TOE_AT}.length", more(1)),
    Code.CUT_TURNED: in_order(
        _take("hall/bay-1-shelf-1"),
        _alone(BOARDS, "hall/bay-1-shelf-1", 204, 612, turned=True),
    ),
    Code.CUT_OUTSIDE: _edge_trim(mm(6) + 1),
    # 4 mm lie between two strips: the margin and a kerf of 3 mm.
    Code.CUT_KERF: in_option(f"sheets.0.pieces.{TOE_AT}.y", more(-mm(1) - 1)),
    Code.CUT_MARGIN: _margin(mm(1) + 1),
    Code.CUT_GUILLOTINE: in_order(
        in_job("shop.stages", "any"), _take(*_parts_of(_ROUND)), _another_sheet(BOARDS, _ROUND)
    ),
    Code.CUT_STAGES: in_order(
        _take(*_parts_of(_THREE)), _another_sheet(BOARDS, _THREE, _THREE_CUTS)
    ),
    Code.CUT_FIRST: in_job("shop.first_cut", "crosscut"),
    Code.CUT_KIND: in_option("sheets.0.cuts.17.kind", "rip"),
    Code.CUT_NUMBER: in_option("sheets.0.cuts.0.number", 2),
    Code.CUT_EDGE_TO_EDGE: _one_more_cut("rip", 1200, 6, 1000),
    Code.CUT_THROUGH: _one_more_cut("rip", TOE_Y + 30, 6, 6 + 1218 + 1),
    Code.CUT_FREED: in_option("sheets.0.cuts", lambda cuts: cuts[:-1]),
}

FIRST, LAST = "sheets.0.cuts.2", "sheets.0.cuts.17"
"""The first cut after trimming, and the last one."""


def _toe_too_wide(plan: Plan) -> Plan:
    """Set the fence a tick too wide for the toe: less than the margin, so it still lies free."""
    option = plan.options[0]
    cuts = option.sheets[0].cuts
    rip = next(i for i, cut in enumerate(cuts) if cut.setting == mm(60))
    row = next(i for i, row in enumerate(option.settings) if row.setting == mm(60))
    strip = cuts[rip].comes_off
    ends = [i for i, cut in enumerate(cuts) if strip is not None and cut.panel == strip.name]
    return both(
        in_option(f"settings.{row}.setting", more(1)),
        in_option(f"sheets.0.cuts.{rip}.setting", more(1)),
        in_option(f"sheets.0.cuts.{rip}.comes_off.width", more(1)),
        in_option(f"sheets.0.cuts.{rip}.goes_on.width", more(-1)),
        *(in_option(f"sheets.0.cuts.{i}.comes_off.width", more(1)) for i in ends),
        *(in_option(f"sheets.0.cuts.{i}.goes_on.width", more(1)) for i in ends),
    )(plan)


SAWING: dict[Code, Change] = {
    Code.CUT_PANEL: in_option(f"{LAST}.panel", "another"),
    Code.CUT_SETTING: in_option("sheets.0.cuts.0.setting", more(1)),
    Code.CUT_LEFT: in_option(f"{FIRST}.goes_on.width", more(1)),
    Code.CUT_NAMED: in_option(f"{FIRST}.comes_off.what", "blank"),
    Code.CUT_PART_SIZE: _toe_too_wide,
    Code.CUT_GUIDE: in_option(f"{LAST}.guide", "fence"),
    Code.CUT_SAW: in_job("shop.saws", ("mitre saw", "guided saw")),
    Code.CUT_MEASURED: in_option(f"{FIRST}.measured_from", "factory edge"),
    Code.CUT_CAUTION: in_option(f"{FIRST}.cautions", ()),
    Code.CUT_OFFCUT: in_option("sheets.0.offcuts.0.length", more(1)),
    Code.CUT_OFFCUT_USE: in_option("sheets.0.offcuts.0.enough_for", "lid"),
    Code.CUT_SETTINGS: in_option("settings.0.number", 2),
    Code.CUT_SETTINGS_ORDER: in_option("settings.0.cuts.0.cuts", (2, 1)),
    Code.CUT_STANDS: in_option("settings.0.as_it_stands", lambda old: not old),
}

STOCK: dict[Code, Change] = {
    Code.STOCK_UNKNOWN: in_option("sheets.0.stock", "birch ply 18, 3050 x 1525"),
    Code.STOCK_SIZE: in_job("sheets.0.length", more(1)),
    Code.STOCK_PRICE: in_job("sheets.0.price", Decimal("93.00")),
    Code.STOCK_SHOP: in_job("shop.edge_trim", more(1)),
    Code.STOCK_LIMIT: in_job("sheets.0.limit", 0),
    Code.STOCK_ON_HAND: in_order(
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


def _shorter_sticks(plan: Plan) -> Plan:
    """Sticks so short that two pieces of 600 mm and a cut leave 1 mm, not 1 mm for each."""
    short = mm(2 * 600 + 3 + 1)
    for at in (0, 1):
        plan = in_option(f"mouldings.{at}.length", short)(plan)
    return in_job(f"{LENGTH}.length", short)(plan)


LENGTH = "mouldings.0.lengths.1"
"""The 1800 mm sticks."""

STICKS: dict[Code, Change] = {
    Code.STICK_UNKNOWN: in_job(f"{LENGTH}.length", more(1)),
    Code.STICK_PRICE: in_job(f"{LENGTH}.price", Decimal("7.50")),
    Code.STICK_KERF: in_option("mouldings.0.kerf", mm(2)),
    Code.STICK_MARGIN: _shorter_sticks,
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
    Code.STICK_CUT_NUMBER: in_option("mouldings.1.cuts.0.number", 2),
    Code.STICK_CUT_END: in_option("mouldings.1.cuts.1.measured_from", "factory end"),
    Code.STICK_CUT_FREED: in_option("mouldings.1.cuts", lambda cuts: cuts[:1]),
    Code.STICK_CUT_STOP: in_option("mouldings.1.cuts.1.batch", 2),
}

SAWING_ALSO: dict[Code, frozenset[Code]] = {
    # What is cut is not as large as its part is said to be.
    Code.PARTS_LENGTH: frozenset({Code.CUT_PART_SIZE}),
    Code.PARTS_WIDTH: frozenset({Code.CUT_PART_SIZE}),
    Code.CUT_SIZE: frozenset({Code.CUT_PART_SIZE}),
    # The settings for trimming are those of the old trim.
    Code.CUT_OUTSIDE: frozenset({Code.CUT_SETTING}),
    # Where less than a kerf is left, the cut takes some of a piece, which is not whole then.
    Code.CUT_KERF: frozenset({Code.CUT_THROUGH, Code.CUT_NAMED}),
    # No cuts free what no cuts can free.
    Code.CUT_GUILLOTINE: frozenset({Code.CUT_FREED, Code.CUT_PART_SIZE}),
    # A cut with another number, or one more, or one less, is not in the settings.
    Code.CUT_NUMBER: frozenset({Code.CUT_SETTINGS}),
    Code.CUT_EDGE_TO_EDGE: frozenset({Code.CUT_PANEL, Code.CUT_SETTINGS}),
    Code.CUT_THROUGH: frozenset({Code.CUT_PANEL, Code.CUT_SETTINGS}),
    # A strip that is not cut again is called wrongly, and its part is not freed.
    Code.CUT_FREED: frozenset({Code.CUT_NAMED, Code.CUT_PART_SIZE, Code.CUT_SETTINGS}),
    Code.CUT_PANEL: frozenset({Code.CUT_NAMED, Code.CUT_PART_SIZE}),
    # Another setting leaves another size, and is not that of the row.
    Code.CUT_SETTING: frozenset({Code.CUT_LEFT, Code.CUT_SETTINGS}),
    # The fence belongs to another saw, which is said to stand otherwise.
    Code.CUT_GUIDE: frozenset({Code.CUT_SAW, Code.CUT_SETTINGS}),
}
"""What must come with some of the findings about cuts."""

CUTTING: dict[Code, Change] = {**SHEETS, **SAWING, **STOCK, **STICKS}
"""All of them."""
