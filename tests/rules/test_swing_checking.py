"""The checker's own way to the latch gap agrees with the planner's; a hung plan is clean."""

from __future__ import annotations

from math import ceil, cos, radians, sin
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from solver.checking.check import check
from solver.checking.findings import Code
from solver.checking.swing import reach_needed
from solver.doorway.swing_clearance import gap_needed
from solver.doorway.swing_scene import Swing, case_outlines
from solver.units import TICKS_PER_MM as MM
from solver.units import Ticks
from tests.mutations_swing import DOORWAY, MORE, hung
from tests.property.test_swing_brute import swings_of_any_kind
from tests.sample_plans import good_plan
from tests.swing_brute import stepped

# A pivot 295 mm in, in a case 339 wide and 350 deep, 37 mm proud. At a right angle the trailing
# face lies along the jamb, 350 + 37 from the pin; both corners of that face are then past the jamb.
SET_IN = Swing(
    opening=417 * MM,
    jamb=148 * MM,
    width=339 * MM,
    depth=350 * MM,
    hinge_gap=27 * MM,
    aside=-295 * MM,
    proud=37 * MM,
    stands_out=20 * MM,
    clearance=6 * MM,
)
# A central pivot 289 mm in that opens to 30 degrees only: the latch side, 572 - 289 from the pin,
# stops aslant past the edge of a jamb 95 deep; its trailing corner is in back of the jamb by then.
ASLANT = Swing(
    opening=689 * MM,
    jamb=95 * MM,
    width=572 * MM,
    depth=298 * MM,
    hinge_gap=10 * MM,
    aside=-289 * MM,
    clearance=3 * MM,
)


def restated(swing: Swing, opens_to: int) -> float:
    """Latch gap by the checker's way, not rounded [tick]."""
    outlines = [[(float(x), float(y)) for x, y in shape.corners] for shape in case_outlines(swing)]
    jamb = (-swing.jamb - swing.pin[1], -swing.pin[1])
    turn = radians(opens_to)
    reach = max(reach_needed(one, jamb, swing.clearance, turn) for one in outlines)
    return max(0.0, reach - swing.aside - swing.width)


def test_the_good_plan_hung_in_a_doorway_has_no_findings() -> None:
    assert check(hung(good_plan())) == ()


@pytest.mark.parametrize("what", MORE)
def test_exactly_that_is_found(what: str) -> None:
    code, change = MORE[what]

    assert {finding.code for finding in check(change(good_plan()))} == {code}


@settings(max_examples=30, deadline=None)
@given(
    door=st.fixed_dictionaries(
        {
            "widths": st.integers(1258, 1420).map(lambda width: [width]),
            "swing": st.sampled_from(["out", "in"]),
            "pin": st.sampled_from(
                [
                    *({}, {"proud": 22}, {"behind": 30}, {"proud": 3, "aside": 20}, {"aside": 3}),
                    *({"inside": 60}, {"inside": 627}, {"inside": 1200, "proud": 40}),
                    {"inside": 1100, "behind": 110},
                ]
            ),
        },
        optional={
            "jamb_depth": st.sampled_from([20, 90, 400]),
            "opens_to": st.sampled_from([30, 45, 90, 120, 170]),
            "running_clearance": st.sampled_from([1, 5]),
            "hinge_gap": st.sampled_from([1, 3]),
        },
    ),
    wall=st.sampled_from([{}, {"stands_out": 10}, {"stands_out": 50}, {"set_back": 10}]),
)
def test_the_figures_of_any_swing_are_those_worked_out_here(
    door: dict[str, Any], wall: dict[str, int]
) -> None:
    found = check(hung(good_plan(), {**DOORWAY, **door, **wall}))
    named = {finding.code for finding in found if finding.code.value.startswith("swing.")}
    assert named <= {Code.SWING_NOTED}


@given(swing=swings_of_any_kind(), opens_to=st.sampled_from([30, 60, 90, 120, 180]))
@example(SET_IN, 90)
@example(ASLANT, 30)
@settings(max_examples=60, deadline=None)
def test_both_ways_to_the_latch_gap_agree(swing: Swing, opens_to: int) -> None:
    square = swing.but(relief=None)

    assert abs(restated(square, opens_to) - gap_needed(square, opens_to)) <= 1


def test_a_face_that_ends_its_turn_along_the_jamb_needs_the_gap() -> None:
    # Reach: depth and pin proud, and the clearance; less what the case reaches shut.
    wanted = 350 * MM + 37 * MM + 6 * MM - (339 - 295) * MM
    needs(SET_IN, 90, wanted)


def test_a_face_that_stops_aslant_past_the_edge_of_the_jamb_needs_the_gap() -> None:
    latch, turn = (572 - 289) * MM, radians(30)
    # The line of the face, the clearance off, where it meets the level of the edge.
    reach = (latch + ASLANT.clearance + ASLANT.jamb * sin(turn)) / cos(turn)

    needs(ASLANT, 30, ceil(reach - latch))


def needs(swing: Swing, opens_to: int, wanted: Ticks) -> None:
    """Hold both ways, and turning it step by step, against a figure worked out by hand [tick]."""
    at_it = swing.but(opening=swing.hinge_gap + swing.width + wanted)

    assert ceil(restated(swing, opens_to) - 1e-6) == wanted
    assert gap_needed(swing, opens_to) == wanted
    assert stepped(at_it, opens_to).nearest >= swing.clearance - 1
    assert stepped(at_it.but(opening=at_it.opening - 3), opens_to).nearest < swing.clearance - 1
