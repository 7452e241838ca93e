"""The checker's own way to the latch gap agrees with the planner's; a hung plan is clean."""

from __future__ import annotations

from math import radians

from hypothesis import given, settings

from solver.checking.check import check
from solver.checking.swing import reach_needed
from solver.swing.limits import gap_needed
from solver.swing.scene import Swing, body
from tests.mutations_swing import hung
from tests.property.test_swing_brute import swings_of_any_kind
from tests.sample_plans import good_plan


def test_the_good_plan_hung_in_a_doorway_has_no_findings() -> None:
    assert check(hung(good_plan())) == ()


@given(swing=swings_of_any_kind())
@settings(max_examples=60, deadline=None)
def test_both_ways_to_the_latch_gap_agree(swing: Swing) -> None:
    square = swing.but(relief=None)
    corners = [(float(x), float(y)) for shape in body(square) for x, y in shape.corners]
    jamb = (-square.jamb - square.pin[1], -square.pin[1])
    reach = reach_needed(corners, jamb, square.clearance, radians(90))

    restated = max(0.0, reach - square.aside - square.width)
    assert abs(restated - gap_needed(square, 90)) <= 1
