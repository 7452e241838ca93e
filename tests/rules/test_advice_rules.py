"""Each kind of advice: where it saves, and the nearest list where it does not."""

from __future__ import annotations

from decimal import Decimal

import pytest

from solver.changes.change_models import lot_of
from solver.changes.saving_changes import (
    ALIKE_MOST,
    SHOWN_MOST,
    AdviceScope,
    Advised,
    advise,
    chosen,
)
from solver.cutting.cutting_problem import CutSheet, CuttingProblem
from solver.cutting.solve_sheets import solve_cutting
from solver.outcome import Limits
from solver.plan.slack_and_advice import Advice
from solver.units import inches, mm
from tests.advice_lists import (
    WORK,
    Row,
    advised,
    advised_on,
    advised_on_sticks,
    parts_of,
    problem_of,
)

SHEET = inches(96), inches(48)


def kinds(found: Advised) -> list[str]:
    return [one.what for one in found.advice]


def of_kind(found: Advised, what: str) -> Advice:
    (one,) = [one for one in found.advice if one.what == what]
    return one


def test_parts_get_smaller_by_half_an_inch_at_most() -> None:
    # 3 x 32-3/8 + 1/4 = 97-3/8: 3 x 31-29/32 fits, 15/32 shorter. 32-1/2 would be 19/32.
    near: list[Row] = [("side", inches("32-3/8"), inches(46), 3)]
    far: list[Row] = [("side", inches("32-1/2"), inches(46), 3)]

    assert of_kind(advised_on(near, SHEET), "shorter").by == inches("15/32")
    assert "shorter" not in kinds(advised_on(far, SHEET))


def test_small_parts_get_smaller_by_three_in_a_hundred_at_most() -> None:
    # 3% of 12 in is 0.36 in: 12-1/4 may become 11-29/32 (11/32 less), not 12-5/16 (13/32).
    near: list[Row] = [("side", inches(90), inches("12-7/32"), 4)]
    far: list[Row] = [("side", inches(90), inches("12-5/16"), 4)]

    assert of_kind(advised_on(near, SHEET), "narrower").to == inches("11-7/8")
    assert "narrower" not in kinds(advised_on(far, SHEET))


def test_all_parts_that_share_a_width_get_narrower_together() -> None:
    # Four strips of 12 in: two of sides, two of shelves. Either alone leaves 2 x 12 in.
    rows: list[Row] = [("side", inches(94), inches(12), 2), ("shelf", inches(93), inches(12), 2)]

    advice = advised_on(rows, SHEET).advice
    together = [one for one in advice if len(one.parts) == 4]

    assert [one.to for one in together] == [inches("11-7/8")]


def test_a_part_whose_grain_runs_across_it_gets_narrower_along_the_sheet() -> None:
    # 32 in wide with the grain along the width: three lie one after another along the sheet.
    found = advised_on([("toe", inches(46), inches(32), 3)], SHEET, "width")

    assert of_kind(found, "narrower").to == inches("31-29/32")
    assert "shorter" not in kinds(found)


@pytest.mark.parametrize(
    ("trim", "to"), [("1/4", "1/8"), ("3/8", "0")], ids=["half of it does", "all of it"]
)
def test_less_edge_trim_by_half_or_all_of_it(trim: str, to: str) -> None:
    # 4 x 11-13/16 + 3/8 = 47-5/8: with 1/8 off each edge 1/8 is left; 3/16 off would be none.
    rows: list[Row] = [("side", inches(90), inches("11-13/16"), 4)]
    found = advised_on(rows, SHEET, edge_trim=inches(trim))

    one = of_kind(found, "edge trim")
    assert one.to == inches(to)
    assert one.by == inches(trim) - inches(to)


def test_no_edge_trim_is_not_made_less() -> None:
    assert "edge trim" not in kinds(advised_on([("side", inches(90), inches(12), 4)], SHEET))


