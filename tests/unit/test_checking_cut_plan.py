"""The checker on what `casewright cut` makes, from itself alone."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from solver.checking.check import check_cut
from solver.checking.findings import Code
from solver.outcome import Status
from solver.plan.plan import Cost, CutPlan, Timing
from solver.plan.stocked import Part, Piece, Sheet, Stick, StickPiece
from solver.sequence.sequencing import sequence
from tests.edits import put
from tests.sequences import a_shop


def cost(sheets: str = "0", mouldings: str = "0", *, complete: bool = True) -> Cost:
    total = Decimal(sheets) + Decimal(mouldings)
    return Cost(
        currency="EUR",
        sheets=Decimal(sheets),
        mouldings=Decimal(mouldings),
        stock_bound=total,
        total=total,
        complete=complete,
    )


def part(ident: str, length: int, width: int, grain: str) -> Part:
    return Part.model_validate(
        {
            "id": ident,
            "name": ident,
            "case": "",
            "material": "board",
            "length": length,
            "width": width,
            "thickness": 10,
            "grain": grain,
        }
    )


def _cut(
    number: int, kind: str, direction: str, at: tuple[int, int, int], setting: int
) -> dict[str, Any]:
    places = dict(zip(("at", "start", "end"), at, strict=True))
    named = {"number": number, "kind": kind, "direction": direction}
    return {**named, **places, "setting": setting}


def in_order(plan: CutPlan) -> CutPlan:
    """Put the cuts of a plan in order for the shop of the defaults."""
    shop = a_shop(edge_trim=(plan.sheets or ())[0].edge_trim)
    ordered = sequence(plan.sheets or (), shop, plan.parts)
    update = {"sheets": ordered.sheets, "settings": ordered.settings, "shop": shop}
    return plan.model_copy(update=update)


def sheet_plan() -> CutPlan:
    """A part with its grain across, which lies turned, and one of any direction, turned too."""
    pieces = (
        Piece(part="a#1", x=0, y=0, length=400, width=900, turned=True),
        Piece(part="b#1", x=410, y=0, length=300, width=500, turned=True),
    )
    sheet = Sheet(
        stock="board",
        material="board",
        length=2000,
        width=1000,
        edge_trim=0,
        kerf=10,
        margin=0,
        price=None,
        on_hand=False,
        first_cut="crosscut",
        pieces=pieces,
        cuts=(),
    )
    cuts = [
        _cut(1, "crosscut", "crosscut", (400, 0, 1000), 400),
        _cut(2, "rip", "rip", (900, 0, 400), 900),
        _cut(3, "crosscut", "crosscut", (710, 0, 1000), 300),
        _cut(4, "rip", "rip", (500, 410, 710), 500),
    ]
    data = {**sheet.model_dump(), "cuts": cuts}
    plan = CutPlan(
        unit="mm",
        status=Status.OPTIMAL,
        sheets=(Sheet.model_validate(data),),
        sheet_count=1,
        sheet_bound=1,
        cost=cost(complete=False),
        parts=(part("a#1", 900, 400, "width"), part("b#1", 500, 300, "any")),
        timing=Timing(seconds=0),
    )
    return in_order(plan)


def stick_plan() -> CutPlan:
    stick = Stick(
        stock="lip",
        length=1000,
        price=Decimal("9.60"),
        on_hand=False,
        kerf=10,
        pieces=(
            StickPiece(part="r#1", start=0, length=495),
            StickPiece(part="r#2", start=505, length=495),
        ),
    )
    return CutPlan(
        unit="mm",
        status=Status.OPTIMAL,
        mouldings=(stick,),
        sheet_count=1,
        sheet_bound=1,
        cost=cost(mouldings="9.60"),
        parts=(part("r#1", 495, 10, "length"), part("r#2", 495, 10, "length")),
        timing=Timing(seconds=0),
    )


def codes(plan: CutPlan) -> list[Code]:
    return [finding.code for finding in check_cut(plan)]


def test_good_cut_plans_have_no_findings() -> None:
    assert codes(sheet_plan()) == []
    assert codes(stick_plan()) == []


def test_a_part_with_its_grain_across_must_lie_turned() -> None:
    plan = put(sheet_plan(), "parts.1.grain", "length")
    upright = put(sheet_plan(), "parts.0", part("a#1", 400, 900, "width"))
    upright = put(upright, "sheets.0.pieces.0.turned", False)

    assert codes(plan) == [Code.CUT_TURNED]
    assert codes(upright) == [Code.CUT_TURNED]


def test_a_part_that_is_not_listed_is_found() -> None:
    assert codes(put(sheet_plan(), "parts", lambda parts: parts[:1])) == [Code.CUT_PART_UNKNOWN]


def test_optimal_without_prices_needs_the_bound_on_the_count() -> None:
    assert codes(put(sheet_plan(), "sheet_bound", 0)) == [Code.STATUS_OPTIMAL]


def test_optimal_with_prices_needs_the_bound_on_the_cost() -> None:
    plan = put(stick_plan(), "cost.stock_bound", Decimal("9.59"))

    assert codes(plan) == [Code.STATUS_OPTIMAL]
    assert codes(plan.model_copy(update={"status": Status.FEASIBLE})) == []


def test_a_cut_plan_that_was_written_is_solved() -> None:
    plan = sheet_plan().model_copy(update={"status": Status.UNKNOWN})

    assert codes(plan) == [Code.STATUS_LAYOUT]


def test_the_first_cut_is_of_the_kind_named_where_that_kind_divides_the_sheet() -> None:
    # Both pieces begin at the same edge: no rip divides them, so crosscuts may come first.
    assert codes(put(sheet_plan(), "sheets.0.first_cut", "rip")) == []
    higher = put(sheet_plan(), "sheets.0.pieces.1", lambda p: p.model_copy(update={"width": 80}))
    higher = put(higher, "sheets.0.pieces.1.y", 910)

    assert Code.CUT_FIRST in codes(put(higher, "sheets.0.first_cut", "rip"))


def test_a_stick_is_cut_within_its_length_and_a_kerf_apart() -> None:
    assert codes(put(stick_plan(), "mouldings.0.pieces.1.start", 504)) == [Code.STICK_APART]
    assert codes(put(stick_plan(), "mouldings.0.pieces.1.start", 506)) == [Code.STICK_OUTSIDE]


def test_the_blade_may_overhang_an_edge_that_is_trimmed_by_less_than_a_kerf() -> None:
    plan = put(sheet_plan(), "sheets.0.edge_trim", 4)
    pieces = plan.sheets[0].pieces if plan.sheets else ()
    moved = tuple(p.model_copy(update={"x": p.x + 4, "y": p.y + 4}) for p in pieces)
    trims = (
        _cut(1, "trim", "rip", (-6, 0, 2000), 4),
        _cut(2, "trim", "crosscut", (-6, 4, 1000), 4),
        _cut(3, "crosscut", "crosscut", (404, 4, 1000), 400),
        _cut(4, "rip", "rip", (904, 4, 404), 900),
        _cut(5, "crosscut", "crosscut", (714, 4, 1000), 300),
        _cut(6, "rip", "rip", (504, 414, 714), 500),
    )
    sheet = plan.sheets[0] if plan.sheets else None
    assert sheet is not None
    made = Sheet.model_validate({**sheet.model_dump(), "pieces": moved, "cuts": trims})

    assert codes(in_order(put(plan, "sheets.0", made))) == []
