"""Traps of cutting sheets that are in print, and the change that the trade advises.

The sums stand beside each: n parts and n - 1 saw cuts of 1/8 in side by side. The rule
`(48 - (n - 1) k) / n` for strips of a 4 ft sheet is plain arithmetic.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from solver.plan.slack_and_advice import Advice
from solver.units import inches
from tests.advice_lists import Row, advised_on

SHEET = inches(96), inches(48)


def only(what: str, rows: list[Row], **rules: Any) -> Advice:
    found = advised_on(rows, SHEET, **rules)
    (advice,) = [one for one in found.advice if one.what == what]
    return advice


def test_four_strips_of_twelve_inches_do_not_come_from_a_sheet_but_of_eleven_seven_eighths() -> (
    None
):
    # 4 x 12 + 3 x 1/8 = 48-3/8; 4 x 11-7/8 + 3/8 = 47-7/8, 1/8 in left for four strips.
    advice = only("narrower", [("side", inches(90), inches(12), 4)])

    assert advice.by == inches("1/8")
    assert advice.to == inches("11-7/8")
    assert advice.sheets_saved == 1
    assert advice.saves == Decimal(65)
    assert advice.smallest
    assert 4 * (advice.to + inches("1/32")) + 3 * inches("1/8") + advice.slack > inches(48)


def test_three_shelves_of_thirty_two_inches_do_not_come_from_a_strip_but_a_little_shorter() -> None:
    # 3 x 32 + 2 x 1/8 = 96-1/4; 3 x 31-29/32 + 1/4 = 95-31/32 leaves the 1/32 in that is kept.
    advice = only("shorter", [("shelf", inches(32), inches(46), 3)])

    assert (advice.by, advice.to) == (inches("3/32"), inches("31-29/32"))
    assert advice.sheets_saved == 1


def test_four_pieces_of_two_feet_do_not_come_from_eight_feet() -> None:
    # 4 x 24 + 3 x 1/8 = 96-3/8 (saw.coach: "four 24 in. pieces do not come from 96 in.").
    advice = only("shorter", [("side", inches(24), inches(46), 4)])

    assert advice.to == inches("23-7/8")


@pytest.mark.parametrize(
    ("strips", "just", "advised"),
    [
        # Edges used as they come: (48 - (n - 1)/8) / n, and less for 1/32 in of room.
        (4, "11-29/32", "11-7/8"),
        (5, "9-1/2", "9-15/32"),
    ],
)
def test_a_strip_that_just_fits_stays_and_the_next_wider_is_advised_with_room(
    strips: int, just: str, advised: str
) -> None:
    fits = advised_on([("side", inches(90), inches(just), strips)], SHEET)
    wider = only("narrower", [("side", inches(90), inches(just) + inches("1/32"), strips)])

    assert all(one.what != "narrower" for one in fits.advice)
    assert wider.to == inches(advised)


def test_a_thinner_blade_is_advised_where_it_saves_and_leaves_room() -> None:
    # 8 x 5-29/32 + 7 x 1/8 = 48-1/8; with 7 x 3/32 it is 47-29/32.
    advice = only("kerf", [("slat", inches(90), inches("5-29/32"), 8)])

    assert (advice.by, advice.to) == (inches("1/32"), inches("3/32"))
    assert advice.text == "kerf 3/32 in instead of 1/8 in"
    assert advice.parts == ()


def test_a_thinner_blade_that_would_leave_no_room_is_not_advised() -> None:
    # 8 slats and 7 cuts of 3/32 that take all of 48 in but the 1/32 in of room.
    just = (inches(48) - inches("1/32") - 7 * inches("3/32")) // 8

    assert only("kerf", [("slat", inches(90), just, 8)]).to == inches("3/32")
    assert only("kerf", [("slat", inches(90), just + 1, 8)]).to == inches("5/64")
