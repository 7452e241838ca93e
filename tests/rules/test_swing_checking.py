"""The checker's own way to the latch gap agrees with the planner's; a hung plan is clean."""

from __future__ import annotations

from math import radians
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.checking.check import check
from solver.checking.findings import Code
from solver.checking.swing import reach_needed
from solver.swing.limits import gap_needed
from solver.swing.scene import Swing, body
from tests.mutations_swing import DOORWAY, MORE, hung
from tests.property.test_swing_brute import swings_of_any_kind
from tests.sample_plans import good_plan


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
                [{}, {"proud": 22}, {"behind": 30}, {"proud": 3, "aside": 20}, {"aside": 3}]
            ),
        },
        optional={
            "jamb_depth": st.sampled_from([20, 90, 400]),
            "opens_to": st.sampled_from([45, 90, 120, 170]),
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


@given(swing=swings_of_any_kind())
@settings(max_examples=60, deadline=None)
def test_both_ways_to_the_latch_gap_agree(swing: Swing) -> None:
    square = swing.but(relief=None)
    corners = [(float(x), float(y)) for shape in body(square) for x, y in shape.corners]
    jamb = (-square.jamb - square.pin[1], -square.pin[1])
    reach = reach_needed(corners, jamb, square.clearance, radians(90))

    restated = max(0.0, reach - square.aside - square.width)
    assert abs(restated - gap_needed(square, 90)) <= 1
