"""The swing of a hung case of a job: trim, ways out, pairs, what stands in the way."""

from __future__ import annotations

from math import asin, cos, degrees, hypot, radians, sin, sqrt
from typing import Any

import pytest
from pydantic import ValidationError

from solver.doorway.swing_answer import laid_out, planned_swing, swing_figures, swing_of_case
from solver.doorway.swing_clearance import binding, gap_needed, hinge_gap_needed, swings
from solver.doorway.swing_formulas import explained
from solver.doorway.swing_of_job import box_of, swing_of
from solver.errors import InputError
from solver.intake.load import load
from solver.job.hinge_side import hinge_side
from solver.plan.swinging import Swinging
from solver.units import inches
from tests.doorways import placed_job
from tests.swing_brute import stepped

CASE = {"depth": "9", "width": "26", "height": "78"}


def answer(case: dict[str, Any] | None = None, **measures: Any) -> Swinging:
    job = placed_job({**CASE, **(case or {})}, jamb_depth="4-9/16", **measures)
    return swing_of_case(job, job.cases[0])


def test_a_case_that_clears_has_no_ways_out() -> None:
    good = answer({"width": "26"})

    assert good.swings
    assert good.binds_at is None
    assert good.ways_out == ()
    assert good.latch_gap == inches("28-1/4") - inches("1/8") - inches(26)


def test_every_way_out_that_is_said_to_clear_does_so_in_small_steps() -> None:
    job = placed_job({**CASE, "width": "27-1/4"}, jamb_depth="4-9/16")
    stuck, swing = swing_of_case(job, job.cases[0]), laid_out(job, job.cases[0])
    ways = {way.what: way for way in stuck.ways_out}

    assert not stuck.swings
    assert {"less depth", "narrower", "bevel", "step", "other way", "wider opening"} <= set(ways)
    assert stepped(swing.but(depth=ways["less depth"].to), 90).binds_at is None
    assert stepped(swing.but(width=ways["narrower"].to), 90).binds_at is None
    assert stepped(swing.but(opening=ways["wider opening"].to), 90).binds_at is None
    for what in ("less depth", "narrower", "bevel", "step", "wider opening"):
        assert ways[what].swings


def test_a_tick_less_of_any_way_out_would_not_do() -> None:
    job = placed_job({**CASE, "width": "27-1/4"}, jamb_depth="4-9/16")
    swing = laid_out(job, job.cases[0])
    ways = {way.what: way.to or 0 for way in swing_of_case(job, job.cases[0]).ways_out}

    assert not swings(swing.but(depth=ways["less depth"] + 1), 90)
    assert not swings(swing.but(width=ways["narrower"] + 1), 90)
    assert not swings(swing.but(opening=ways["wider opening"] - 1), 90)


def test_the_pin_moved_out_and_the_case_stood_proud_are_ways_out() -> None:
    """With the pin a out: sqrt((a + w)^2 + d^2) - (a + w) = g - c; stood f proud, the corner
    passes the jamb's edge f behind the pin: sqrt((R + c)^2 - f^2)."""
    job = placed_job({**CASE, "width": "26-5/8", "depth": "9", "back": "none"}, jamb_depth="4-9/16")
    swing = laid_out(job, job.cases[0])
    ways = {way.what: way for way in swing_of_case(job, job.cases[0]).ways_out}
    gap, depth, c = swing.latch_gap, swing.depth, swing.clearance
    aside = (depth**2 - (gap - c) ** 2) / (2 * (gap - c)) - swing.width
    radius = hypot(swing.aside + swing.width, depth) + c
    out = sqrt(radius**2 - (swing.aside + swing.width + gap) ** 2)

    assert ways["pin"].to == pytest.approx(aside, abs=2)
    assert ways["proud"].to == pytest.approx(out, abs=2)
    assert ways["pin"].swings
    assert ways["proud"].swings
    assert stepped(swing.but(stands_out=ways["proud"].to), 90).binds_at is None


@pytest.mark.parametrize(("inside", "behind"), [(4, 1), (7, 2), (10, 3), (13, 4)])
def test_a_pivot_set_in_never_needs_less_room_than_the_corner(inside: int, behind: int) -> None:
    """Triangle's inequality: the two sweeping corners are together at least the diagonal away."""
    job = placed_job({**CASE, "back": "none"}, jamb_depth="4-9/16")
    edge = swing_of(job, job.cases[0]).but(aside=0, hinge_gap=0, clearance=0)
    pivot = edge.but(aside=-inches(inside), proud=-inches(behind))

    both = gap_needed(pivot, 90) + hinge_gap_needed(pivot, 90)
    assert both >= gap_needed(edge, 90)


