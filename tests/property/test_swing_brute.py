"""Any swing: exact answers against a stepwise sweep with general-purpose geometry (shapely)."""

from __future__ import annotations

from math import degrees, hypot, pi, radians

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from solver.doorway.swing_clearance import (
    binding,
    deepest,
    gap_needed,
    hinge_gap_needed,
    passage,
    passes_latch,
    swings,
    tightest,
    widest,
)
from solver.doorway.swing_scene import Relief, Swing, SwingObstacle, TrimStrip, case_outlines
from solver.units import TICKS_PER_MM, Ticks
from tests.swing_brute import STEP, stepped, stepped_passage

MM = TICKS_PER_MM
STEPS = settings(max_examples=25, deadline=None)


def lengths(least: int, most: int) -> st.SearchStrategy[Ticks]:
    return st.integers(least, most).map(lambda n: n * MM)


@st.composite
def reliefs(draw: st.DrawFn) -> Relief | None:
    if draw(st.booleans()):
        return None
    return Relief(draw(lengths(5, 60)), draw(lengths(5, 90)), stepped=draw(st.booleans()))


@st.composite
def swings_of_any_kind(draw: st.DrawFn) -> Swing:
    """Pins at the corner, proud, set in and central; backs, reliefs, trim, things in the way."""
    width, depth = draw(lengths(300, 1000)), draw(lengths(100, 350))
    aside = draw(st.one_of(lengths(0, 25), lengths(-300, -30)))
    proud = draw(st.one_of(st.just(0), lengths(1, 60), lengths(-90, -1)))
    gap = max(aside, draw(lengths(2, 30)))
    opening = gap + width + draw(lengths(3, 140))
    thing = SwingObstacle("table", (opening // 2, opening), (draw(lengths(200, 1200)), 1500 * MM))
    trim = TrimStrip("casing", -80 * MM, -draw(lengths(0, 20)), draw(lengths(8, 25)))
    cover = TrimStrip("cover", gap + width - 30 * MM, opening + 30 * MM, 18 * MM)
    return Swing(
        opening=opening,
        jamb=draw(lengths(90, 250)),
        width=width,
        depth=depth,
        hinge_gap=gap,
        aside=aside,
        proud=proud,
        stands_out=draw(lengths(-20, 20)),
        clearance=draw(lengths(1, 6)),
        back=draw(st.sampled_from([0, 6 * MM])),
        back_inset=draw(lengths(0, 3)),
        back_leads=draw(st.booleans()),
        relief=draw(reliefs()),
        fixed_trim=draw(st.sampled_from([(), (trim,)])),
        carried=draw(st.sampled_from([(), (cover,)])),
        things=draw(st.sampled_from([(), (thing,)])),
    )


def reach(swing: Swing) -> float:
    """Farthest that any corner of the case is from the pin [tick]."""
    return max(hypot(*corner) for shape in case_outlines(swing) for corner in shape.corners)


@given(swing=swings_of_any_kind(), opens_to=st.sampled_from([60, 90, 120]))
@STEPS
def test_binding_and_nearest_are_those_of_the_sweep(swing: Swing, opens_to: int) -> None:
    seen, bound = stepped(swing, opens_to), binding(swing, opens_to)

    if seen.binds_at is None:
        # Between two steps, or for a touch, nothing of any depth can have been missed.
        assert (
            bound is None
            or stepped(swing, opens_to, STEP / 20).binds_at is not None
            or (_grazes(swing, degrees(bound.angle)))
        )
    else:
        assert bound is not None
        assert degrees(bound.angle) <= seen.binds_at + 1e-6
    if bound is None:
        room, _ = tightest(swing, opens_to)
        moved = reach(swing) * radians(STEP)
        assert room <= seen.nearest + 1
        assert seen.nearest - moved <= room + 1


def _grazes(swing: Swing, angle: float) -> bool:
    """Whether what binds shares less at a little more angle than the sweep can see."""
    return stepped(swing, max(1, int(angle) + 1), 0.001).binds_at is None


@given(swing=swings_of_any_kind())
@STEPS
def test_limits_hold_and_a_tick_more_does_not(swing: Swing) -> None:
    clear = swing.but(relief=None)
    gap = gap_needed(clear, 90)
    opening = clear.hinge_gap + clear.width + gap

    assert passes_latch(clear.but(opening=opening), 90)
    assert not passes_latch(clear.but(opening=opening - 1), 90)
    for most, name in ((widest(clear, 90), "width"), (deepest(clear, 90), "depth")):
        if most is not None:
            assert passes_latch(clear.but(**{name: most}), 90)
            assert name == "depth" or not passes_latch(clear.but(**{name: most + 1}), 90)


@given(swing=swings_of_any_kind())
@STEPS
def test_a_needed_gap_is_enough_and_not_too_much_by_the_sweep(swing: Swing) -> None:
    bare = swing.but(things=(), carried=(), fixed_trim=())
    opening = bare.hinge_gap + bare.width + gap_needed(bare, 90)
    seen = stepped(bare.but(opening=opening, hinge_gap=bare.hinge_gap), 90)
    assume(seen.binds_at is None)  # the hinge side may bind: another test's subject

    assert seen.nearest >= bare.clearance - 1
    assert seen.nearest <= bare.clearance + 1 + reach(bare) * radians(STEP)


@given(swing=swings_of_any_kind(), angle=st.integers(0, 180))
@STEPS
def test_the_passage_is_that_of_the_turned_outline(swing: Swing, angle: int) -> None:
    wanted = max(0.0, stepped_passage(swing, angle))

    assert abs(passage(swing, angle) - wanted) <= 1 + reach(swing) * pi * 1e-12


@given(swing=swings_of_any_kind())
@STEPS
def test_a_case_with_both_gaps_and_nothing_in_the_way_swings(swing: Swing) -> None:
    alone = swing.but(things=(), carried=(), fixed_trim=(), stands_out=0, proud=-abs(swing.proud))
    wide = alone.but(hinge_gap=max(alone.hinge_gap, hinge_gap_needed(alone, 90)))
    wide = wide.but(opening=wide.hinge_gap + wide.width + gap_needed(wide, 90))

    assert swings(wide, 90)
    assert stepped(wide, 90).binds_at is None