def test_turning_the_grain_is_advised_where_turned_parts_save() -> None:
    # 47 x 30: two lie along the sheet, and 2 x 30 in are too wide for a second row. Turned,
    # three lie beside each other: 3 x 30 + 1/4 = 90-1/4. Parts of 33 in: 99-1/4.
    turned = of_kind(advised_on([("back", inches(47), inches(30), 3)], SHEET), "grain")
    wide = advised_on([("back", inches(47), inches(33), 3)], SHEET)

    assert set(turned.parts) == {"back#1", "back#2", "back#3"}
    assert turned.sheets_saved == 1
    assert "grain" not in kinds(wide)


def test_parts_without_grain_need_no_turning() -> None:
    assert "grain" not in kinds(advised_on([("back", inches(47), inches(30), 3)], SHEET, "any"))


def test_only_what_may_turn_is_turned() -> None:
    parts = parts_of([("back", inches(47), inches(30), 3)])

    found = advised(problem_of(parts, SHEET), parts, turn=lambda _: False)

    assert "grain" not in kinds(found)


def test_one_part_in_two_pieces_with_its_joint() -> None:
    # Beside the panel 96 - 70 - 1/8 = 25-7/8 in are left: room for two pieces of 20-1/2, one
    # above the other in 2 x 20 + 1/8 in.
    rows: list[Row] = [("panel", inches(70), inches(47), 1), ("side", inches(40), inches(20), 1)]
    one = of_kind(advised_on(rows, SHEET), "two pieces")

    assert one.parts == ("side#1",)
    assert one.text == "1 x side in two pieces, each 20-1/2 in long with a lap of 1 in"


def test_parts_that_may_not_be_joined_stay_whole() -> None:
    rows: list[Row] = [("panel", inches(70), inches(47), 1), ("side", inches(40), inches(20), 1)]
    parts = parts_of(rows)

    found = advised(problem_of(parts, SHEET), parts, split=lambda _: False)

    assert "two pieces" not in kinds(found)


def test_more_of_a_cheap_size_where_no_more_could_be_bought() -> None:
    parts = parts_of([("side", inches(40), inches(20), 6)])
    big = CutSheet("full", "ply", *SHEET, Decimal(65))
    scarce = CutSheet("quarter", "ply", inches(48), inches(24), Decimal(10), limit=2)
    problem = CuttingProblem(problem_of(parts, SHEET).parts, (big, scarce), inches("1/8"))

    # Four on a full sheet and two quarters: 85. Six quarters, one part each: 60.
    one = of_kind(advised(problem, parts, resize=False), "more of a size")

    assert one.text == "6 of quarter, where 2 at most could be bought"
    assert (one.saves, one.sheets_saved) == (Decimal(25), 3 - 6)


def test_advice_keeps_the_margin_of_the_job_with_every_piece() -> None:
    # 4 x (11-3/4 + 1/8) + 3/8 = 47-7/8; 4 x (11-25/32 + 1/8) + 3/8 = 48 just fits.
    found = advised_on([("side", inches(90), inches(12), 4)], SHEET, margin=inches("1/8"))

    one = of_kind(found, "narrower")
    assert (one.to, one.slack) == (inches("11-25/32"), inches("1/8"))


def test_metric_advice_moves_by_half_millimetres() -> None:
    # 4 x 305 + 3 x 3 = 1229; 4 x 302.5 + 9 = 1219 leaves 1 mm, 4 x 302.75 none.
    found = advised_on(
        [("side", mm(2400), mm(305), 4)], (mm(2440), mm(1220)), kerf=mm(3), unit="mm"
    )

    one = of_kind(found, "narrower")
    assert (one.by, one.to) == (mm("2.5"), mm("302.5"))
    assert one.text == "4 x side: 2.5 mm narrower, 302.5 mm wide"


def test_mouldings_are_advised_on_as_well() -> None:
    # 3 x 32 + 1/4 = 96-1/4; each by itself: 32 - 1/4 - 1/32 makes 95-31/32.
    found = advised_on_sticks([inches(32)] * 3, inches(96), inches("1/8"))

    one = of_kind(found, "shorter")
    assert (one.to, one.stock, one.sheets_saved) == (inches("31-29/32"), "stick", 1)


