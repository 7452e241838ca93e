"""Two cases opened together, turned step by step with general-purpose geometry."""

from __future__ import annotations

from math import hypot, radians

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity

from solver.doorway.swing_of_job import pair_swing
from solver.doorway.swing_scene import Swing, case_outlines
from solver.units import Ticks
from tests.property.test_swing_brute import lengths
from tests.swing_brute import outline

STEP = 0.1
"""[degrees]"""


@st.composite
def edge_hung(draw: st.DrawFn) -> Swing:
    aside = draw(lengths(0, 12))
    return Swing(
        opening=0,
        jamb=0,
        width=draw(lengths(300, 700)),
        depth=draw(lengths(100, 300)),
        hinge_gap=aside,
        aside=aside,
        clearance=draw(lengths(1, 5)),
        back=draw(st.sampled_from([0, 6 * 320])),
        back_inset=draw(lengths(0, 3)),
        back_leads=draw(st.booleans()),
    )


def nearest_together(one: Swing, gap: Ticks) -> float:
    """Least distance of two equal cases that open at one pace, a gap apart when shut [tick]."""
    left = outline(case_outlines(one))
    apart = 2 * (one.aside + one.width) + gap
    near = float("inf")
    for number in range(int(90 / STEP) + 1):
        turned = affinity.rotate(left, number * STEP, origin=(0, 0))
        right = affinity.translate(affinity.scale(turned, -1, 1, origin=(0, 0)), apart, 0)
        near = min(near, turned.distance(right))
    return near


@given(swing=edge_hung())
@settings(max_examples=15, deadline=None)
def test_the_gap_for_opening_together_is_enough_and_not_too_much(swing: Swing) -> None:
    gap = pair_swing(swing, swing).gap_together
    near, moved = nearest_together(swing, gap), 2 * hypot(
        swing.width + swing.aside, swing.depth
    ) * radians(STEP)  # fmt: skip

    assert near >= swing.clearance - 2
    assert near <= swing.clearance + 2 + moved