def casing(**measures: Any) -> dict[str, Any]:
    return {"name": "casing", "side": "hinge", "width": "2-1/4", "thickness": "3/4", **measures}


def test_plain_casing_stays_on_the_wall_and_a_cover_travels() -> None:
    cover = {"name": "cover", "side": "latch", "width": "4", "thickness": "3/4", "covers": "2-3/8"}
    both = {one.name: one for one in answer(trim=[casing(reveal="3/16"), cover]).trim}

    assert not both["casing"].travels
    assert both["cover"].travels
    assert both["cover"].binds_at is None
    assert "on the wall it binds at 0°" in both["cover"].why


def test_a_cover_on_the_room_side_of_a_case_that_swings_in_stays_on_the_wall() -> None:
    cover = {"name": "cover", "side": "latch", "width": "4", "thickness": "3/4", "covers": "1"}
    one = answer({"width": "26", "depth": "4-1/2"}, swing="in", trim=[cover]).trim[0]

    assert not one.travels
    assert "on the case it binds at 0°" in one.why


def test_casing_over_the_opening_at_the_hinge_side_binds_either_way_and_the_case_is_stuck() -> None:
    stuck = answer(trim=[casing(covers="1/2")])

    assert not stuck.swings
    assert stuck.binds_at is not None
    assert stuck.trim[0].binds_at == stuck.binds_at


def test_something_in_the_arc_stops_the_case_where_its_corner_meets_it() -> None:
    """A table 20 in out, its near edge facing the pin: the leading latch corner gets there when
    (a + w) sin t = 20, t = asin(20 / 26-1/8)."""
    table = {"name": "table", "along": "0", "out": "20", "width": "40", "depth": "30"}
    stuck = answer(in_the_swing=[table])

    assert stuck.binds == "case on table"
    assert stuck.binds_at == pytest.approx(degrees(asin(20 / 26.125)), abs=0.06)


@pytest.mark.parametrize(
    ("level", "in_the_way"), [({"bottom": "79"}, False), ({"top": "1"}, False), ({}, True)]
)
def test_what_hangs_above_or_lies_below_the_case_is_not_in_its_way(
    level: dict[str, str], in_the_way: bool
) -> None:
    table = {"name": "table", "along": "0", "out": "20", "width": "40", "depth": "30", **level}

    assert answer({"above_floor": "1"}, in_the_swing=[table]).swings is not in_the_way


BESIDE = {"width": "40", "height": "60", "depth": "12", "doorway": None, "kind": "standing"}


def beside(other: dict[str, Any], **obstacle: Any) -> Swinging:
    """The swing with another case in the way, or a box, 20 in out with its edge at the pin."""
    box = {"name": "neighbour", "along": "0", "out": "20", **obstacle}
    cases = [{"name": "swinging", **CASE}, {"name": "bookcase", **BESIDE, **other}]
    job = placed_job({"cases": cases}, jamb_depth="4-9/16", in_the_swing=[box])
    return swing_of_case(job, job.cases[0])


@pytest.mark.parametrize("above", ["0", "79"])
def test_a_neighbouring_case_is_in_the_way_with_its_own_sizes(above: str) -> None:
    box = {"width": "40", "depth": "12", "bottom": above, "top": f"{60 + int(above)}"}
    other = {"kind": "wall", "above_floor": above}

    ours = beside(other, case="bookcase")
    assert ours == beside(other, **box)
    assert (ours.binds_at is None) is (above == "79")


def test_a_case_of_the_next_doorway_is_in_the_way_as_it_stands_open() -> None:
    doors = [{"name": "pantry", "widths": ["28-1/4"], "heights": ["80"], "jamb_depth": "4-9/16",
              "in_the_swing": [{"name": "the other", "case": "other", "along": "0", "out": "20"}]},
             {"name": "next", "widths": ["30"], "heights": ["80"]}]  # fmt: skip
    hung = {"kind": "hung", "shelves": 5, **CASE}
    job = load(
        {
            "job": {"unit": "in"},
            "doorway": doors,
            "case": [
                {"name": "one", "doorway": "pantry", **hung},
                {"name": "other", "doorway": "next", **hung, "depth": "7"},
            ],
            "item": [{"name": "jug", "width": "4 in", "height": "6 in", "depth": "4 in"}],
        },
        "in",
    )
    (box,) = (box_of(job, one) for one in job.doorways[0].in_the_swing)

    assert (box.width, box.depth) == (inches(7), inches(26))


