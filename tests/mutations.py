"""For each rule of the checker, a change that breaks it in the good plan, and only it.

Many rules are broken from the side of the job (another thickness, another limit), which
leaves the plan in itself as it was. Where a change cannot help breaking another rule as
well, `also` names it.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from solver.checking.findings import Code
from solver.job.case import SizeRange
from solver.outcome import Status
from solver.plan.built import LinesApart
from solver.plan.plan import LeftOut, OpenSize, Option, Plan, ShortBy
from tests.edits import both, in_job, in_option, more, put
from tests.mutations_cutting import CUTTING, SAWING_ALSO, Change, in_order, used_board
from tests.mutations_hanging import HANGING
from tests.mutations_held import HELD
from tests.mutations_near import NEAR
from tests.mutations_sets import SETS
from tests.mutations_slack import SLACK, keeping_slack
from tests.mutations_strength import STRENGTH
from tests.mutations_swing import SWING
from tests.two_bays_job import mm


@dataclass(frozen=True)
class Mutation:
    """A change of the good plan, the code that must be found, and what must come with it."""

    code: Code
    change: Change
    also: frozenset[Code] = frozenset()


def _change_plan(**update: object) -> Change:
    return lambda plan: plan.model_copy(update=update)


def _unknown_option(name: str, counts: tuple[int, int]) -> Option:
    """An option for which nothing was found by the limit."""
    why = "nothing found by the limit"
    return Option.without_layout(name, {"hall": counts}, Status.UNKNOWN, why)


def _option_before(plan: Plan) -> Plan:
    plan = in_job("cases.0.shelves", (1, 2))(plan)
    return put(plan, "options", lambda old: (_unknown_option("1 shelf", (1, 1)), *old))


def _without_the_cheapest(plan: Plan) -> Plan:
    """Beside another option, none is marked as the cheapest."""
    other = _unknown_option("3 shelves", (3, 3))
    plan = in_job("cases.0.shelves", (2, 3))(plan)
    plan = plan.model_copy(update={"options": (*plan.options, other)})
    return in_option("tags", ("recommended", "best-looking"))(plan)


def _option_again(plan: Plan) -> Plan:
    return put(plan, "options", lambda old: (*old, _unknown_option("2 once more", (2, 2))))


PLAN: dict[Code, Change] = {
    Code.PLAN_UNIT: _change_plan(unit="in"),
    Code.PLAN_JOB_HASH: _change_plan(job_hash="0" * 64),
    Code.PLAN_NO_OPTIONS: _change_plan(options=()),
    Code.PLAN_RECOMMENDED_FIRST: _option_before,
    Code.PLAN_REPEATED: _option_again,
    Code.PLAN_TAGS: _without_the_cheapest,
}

BAY_1, BAY_2 = "cases.0.bays.0", "cases.0.bays.1"
EMPTY = f"{BAY_1}.openings.2"
"""The opening in which nothing stands."""
BAYS = (("hall", 1), ("hall", 2))
NOT_SHARED = both(
    in_option("lines", ()), in_option("lines_apart", (LinesApart(bays=BAYS, because="fit"),))
)
"""Its bays are said to have lines of their own, so that everything fits."""


def _headrooms(bay: int, opening: int, by: int) -> Change:
    """Bring the headroom shown of every thing in an opening up to date."""

    def change(plan: Plan) -> Plan:
        path = f"options.0.cases.0.bays.{bay}.openings.{opening}.items"
        return put(
            plan,
            path,
            lambda things: tuple(
                t.model_copy(update={"headroom": t.headroom + by}) for t in things
            ),
        )

    return change


def _all_openings(field: str, value: int) -> Change:
    return both(
        *(
            in_option(f"cases.0.bays.{b}.openings.{k}.{field}", value)
            for b in (0, 1)
            for k in range(3)
        )
    )


LAYOUT: dict[Code, Change] = {
    Code.LAYOUT_CASES: in_option("cases.0.name", "another"),
    Code.LAYOUT_CASE_AS_ORDERED: in_option("cases.0.kind", "standing"),
    Code.LAYOUT_BAYS: in_option(f"{BAY_2}.number", 3),
    Code.LAYOUT_OPENINGS: in_option(f"{EMPTY}.index", 3),
    Code.LAYOUT_SHELF_COUNT: in_job("cases.0.shelves", 3),
    Code.LAYOUT_SHELF_COUNT_SHOWN: both(
        in_job("cases.0.shelves", (1, 2)), in_option("shelf_counts.hall", (2, 1))
    ),
    Code.LAYOUT_OUTSIDE_WIDTH: in_job("cases.0.width", more(1)),
    Code.LAYOUT_OUTSIDE_HEIGHT: in_job("cases.0.height", more(1)),
    Code.LAYOUT_WIDTH_STEP: both(
        in_job("cases.0.width", SizeRange(least=mm(1200), most=mm(1300))),
        in_job("shop.cutting_step", mm(4)),
        in_option("stages.2.value", 1300.0 - 1254.0),
        in_option("stages.2.bound", 1300.0 - 1254.0),
    ),
    Code.LAYOUT_HEIGHT_STEP: both(
        in_job("cases.0.height", SizeRange(least=mm(900), most=mm(1100))),
        in_job("shop.cutting_step", mm(3)),
        in_option("stages.2.value", 1100.0 - 1000.0),
        in_option("stages.2.bound", 1100.0 - 1000.0),
    ),
    Code.LAYOUT_OPEN_SIZES: in_option(
        "open_sizes",
        (
            OpenSize(
                case="hall", what="depth", least=mm(200), most=mm(240), wish=mm(218), chosen=mm(217)
            ),
        ),
    ),
    Code.LAYOUT_OUTSIDE_DEPTH: in_option("cases.0.outside.depth", more(1)),
    Code.LAYOUT_DEPTH: both(
        in_job("cases.0.depth", SizeRange(least=mm(200), most=mm(217))),
        in_option("stages.2.value", 1.0),
        in_option("stages.2.bound", 1.0),
    ),
    Code.LAYOUT_DEPTH_STEP: both(
        in_job("cases.0.depth", SizeRange(least=mm(200), most=mm(240))),
        in_job("shop.cutting_step", mm(5)),
        in_option("stages.2.value", 240.0 - 218.0),
        in_option("stages.2.bound", 240.0 - 218.0),
    ),
    Code.LAYOUT_INSIDE_DEPTH: both(
        in_job("look.shelf_load", 30_000),
        _all_openings("load_limit", 30_000),
        in_option(f"{BAY_2}.inside.depth", more(1)),
        in_option(f"{BAY_2}.shelves.0.depth", more(1)),
        in_option(f"{BAY_2}.shelves.1.depth", more(1)),
    ),
    Code.LAYOUT_INSIDE_HEIGHT: both(
        in_option(f"{BAY_1}.inside.height", more(1)), in_option(f"{EMPTY}.height", more(1))
    ),
    Code.LAYOUT_BAY_SUM: in_option(f"{BAY_2}.inside.width", more(1)),
    Code.LAYOUT_BAY_EQUAL: both(
        in_option(f"{BAY_1}.inside.width", more(-1)),
        in_option(f"{BAY_2}.x", more(-1)),
        in_option(f"{BAY_2}.inside.width", more(1)),
    ),
    Code.LAYOUT_BAY_X: in_option(f"{BAY_2}.x", more(1)),
    Code.LAYOUT_FLOOR_LOWEST: in_option(f"{BAY_1}.openings.0.floor", more(1)),
    Code.LAYOUT_FLOOR_ON_SHELF: in_option(f"{EMPTY}.floor", more(1)),
    Code.LAYOUT_OPENING_HEIGHT: both(
        in_option(f"{BAY_1}.openings.0.height", more(1)),
        _headrooms(0, 0, 1),
        in_option(f"{EMPTY}.height", more(-1)),
    ),
    Code.LAYOUT_HEIGHTS_SUM: in_option(f"{EMPTY}.height", more(1)),
    Code.LAYOUT_CLEAR_LEAST: in_job("look.clear_least", mm(289) + 1),
    Code.LAYOUT_CLEAR_MOST: in_job("look.clear_most", mm(289)),
    Code.LAYOUT_SHELF_TOP: both(
        NOT_SHARED,
        in_option(f"{BAY_1}.shelves.1.top", more(1)),
        in_option(f"{EMPTY}.floor", more(1)),
    ),
    Code.LAYOUT_SHELF_THICKNESS: both(
        NOT_SHARED,
        in_option(f"{BAY_1}.shelves.1.thickness", more(1)),
        in_option(f"{BAY_1}.shelves.1.top", more(1)),
        in_option(f"{EMPTY}.floor", more(1)),
        in_option(f"{EMPTY}.height", more(-1)),
    ),
    Code.LAYOUT_SHELF_DEPTH: in_option(f"{BAY_1}.shelves.0.depth", more(1)),
    Code.LAYOUT_MARK: in_job("head.marking_step", mm(5)),
    Code.LAYOUT_FIRST_HOLE: both(
        in_job("cases.0.fixing", "pins"),
        in_job("cases.0.pin_pitch", 1),
        in_job("cases.0.pin_clearance", 0),
        in_job("cases.0.first_hole", mm(369)),
    ),
    Code.LAYOUT_LIP_ABOVE: in_option(f"{EMPTY}.lip_above_floor", more(1)),
    Code.LAYOUT_LIP_BELOW: in_option(f"{EMPTY}.lip_below_ceiling", more(1)),
    Code.LAYOUT_LINE_GROUPS: in_option("lines", ()),
    Code.LAYOUT_LINES_APART: in_option(
        "lines_apart", (LinesApart(bays=BAYS[1:], because="marks"),)
    ),
    Code.LAYOUT_LINE_HEIGHTS: in_option("lines.0.heights", lambda old: (*old, old[-1] + 1)),
    # The upper shelf of bay 1 a tick higher, with all that follows from it.
    Code.LAYOUT_SHELF_LINES: both(
        in_job("head.marking_step", 1),
        in_option(f"{BAY_1}.shelves.1.underside", more(1)),
        in_option(f"{BAY_1}.shelves.1.top", more(1)),
        in_option(f"{BAY_1}.openings.1.height", more(1)),
        _headrooms(0, 1, 1),
        in_option(f"{EMPTY}.floor", more(1)),
        in_option(f"{EMPTY}.height", more(-1)),
        in_option("scores.headroom_typical", more(1)),
    ),
}

FIGURINE = f"{BAY_1}.openings.0.items"
BOWL = f"{BAY_1}.openings.1.items"
TIN = f"{BAY_2}.openings.0.items.0"
JUG = f"{BAY_2}.openings.1.items.1"
BOOK = f"{BAY_2}.openings.2.items"
"""Books 1 to 4 are entries 1 to 4, after the carriage clock."""


def _leave_out(item: str, count: int, why: str | None = "no room") -> Change:
    left = LeftOut(item=item, count=count, short_by=ShortBy())
    return both(
        in_option("left_out", (left,)),
        in_option("tags", ()),
        in_option("why", why),
        in_option("stages.0.value", float(count)),
        in_option("stages.0.bound", float(count)),
    )


ITEMS: dict[Code, Change] = {
    Code.ITEMS_UNKNOWN: _leave_out("vase", 1),
    Code.ITEMS_COUNT: in_job("items.1.count", 6),
    Code.ITEMS_LEFT_OUT: _leave_out("book", 0),
    Code.ITEMS_NUMBER: in_option(f"{BOOK}.4.number", 3),
    Code.ITEMS_SIZE: in_option(f"{JUG}.depth", more(-1)),
    Code.ITEMS_LYING: in_job("items.2.may_lie", False),
    Code.ITEMS_END_MARGIN: in_option(f"{TIN}.x", mm(12) - 1),
    Code.ITEMS_FRONT_MARGIN: in_option(f"{TIN}.z", mm(5) - 1),
    Code.ITEMS_LIP: in_option(f"{JUG}.z", mm(8) - 1),
    Code.ITEMS_BACK: in_option(f"{TIN}.z", mm(212 - 100) + 1),
    Code.ITEMS_GAP: in_option(f"{JUG}.x", more(-1)),
    Code.ITEMS_OVERLAP: in_option(f"{BOOK}.2.x", more(-1)),
    Code.ITEMS_ON: in_option(f"{BOWL}.2.x", more(1)),
    Code.ITEMS_FLOATING: both(in_option(f"{JUG}.y", 1), in_option(f"{JUG}.headroom", more(-1))),
    Code.ITEMS_STACK: in_job("items.1.stack", 2),
    Code.ITEMS_ROWS: in_job("items.0.rows", 1),
    # Beside the front row, not behind it.
    Code.ITEMS_ROW_ORDER: both(
        in_option(f"{FIGURINE}.4.x", mm(12 + 3 * (60 + 12))),
        in_option(f"{FIGURINE}.4.z", mm(8 + 50) - 1),
    ),
    Code.ITEMS_RISER: both(
        in_option(f"{FIGURINE}.3.y", more(-1)), in_option(f"{FIGURINE}.3.headroom", more(1))
    ),
    # The mantel clock has 48 mm, of which 7 mm are behind the lip above.
    Code.ITEMS_HEADROOM: in_job("look.headroom", mm(48 - 7) + 1),
    Code.ITEMS_HEADROOM_SHOWN: in_option(f"{JUG}.headroom", more(1)),
    # Clock and jug take 200 + 12 + 106 mm and two margins of 12 mm.
    Code.ITEMS_SPARE: in_job("look.spare", (600 - 341) / 600),
    Code.ITEMS_GROUP: in_job("items.1.group", "clocks"),
    Code.ITEMS_MASS: in_option(f"{JUG}.mass_assumed", False),
    Code.ITEMS_LOAD: both(in_job("look.shelf_load", 4000), _all_openings("load_limit", 4000)),
    Code.ITEMS_LOAD_SHOWN: in_option(f"{EMPTY}.load", 1),
    Code.ITEMS_LOAD_LIMIT: in_option(f"{EMPTY}.load_limit", more(1)),
    Code.ITEMS_FILL: in_option(f"{BAY_1}.openings.1.fill", more(0.001)),
}


def _one_jug_too_many(plan: Plan) -> Plan:
    return in_job("items.5.count", 2)(plan)


STAGE_PRICE, STAGE_RHYTHM = "stages.1", "stages.3"
_PROVEN_RHYTHM = both(
    in_option(f"{STAGE_RHYTHM}.bound", 272.0), in_option(f"{STAGE_RHYTHM}.proven", True)
)
_DEARER = both(
    in_option("cost.total", more(Decimal(1))),
    in_option(f"{STAGE_PRICE}.value", "131.90"),
    in_option(f"{STAGE_PRICE}.bound", "131.90"),
)

CLAIMS: dict[Code, Change] = {
    Code.COST_SHEET_COUNT: in_option("sheet_count", 3),
    Code.COST_SHEET_BOUND: in_option("sheet_bound", 3),
    Code.COST_SHEETS: both(in_option("cost.sheets", more(Decimal(1))), _DEARER),
    Code.COST_MOULDINGS: both(in_option("cost.mouldings", more(Decimal(1))), _DEARER),
    Code.COST_STOCK_BOUND: in_option("cost.stock_bound", more(Decimal("0.01"))),
    Code.COST_TOTAL: in_option("cost.total", more(Decimal("0.01"))),
    Code.COST_COMPLETE: in_option("cost.complete", False),
    Code.COST_CURRENCY: in_option("cost.currency", "USD"),
    Code.STATUS_OPTIMAL: in_option("status", Status.OPTIMAL),
    Code.STATUS_PROVEN: in_option(f"{STAGE_PRICE}.bound", "130.89"),
    Code.STATUS_BOUND: in_option(f"{STAGE_RHYTHM}.bound", 272.5),
    Code.STATUS_LEFT_OUT: both(
        in_option("status", Status.OPTIMAL), _PROVEN_RHYTHM, _one_jug_too_many, _leave_out("jug", 1)
    ),
    Code.STATUS_WHY: both(_one_jug_too_many, _leave_out("jug", 1, why=None)),
    Code.STATUS_LAYOUT: in_option("status", Status.UNKNOWN),
    Code.STATUS_FIT: both(in_option("stages.0.value", 1.0), in_option("stages.0.bound", 1.0)),
    Code.STATUS_STAGES: in_option(f"{STAGE_RHYTHM}.unit", "in"),
    Code.STATUS_SIZE: in_job("cases.0.depth", SizeRange(least=mm(200), most=mm(240), wish=mm(219))),
    Code.STATUS_PRICE: both(
        in_option(f"{STAGE_PRICE}.value", "130.91"), in_option(f"{STAGE_PRICE}.bound", "130.91")
    ),
    Code.SCORES_RHYTHM: in_option("scores.rhythm", more(2)),
    # 1/8 in of rhythm may be given back, and a tick is allowed for rounding.
    Code.SCORES_RHYTHM_STAGE: in_option(f"{STAGE_RHYTHM}.value", 272.0 - 3.175 - 2 / 320),
    Code.SCORES_HEADROOM_LEAST: in_option("scores.headroom_least", more(1)),
    Code.SCORES_HEADROOM_TYPICAL: in_option("scores.headroom_typical", more(1)),
    Code.SCORES_HEADROOM_SPREAD: in_option("scores.headroom_spread", more(1)),
    Code.SCORES_WISHES: in_option("scores.wishes_missed", 4),
    Code.SCORES_FILL: in_option("scores.fill_least", more(0.001)),
    Code.SCORES_BOARD_USED: in_option("scores.board_used", more(0.001)),
}

TOE = "parts.5"


def _without_toe(plan: Plan) -> Plan:
    plan = put(plan, "options.0.parts", lambda parts: (*parts[:5], *parts[6:]))
    plan = put(plan, "options.0.sheets.0.pieces", lambda pieces: pieces[:-1])
    return used_board(plan)


def _toe_twice(plan: Plan) -> Plan:
    return used_board(put(plan, "options.0.parts", lambda parts: (*parts, parts[5])))


PARTS: dict[Code, Change] = {
    Code.PARTS_MISSING: in_order(_without_toe),
    Code.PARTS_REPEATED: _toe_twice,
    Code.PARTS_NAME: in_option(f"{TOE}.name", "kickboard"),
    Code.PARTS_MATERIAL: in_order(in_option(f"{TOE}.material", "birch ply 6")),
    Code.PARTS_LENGTH: both(
        in_option(f"{TOE}.length", more(1)), in_option("sheets.0.pieces.9.length", more(1))
    ),
    Code.PARTS_WIDTH: both(
        in_option(f"{TOE}.width", more(1)), in_option("sheets.0.pieces.9.width", more(1))
    ),
    Code.PARTS_THICKNESS: in_option(f"{TOE}.thickness", more(1)),
    Code.PARTS_GRAIN: in_option(f"{TOE}.grain", "any"),
    Code.PARTS_ALLOWANCE: in_option("parts.2.allowances", ()),
    Code.PARTS_SHELF: in_option(f"{BAY_1}.shelves.0.part", "hall/bay-1-shelf-2"),
}

_BAY_WIDTH = frozenset({Code.PARTS_LENGTH, Code.STICK_LENGTH, Code.ITEMS_FILL})
ALSO: dict[Code, frozenset[Code]] = {
    # Shelves, lips and fill are those of the width that the bay is said to have.
    Code.LAYOUT_BAY_SUM: _BAY_WIDTH,
    Code.LAYOUT_BAY_EQUAL: _BAY_WIDTH,
    # Clear heights that are a tick otherwise have another rhythm.
    Code.LAYOUT_OPENING_HEIGHT: frozenset({Code.SCORES_RHYTHM}),
    Code.LAYOUT_SHELF_LINES: frozenset({Code.SCORES_RHYTHM}),
    # An opening that begins elsewhere ends elsewhere or has another height.
    Code.LAYOUT_FLOOR_LOWEST: frozenset({Code.LAYOUT_OPENING_HEIGHT}),
    # Shelves on pins have no dadoes.
    Code.LAYOUT_FIRST_HOLE: frozenset({Code.PARTS_LENGTH, Code.PARTS_ALLOWANCE}),
    # Things that stand in each other have no gap.
    Code.ITEMS_OVERLAP: frozenset({Code.ITEMS_GAP}),
    # Its piece lies on a sheet of the right material, and so of the wrong one.
    Code.PARTS_MATERIAL: frozenset({Code.CUT_MATERIAL}),
    # A shelf sags too far where it carries too much.
    Code.STRENGTH_NOTED: frozenset({Code.STRENGTH_LOAD}),
    **SAWING_ALSO,
}

_TABLES = (PLAN, LAYOUT, ITEMS, PARTS, CUTTING, SETS, CLAIMS, NEAR)
_CHANGES = {code: keeping_slack(change) for table in _TABLES for code, change in table.items()}

MUTATIONS: tuple[Mutation, ...] = tuple(
    Mutation(code, change, ALSO.get(code, frozenset()))
    for code, change in {**_CHANGES, **SLACK, **HELD, **STRENGTH, **SWING, **HANGING}.items()
)
"""One for each code."""
