"""Room left in sheets and sticks, from where the pieces lie."""

from __future__ import annotations

from typing import Any

import pytest

from solver.checking.check import check_cut
from solver.checking.findings import Code
from solver.cutting.slack import least_slack, sheet_slack, stick_slack, with_slack
from solver.outcome import Status
from solver.plan.plan import Cost, CutPlan, Timing, money
from solver.plan.stocked import Piece, Sheet, Stick, StickPiece
from tests.edits import put

KERF, TRIM = 4, 10
LENGTH, WIDTH = 1000, 500


def piece(name: str, x: int, y: int, length: int, width: int) -> Piece:
    return Piece(part=name, x=x, y=y, length=length, width=width, turned=False)


def sheet(*pieces: Piece, **rules: Any) -> Sheet:
    plain: dict[str, Any] = {
        "stock": "board",
        "material": "sheet",
        "length": LENGTH,
        "width": WIDTH,
        "edge_trim": TRIM,
        "kerf": KERF,
        "margin": 0,
        "price": None,
        "on_hand": False,
        "first_cut": "rip",
        "pieces": pieces,
    }
    return Sheet(**{**plain, **rules})


TWO_STRIPS = (
    piece("a", 10, 10, 600, 200),
    piece("b", 10 + 600 + KERF, 10, 300, 200),
    piece("c", 10, 10 + 200 + KERF, 700, 150),
)


def test_beside_the_strips_is_what_the_trimmed_sheet_has_less_the_strips_and_the_cut_between() -> (
    None
):
    slack = sheet_slack(sheet(*TWO_STRIPS))

    assert slack.across == (WIDTH - 2 * TRIM) - 200 - KERF - 150
    assert [strip.parts for strip in slack.strips] == [("a", "b"), ("c",)]
    assert [strip.size for strip in slack.strips] == [200, 150]


def test_along_a_strip_is_what_the_trimmed_sheet_has_less_pieces_and_cuts() -> None:
    slack = sheet_slack(sheet(*TWO_STRIPS))

    assert [strip.along for strip in slack.strips] == [
        (LENGTH - 2 * TRIM) - 600 - KERF - 300,
        (LENGTH - 2 * TRIM) - 700,
    ]
    assert slack.least == min(slack.across, *(strip.along for strip in slack.strips))


def test_crosscuts_first_make_the_strips_across_the_sheet() -> None:
    pieces = (piece("a", 10, 10, 400, 480), piece("b", 10 + 400 + KERF, 10, 300, 100))

    slack = sheet_slack(sheet(*pieces, first_cut="crosscut"))

    assert slack.across == (LENGTH - 2 * TRIM) - 400 - KERF - 300
    assert [strip.along for strip in slack.strips] == [0, (WIDTH - 2 * TRIM) - 100]


def test_where_a_piece_lies_does_not_change_the_slack_of_its_strip() -> None:
    moved = put(sheet(*TWO_STRIPS), "pieces.1.x", 10 + 600 + KERF + 50)

    assert sheet_slack(moved) == sheet_slack(sheet(*TWO_STRIPS))


def test_pieces_beside_each_other_in_a_strip_have_the_room_that_the_strip_leaves_them() -> None:
    stacked = (
        piece("a", 10, 10, 600, 200),
        piece("b", 10 + 600 + KERF, 10, 300, 90),
        piece("c", 10 + 600 + KERF, 10 + 90 + KERF, 250, 101),
    )

    (strip,) = sheet_slack(sheet(*stacked)).strips

    assert strip.rows == 200 - 90 - KERF - 101
    assert strip.along == (LENGTH - 2 * TRIM) - 600 - KERF - 300


def test_a_strip_whose_pieces_lie_end_to_end_only_has_no_rows() -> None:
    assert [strip.rows for strip in sheet_slack(sheet(*TWO_STRIPS)).strips] == [None, None]


def test_a_piece_as_large_as_the_sheet_leaves_nothing_either_way() -> None:
    whole = sheet(piece("a", 0, 0, LENGTH, WIDTH), edge_trim=0)

    slack = sheet_slack(whole)

    assert (slack.across, slack.strips[0].along, slack.least) == (0, 0, 0)


@pytest.mark.parametrize(("count", "left"), [(1, 1000 - 300), (3, 1000 - 3 * 300 - 2 * KERF)])
def test_a_stick_has_left_what_its_pieces_and_the_cuts_between_them_do_not_take(
    count: int, left: int
) -> None:
    pieces = tuple(StickPiece(part=f"r{i}", start=i * 304, length=300) for i in range(count))
    stick = Stick(stock="lip", length=1000, price=None, on_hand=False, kerf=KERF, pieces=pieces)

    assert stick_slack(stick) == left
    assert least_slack([], [stick]) == left


def test_the_least_slack_is_that_of_the_tightest_sheet_and_none_without_any() -> None:
    wide = sheet(piece("a", 10, 10, 100, 100))

    assert least_slack([wide, sheet(*TWO_STRIPS)], []) == sheet_slack(sheet(*TWO_STRIPS)).least
    assert least_slack([], []) is None


def test_the_checker_agrees_with_the_slack_and_finds_one_tick_more() -> None:
    good = with_slack(sheet(*TWO_STRIPS))
    wrong = [
        put(good, "slack.across", lambda old: old + 1),
        put(good, "slack.strips.1.along", lambda old: old - 1),
        put(good, "slack.strips.0.size", lambda old: old + 1),
        put(good, "slack.strips.0.rows", 0),
        put(good, "slack.strips.0.parts", ("a",)),
        put(good, "slack.strips", lambda strips: strips[:1]),
        put(good, "slack.least", lambda old: old - 1),
    ]

    assert slack_codes(good) == []
    for one in wrong:
        assert slack_codes(one) == [Code.CUT_SLACK]


def cut_plan(one: Sheet) -> CutPlan:
    """Its parts are not listed: findings on them are of no interest here."""
    cost = Cost(
        currency="USD",
        sheets=money(0),
        mouldings=money(0),
        stock_bound=money(0),
        total=money(0),
        complete=False,
    )
    return CutPlan(
        unit="mm",
        status=Status.FEASIBLE,
        sheets=(one,),
        sheet_count=1,
        sheet_bound=1,
        cost=cost,
        timing=Timing(seconds=0),
    )


def slack_codes(one: Sheet) -> list[Code]:
    found = {finding.code for finding in check_cut(cut_plan(one))}
    return sorted(found & {Code.CUT_SLACK, Code.CUT_SLACK_LEAST})


def test_a_least_slack_without_the_slack_of_every_sheet_is_found() -> None:
    plan = cut_plan(sheet(*TWO_STRIPS))

    assert Code.CUT_SLACK_LEAST in {f.code for f in check_cut(put(plan, "least_slack", 5))}
    assert Code.CUT_SLACK_LEAST not in {f.code for f in check_cut(plan)}