@pytest.mark.parametrize(
    ("obstacle", "said"),
    [
        ({"width": "40"}, "give width and depth"),
        ({"case": "bookcase", "width": "40"}, "give width and depth"),
        ({"case": "book case"}, "is not in the job"),
    ],
)
def test_what_stands_there_is_given_by_size_or_by_case(obstacle: Any, said: str) -> None:
    with pytest.raises(ValidationError, match=said):
        beside({}, **obstacle)


def test_a_wall_by_the_hinge_limits_how_far_it_opens() -> None:
    """Open past a right angle, the leading latch corner goes to -x: at 6 in it meets the wall at
    90 + asin(6 / 26-1/8)."""
    full = answer(wall_by_hinge="6")

    assert full.opens_fully == pytest.approx(90 + degrees(asin(6 / 26.125)), abs=0.06)
    assert full.stopped_by == "case on wall by the hinge"
    assert full.swings


def test_a_room_too_shallow_stops_it() -> None:
    assert answer(room_in_front="20").binds == "case on what is opposite"
    assert answer(swing="in", room_in_front="20").binds != "case on what is opposite"


PAIR = {"cases": [{"name": "left", **CASE}, {"name": "right", **CASE}]}


def test_two_cases_are_hinged_on_either_jamb_and_share_what_is_between() -> None:
    job = placed_job(dict(PAIR), widths=["56"], jamb_depth="4-9/16", hinge_side="right")
    first, second = job.cases
    found = swing_of_case(job, first)
    # One passes the other's shut side on R; both pass a line between them on R each.
    radius = max(
        hypot(26.125, 9 - 7 / 32), hypot(26.125 - 1 / 16, 9)
    )  # box, and back 1/16 in from its edge
    alone = radius - 26.125 + 1 / 8
    together = 2 * (radius - 26.125) + 1 / 8

    assert hinge_side(job, job.doorways[0], first) == "right"
    assert hinge_side(job, job.doorways[0], second) == "left"
    assert found.latch_gap == inches(56) - 2 * inches("1/8") - 2 * inches(26)
    assert found.latch_gap_needed == pytest.approx(alone * inches(1), abs=2)
    assert found.pair is not None
    assert found.pair.gap_together == pytest.approx(together * inches(1), abs=2)
    assert found.pair.opens_together is (found.pair.gap >= found.pair.gap_together)


def test_the_other_case_of_a_pair_counts_as_deep_as_it_is_planned() -> None:
    """A central pivot, opened to 30 degrees: the latch side stops aslant past the other's edge."""
    deep = {"name": "left", **CASE, "depth": "14"}
    shallow = {"name": "right", **CASE, "depth": {"least": "2", "most": "5"}}
    job = placed_job({"cases": [deep, shallow]}, widths=["56"], pin={"inside": 13}, opens_to=30)
    depths = {"left": inches("14-7/32"), "right": inches(3)}
    found = planned_swing(job, job.cases[0], depths)

    assert found is not None
    # 13 + 1/8 off the pin, the line of the latch side meets the level of the edge 3 in back.
    wanted = (13 + 1 / 8 + 3 * sin(radians(30))) / cos(radians(30)) - 13
    assert found.latch_gap_needed == pytest.approx(wanted * inches(1), abs=1)
    assert found.latch_gap_needed < swing_of_case(job, job.cases[0]).latch_gap_needed


def test_three_cases_in_a_doorway_are_refused() -> None:
    cases = [{"name": n, **CASE, "width": "15"} for n in "abc"]
    job = placed_job({"cases": cases}, widths=["56"])

    with pytest.raises(InputError, match="3 hung cases"):
        swing_of_case(job, job.cases[0])


def test_a_hung_case_without_a_doorway_names_those_there_are() -> None:
    job = placed_job({**CASE, "doorway": None})

    with pytest.raises(InputError, match=r"names no doorway; .* one of: 'pantry'"):
        swing_of_case(job, job.cases[0])


def test_every_figure_is_explained_with_formula_numbers_and_source() -> None:
    job = placed_job(dict(CASE), jamb_depth="4-9/16")
    swing = swing_of(job, job.cases[0])
    figured = explained(swing, swing_figures(swing, 90), "in")

    assert all(one.formula and one.numbers and one.source for one in figured)
    by_name = {one.what: one for one in figured}
    assert by_name["widest case"].numbers == "sqrt((28-1/4 - 1/8)^2 - (0 + 9)^2) - 1/8"


def test_swinging_the_other_way_is_tried_with_the_trim_on_that_side() -> None:
    job = placed_job(dict(CASE), jamb_depth="4-9/16")
    out, inward = (swing_of(job, job.cases[0], way=way) for way in ("out", "in"))

    assert (out.back_leads, inward.back_leads) == (False, True)
    assert binding(inward, 90) is None