def test_a_list_that_nothing_helps_says_for_what_that_is_proven() -> None:
    found = advised_on([("side", inches(90), inches(40), 2)], SHEET)

    assert found.advice == ()
    assert found.note is not None
    assert found.note.startswith("no small change found that saves a sheet; proven for shorter")
    assert "not proven" not in found.note


def test_what_is_all_on_hand_needs_no_advice() -> None:
    parts = parts_of([("side", inches(90), inches(12), 4)])
    sheet = CutSheet("board", "ply", *SHEET, Decimal(65), on_hand=2)
    problem = CuttingProblem(problem_of(parts, SHEET).parts, (sheet,), inches("1/8"))

    assert advised(problem, parts) == Advised((), None)


def test_without_prices_a_saving_is_counted_in_sheets() -> None:
    found = advised_on([("side", inches(90), inches(12), 4)], SHEET, price=None)

    assert of_kind(found, "narrower").saves is None
    assert of_kind(found, "narrower").sheets_saved == 1


def test_a_part_that_fills_the_sheet_in_its_length_still_gets_advice_on_its_width() -> None:
    found = advised_on([("side", inches(96), inches(12), 4)], SHEET)

    assert of_kind(found, "narrower").to == inches("11-7/8")


def test_a_blade_for_two_materials_saves_in_both() -> None:
    rows: list[Row] = [("slat", inches(90), inches("5-29/32"), 8)]
    parts = parts_of(rows)
    problem = problem_of(parts, SHEET)
    others = tuple(p.model_copy(update={"id": f"other {p.id}"}) for p in parts)
    second = problem_of(others, SHEET)
    lots = [
        lot_of(name, one, solve_cutting(one, Limits(work=WORK)).stock)
        for name, one in (("oak", problem), ("ash", second))
    ]

    found = advise(
        lots,
        AdviceScope({p.id: p for p in (*parts, *others)}, "in", 0, resize=False),
        Limits(work=WORK),
    )

    one = of_kind(found, "kerf")
    assert (one.sheets_saved, one.saves, one.material) == (2, Decimal(130), None)


def test_time_that_is_over_gives_no_advice_and_says_so() -> None:
    parts = parts_of([("side", inches(90), inches(12), 4)])
    problem = problem_of(parts, SHEET)
    lot = lot_of("ply", problem, solve_cutting(problem, Limits(work=WORK)).stock)

    found = advise(
        [lot], AdviceScope({p.id: p for p in parts}, "in", 0), Limits(work=WORK, seconds=0)
    )

    assert found.advice == ()
    assert found.note is not None
    assert "by the limit; not proven for shorter parts, narrower parts" in found.note


def _made(what: str, saves: str, by: int, *parts: str) -> Advice:
    return Advice.model_validate(
        {
            "what": what,
            "parts": parts,
            "by": by,
            "stock": "sheet",
            "sheets_saved": 1,
            "saves": saves,
            "slack": 1,
            "text": f"{what} {by}",
        }
    )


def test_the_least_disturbance_stands_first_then_what_saves_most() -> None:
    shown = chosen(
        [
            _made("grain", "90", 1, "a"),
            _made("shorter", "10", 2, "b"),
            _made("shorter", "20", 9, "c"),
        ]
    )

    assert [one.text for one in shown] == ["shorter 9", "shorter 2", "grain 1"]


def test_a_change_of_more_parts_that_saves_no_more_is_left_out() -> None:
    few, many = _made("shorter", "10", 2, "a"), _made("shorter", "10", 2, "a", "b")
    dearer = _made("shorter", "20", 2, "a", "b")

    assert chosen([many, few]) == (few,)
    assert chosen([dearer, few]) == (dearer, few)


def test_no_more_are_shown_than_can_be_read() -> None:
    shorter = [_made("shorter", "10", 2, name) for name in "abcdef"]
    others = [_made(what, "10", 2, what) for what in ("narrower", "kerf", "grain", "two pieces")]

    shown = chosen([*shorter, *others])

    assert len(shown) == SHOWN_MOST
    assert [one.what for one in shown].count("shorter") == ALIKE_MOST
