"""The checker follows a granted set from part to part, and refuses what does not follow."""

from __future__ import annotations

from solver.checking.findings import Code
from solver.checking.pieces import of_cut
from solver.outcome import Status
from solver.plan.plan import Cost, CutPlan, Timing, money
from solver.plan.stocked import MatchedSet, Part, Piece, Sheet

KERF, MARGIN = 3, 1
SIZE = 100, 40


def sheet(*places: tuple[int, int], turned: tuple[int, ...] = ()) -> Sheet:
    """Parts a, b, c, … of 100 x 40 with their near corners there."""
    pieces = tuple(
        Piece(part=name, x=x, y=y, length=100, width=40, turned=i in turned)
        for i, (name, (x, y)) in enumerate(zip("abcdef", places, strict=False))
    )
    return Sheet(
        stock="s",
        material="ply",
        length=1000,
        width=500,
        edge_trim=0,
        kerf=KERF,
        margin=MARGIN,
        price=None,
        on_hand=False,
        first_cut="rip",
        pieces=pieces,
    )


def codes(one: Sheet, laid: str, parts: str = "abc", *, grain: str = "length") -> list[Code]:
    """What is found where a cut plan says that these parts lie so in their order."""
    names = sorted(piece.part for piece in one.pieces)
    said = MatchedSet.model_validate(
        {"name": "m", "parts": tuple(parts), "granted": True, "sheet": 1, "laid": laid}
    )
    plan = CutPlan(
        unit="mm",
        status=Status.OPTIMAL,
        sheets=(one,),
        sets=(said,),
        sheet_count=1,
        sheet_bound=1,
        cost=Cost(
            currency="EUR",
            sheets=money(0),
            mouldings=money(0),
            stock_bound=money(0),
            total=money(0),
            complete=False,
        ),
        parts=tuple(
            Part.model_validate(
                {
                    **{"id": n, "name": n, "case": "", "material": "ply", "thickness": 1},
                    **{"length": 100, "width": 40, "grain": grain, "set": "m"},
                }
            )
            for n in names
        ),
        timing=Timing(seconds=0),
    )
    return [finding.code for finding in of_cut(plan, "cut plan")]


STEP = 100 + KERF + MARGIN
DOWN = 40 + KERF + MARGIN


def test_parts_end_to_end_follow_one_another() -> None:
    assert codes(sheet((0, 0), (STEP, 0), (2 * STEP, 0)), "along") == []
    # Without its margin a part lies a kerf nearer; less than a kerf or more room is not next to.
    assert codes(sheet((0, 0), (STEP - 1, 0), (2 * STEP - 1, 0)), "along") == []
    assert codes(sheet((0, 0), (STEP - 2, 0), (2 * STEP, 0)), "along") == [Code.SETS_SEQUENCE] * 2
    assert codes(sheet((0, 0), (STEP, 0), (2 * STEP + 1, 0)), "along") == [Code.SETS_SEQUENCE]


def test_parts_side_by_side_follow_one_another() -> None:
    assert codes(sheet((5, 0), (5, DOWN), (5, 2 * DOWN)), "across") == []
    assert codes(sheet((5, 0), (6, DOWN), (5, 2 * DOWN)), "across") == [Code.SETS_SEQUENCE] * 2


def test_rows_follow_one_another() -> None:
    rows = sheet((5, 0), (5 + STEP, 0), (5, DOWN), (5 + STEP, DOWN))
    assert codes(rows, "along", "abcd") == []
    gap = sheet((5, 0), (5 + STEP, 0), (5, DOWN + 1), (5 + STEP, DOWN + 1))
    assert codes(gap, "along", "abcd") == [Code.SETS_SEQUENCE]


def test_the_order_is_that_of_the_list() -> None:
    found = codes(sheet((0, 0), (2 * STEP, 0), (STEP, 0)), "along")
    assert set(found) == {Code.SETS_SEQUENCE}
    assert Code.SETS_LISTED in codes(sheet((0, 0), (STEP, 0), (2 * STEP, 0)), "along", "acb")


def test_parts_without_grain_all_lie_one_way() -> None:
    places = (0, 0), (STEP, 0), (2 * STEP, 0)
    assert codes(sheet(*places, turned=(0, 1, 2)), "along", grain="any") == []
    assert codes(sheet(*places, turned=(1,)), "along", grain="any") == [Code.SETS_SEQUENCE]
    # Of parts whose grain is set, turning is judged by the grain.
    assert codes(sheet(*places, turned=(1,)), "along", grain="width") == []


def test_a_sheet_that_does_not_exist_has_no_parts() -> None:
    two = sheet((0, 0), (STEP, 0))
    assert codes(two, "along", "abc") == [Code.SETS_LISTED, Code.SETS_SHEET]
