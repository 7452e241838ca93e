"""What the checker has to say: a stable code, a place, what is needed and what there is."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Code(StrEnum):
    """One code for each rule, grouped by subject. Callers and tests match on these."""

    PLAN_UNIT = "plan.unit"
    PLAN_JOB_HASH = "plan.job-hash"
    PLAN_RECOMMENDED_FIRST = "plan.recommended-first"
    PLAN_REPEATED = "plan.repeated"
    PLAN_NO_OPTIONS = "plan.no-options"

    LAYOUT_CASES = "layout.cases"
    LAYOUT_CASE_AS_ORDERED = "layout.case-as-ordered"
    LAYOUT_BAYS = "layout.bays"
    LAYOUT_OPENINGS = "layout.openings"
    LAYOUT_SHELF_COUNT = "layout.shelf-count"
    LAYOUT_SHELF_COUNT_SHOWN = "layout.shelf-count-shown"
    LAYOUT_OUTSIDE_WIDTH = "layout.outside-width"
    LAYOUT_OUTSIDE_HEIGHT = "layout.outside-height"
    LAYOUT_WIDTH_STEP = "layout.width-step"
    LAYOUT_HEIGHT_STEP = "layout.height-step"
    LAYOUT_OPEN_SIZES = "layout.open-sizes"
    LAYOUT_OUTSIDE_DEPTH = "layout.outside-depth"
    LAYOUT_DEPTH = "layout.depth"
    LAYOUT_DEPTH_STEP = "layout.depth-step"
    LAYOUT_INSIDE_DEPTH = "layout.inside-depth"
    LAYOUT_INSIDE_HEIGHT = "layout.inside-height"
    LAYOUT_BAY_SUM = "layout.bay-sum"
    LAYOUT_BAY_EQUAL = "layout.bay-equal"
    LAYOUT_BAY_X = "layout.bay-x"
    LAYOUT_FLOOR_LOWEST = "layout.floor-lowest"
    LAYOUT_FLOOR_ON_SHELF = "layout.floor-on-shelf"
    LAYOUT_OPENING_HEIGHT = "layout.opening-height"
    LAYOUT_HEIGHTS_SUM = "layout.heights-sum"
    LAYOUT_CLEAR_LEAST = "layout.clear-least"
    LAYOUT_CLEAR_MOST = "layout.clear-most"
    LAYOUT_SHELF_TOP = "layout.shelf-top"
    LAYOUT_SHELF_THICKNESS = "layout.shelf-thickness"
    LAYOUT_SHELF_DEPTH = "layout.shelf-depth"
    LAYOUT_MARK = "layout.mark"
    LAYOUT_FIRST_HOLE = "layout.first-hole"
    LAYOUT_LIP_ABOVE = "layout.lip-above"
    LAYOUT_LIP_BELOW = "layout.lip-below"
    LAYOUT_SHELF_LINES = "layout.shelf-lines"

    ITEMS_UNKNOWN = "items.unknown"
    ITEMS_COUNT = "items.count"
    ITEMS_LEFT_OUT = "items.left-out"
    ITEMS_NUMBER = "items.number"
    ITEMS_SIZE = "items.size"
    ITEMS_LYING = "items.lying"
    ITEMS_END_MARGIN = "items.end-margin"
    ITEMS_FRONT_MARGIN = "items.front-margin"
    ITEMS_LIP = "items.lip"
    ITEMS_BACK = "items.back"
    ITEMS_GAP = "items.gap"
    ITEMS_OVERLAP = "items.overlap"
    ITEMS_ON = "items.on"
    ITEMS_FLOATING = "items.floating"
    ITEMS_STACK = "items.stack"
    ITEMS_ROWS = "items.rows"
    ITEMS_ROW_ORDER = "items.row-order"
    ITEMS_RISER = "items.riser"
    ITEMS_HEADROOM = "items.headroom"
    ITEMS_HEADROOM_SHOWN = "items.headroom-shown"
    ITEMS_SPARE = "items.spare"
    ITEMS_GROUP = "items.group"
    ITEMS_MASS = "items.mass"
    ITEMS_LOAD = "items.load"
    ITEMS_LOAD_SHOWN = "items.load-shown"
    ITEMS_LOAD_LIMIT = "items.load-limit"
    ITEMS_FILL = "items.fill"

    HELD_MARK = "held.mark"
    HELD_THINGS = "held.things"

    BAND_STATED = "band.stated"
    BAND_FITS = "band.fits"
    BAND_ENDS = "band.ends"
    BAND_PARTS = "band.parts"

    COMPARED_FIGURES = "compared.figures"
    COMPARED_MOVED = "compared.moved"

    PARTS_MISSING = "parts.missing"
    PARTS_UNWANTED = "parts.unwanted"
    PARTS_REPEATED = "parts.repeated"
    PARTS_NAME = "parts.name"
    PARTS_MATERIAL = "parts.material"
    PARTS_LENGTH = "parts.length"
    PARTS_WIDTH = "parts.width"
    PARTS_THICKNESS = "parts.thickness"
    PARTS_GRAIN = "parts.grain"
    PARTS_ALLOWANCE = "parts.allowance"
    PARTS_SHELF = "parts.shelf"

    CUT_PART_MISSING = "cut.part-missing"
    CUT_PART_REPEATED = "cut.part-repeated"
    CUT_PART_UNKNOWN = "cut.part-unknown"
    CUT_MATERIAL = "cut.material"
    CUT_SIZE = "cut.size"
    CUT_TURNED = "cut.turned"
    CUT_OUTSIDE = "cut.outside"
    CUT_KERF = "cut.kerf"
    CUT_MARGIN = "cut.margin"
    CUT_GUILLOTINE = "cut.guillotine"
    CUT_STAGES = "cut.stages"
    CUT_FIRST = "cut.first"
    CUT_NUMBER = "cut.number"
    CUT_EDGE_TO_EDGE = "cut.edge-to-edge"
    CUT_THROUGH = "cut.through"
    CUT_FREED = "cut.freed"
    CUT_PANEL = "cut.panel"
    CUT_SETTING = "cut.setting"
    CUT_LEFT = "cut.left"
    CUT_NAMED = "cut.named"
    CUT_PART_SIZE = "cut.part-size"
    CUT_GUIDE = "cut.guide"
    CUT_SAW = "cut.saw"
    CUT_MEASURED = "cut.measured"
    CUT_CAUTION = "cut.caution"
    CUT_OFFCUT = "cut.offcut"
    CUT_OFFCUT_USE = "cut.offcut-use"
    CUT_SETTINGS = "cut.settings"
    CUT_SETTINGS_ORDER = "cut.settings-order"
    CUT_STANDS = "cut.as-it-stands"
    CUT_SLACK = "cut.slack"
    CUT_SLACK_LEAST = "cut.slack-least"

    SETS_LISTED = "sets.listed"
    SETS_SHEET = "sets.sheet"
    SETS_SEQUENCE = "sets.sequence"

    STOCK_UNKNOWN = "stock.unknown"
    STOCK_SIZE = "stock.size"
    STOCK_PRICE = "stock.price"
    STOCK_SHOP = "stock.shop"
    STOCK_LIMIT = "stock.limit"
    STOCK_ON_HAND = "stock.on-hand"
    STOCK_ON_HAND_FIRST = "stock.on-hand-first"

    STICK_UNKNOWN = "stick.unknown"
    STICK_PRICE = "stick.price"
    STICK_KERF = "stick.kerf"
    STICK_LIMIT = "stick.limit"
    STICK_ON_HAND = "stick.on-hand"
    STICK_ON_HAND_FIRST = "stick.on-hand-first"
    STICK_OUTSIDE = "stick.outside"
    STICK_APART = "stick.apart"
    STICK_PART_MISSING = "stick.part-missing"
    STICK_PART_REPEATED = "stick.part-repeated"
    STICK_PART_UNKNOWN = "stick.part-unknown"
    STICK_LENGTH = "stick.length"
    STICK_MOULDING = "stick.moulding"
    STICK_SLACK = "stick.slack"
    STICK_CUT_NUMBER = "stick.cut-number"
    STICK_CUT_FREED = "stick.cut-freed"
    STICK_CUT_END = "stick.cut-end"
    STICK_CUT_STOP = "stick.cut-stop"

    COST_SHEET_COUNT = "cost.sheet-count"
    COST_SHEET_BOUND = "cost.sheet-bound"
    COST_SHEETS = "cost.sheets"
    COST_MOULDINGS = "cost.mouldings"
    COST_STOCK_BOUND = "cost.stock-bound"
    COST_TOTAL = "cost.total"
    COST_COMPLETE = "cost.complete"
    COST_CURRENCY = "cost.currency"

    STATUS_OPTIMAL = "status.optimal"
    STATUS_PROVEN = "status.proven"
    STATUS_BOUND = "status.bound"
    STATUS_LEFT_OUT = "status.left-out"
    STATUS_WHY = "status.why"
    STATUS_LAYOUT = "status.layout"
    STATUS_FIT = "status.fit"
    STATUS_PRICE = "status.price"
    STATUS_SIZE = "status.size"

    NEAR_CHANGE = "near.change"
    NEAR_SAVING = "near.saving"
    NEAR_SHEETS = "near.sheets"
    NEAR_GAINS = "near.gains"
    NEAR_COUNTS = "near.counts"
    NEAR_LETS_IN = "near.lets-in"
    NEAR_SLACK = "near.slack"
    CHANGE_AMOUNT = "change.amount"
    CHANGE_LEAVES = "change.leaves"

    STRENGTH_LISTED = "strength.listed"
    STRENGTH_HELD = "strength.held"
    STRENGTH_SPAN = "strength.span"
    STRENGTH_SAG = "strength.sag"
    STRENGTH_RATIO = "strength.ratio"
    STRENGTH_ALLOWED = "strength.allowed"
    STRENGTH_LOADS = "strength.loads"
    STRENGTH_LOAD = "strength.load"
    STRENGTH_OVER = "strength.over"
    STRENGTH_WORST = "strength.worst"
    STRENGTH_MENDS = "strength.mends"

    HANG_LISTED = "hang.listed"
    HANG_MASS = "hang.mass"
    HANG_HINGES = "hang.hinges"
    HANG_FIGURE = "hang.figure"
    HANG_VERDICT = "hang.verdict"
    HANG_JOINTS = "hang.joints"
    HANG_CAUTION = "hang.caution"

    SCORES_RHYTHM = "scores.rhythm"
    SCORES_RHYTHM_STAGE = "scores.rhythm-stage"
    SCORES_HEADROOM_LEAST = "scores.headroom-least"
    SCORES_HEADROOM_TYPICAL = "scores.headroom-typical"
    SCORES_HEADROOM_SPREAD = "scores.headroom-spread"
    SCORES_WISHES = "scores.wishes"
    SCORES_FILL = "scores.fill"
    SCORES_BOARD_USED = "scores.board-used"

    HAVE_OUTCOME = "have.outcome"
    HAVE_UNKNOWN = "have.unknown"
    HAVE_COUNT = "have.count"
    HAVE_PART = "have.part"
    HAVE_SIZE = "have.size"
    HAVE_REST = "have.rest"
    HAVE_STOCK = "have.stock"
    HAVE_MARK = "have.mark"
    HAVE_AGAIN = "have.again"

    SWING_PRESENT = "swing.present"
    SWING_GAP = "swing.gap"
    SWING_GAP_AT_REST = "swing.gap-at-rest"
    SWING_SWINGS = "swing.swings"
    SWING_NOTED = "swing.noted"

    BATCH_NAMES = "batch.names"
    BATCH_OPTION = "batch.option"
    BATCH_SHOP = "batch.shop"
    BATCH_PARTS = "batch.parts"
    BATCH_STOCK = "batch.stock"
    BATCH_LIMIT = "batch.limit"
    BATCH_ON_HAND = "batch.on-hand"
    BATCH_POOL = "batch.pool"
    BATCH_POOL_FIGURES = "batch.pool-figures"
    BATCH_SHARE = "batch.share"
    BATCH_ALONE = "batch.alone"
    BATCH_SAVING = "batch.saving"
    BATCH_CARRIED = "batch.carried"


@dataclass(frozen=True)
class Finding:
    """One broken rule.

    Attributes
    ----------
    code
        Which rule.
    where
        Option, case, bay, opening, thing, part or sheet.
    needs, has
        What the rule asks for and what the plan has, with units, for people.
    text
        One sentence with all of it.
    """

    code: Code
    where: str
    needs: str
    has: str
    text: str

    # typing.override needs Python 3.12.
    def __str__(self) -> str:  # type: ignore[explicit-override]
        return f"{self.code.value}: {self.text}"


def finding(code: Code, where: str, what: str, needs: str, has: str) -> Finding:
    """Put a finding into words: `what` names the thing measured."""
    return Finding(code, where, needs, has, f"{where}: {what} should be {needs}, is {has}")
