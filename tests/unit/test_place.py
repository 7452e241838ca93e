"""Sizes from the place, deduction by deduction, and cases that leave theirs to it."""

from __future__ import annotations

from math import hypot, sqrt
from typing import Any

import pytest
from pydantic import ValidationError

from solver.intake.sizes_from_place import (
    TIP_MARGIN,
    longest_round,
    sizes_from_place,
    tip_up_height,
)
from solver.outcome import Limits
from solver.planning.plan_job import plan_job
from solver.units import TICKS_PER_MM, inches, mm, round_down
from tests.doorways import placed_job


def test_a_hung_case_is_the_opening_less_hinge_gap_and_the_gap_to_swing() -> None:
    job = placed_job(
        {"depth": "6-1/4"}, highest_floor_in_swing="1/4", pile="3/8", jamb_depth="4-9/16"
    )
    found, eighth, step = sizes_from_place(job, job.cases[0]), inches("1/8"), job.shop.cutting_step
    # A planted back is 1/16 in from the edge, so the box's own corner decides at 6-1/4 less 7/32,
    # or the back's at 6-1/4: the narrower of the two, w = sqrt((W - c)^2 - d^2) - a each.
    passing = inches("28-1/4") - eighth
    box = sqrt(passing**2 - (inches("6-1/4") - inches("7/32")) ** 2) - eighth
    back = sqrt(passing**2 - inches("6-1/4") ** 2) - eighth + inches("1/16")

    assert found.width.size == round_down(int(min(box, back)), step)
    # The top hinge gives 1/32 in, and hinges stand 57 in apart on a case 28 in wide: less than
    # 1/32 in of droop, and 1/32 in is the step that it is allowed for in.
    droop, foot = inches("1/32"), inches("1/4") + inches("3/8") + inches("1/2")
    assert found.height.size == round_down(inches(80) - eighth - foot - droop, step)
    assert found.above_floor == foot + droop


def droop_of(**measures: Any) -> int:
    job = placed_job({"depth": "6", "width": "26"}, **measures)
    return next(
        one.length
        for one in sizes_from_place(job, job.cases[0]).height.deductions
        if one.what == "droop of the latch side"
    )


def test_hinges_close_together_droop_more_and_the_foot_is_held_higher() -> None:
    near, far = {"old_mortises": ["30", "38", "46"]}, {"old_mortises": ["7", "38", "68"]}

    # 1/32 in x 28.25 / 16 = 0.055 in, up to 1/16 in; x 28.25 / 61 = 0.014 in, up to 1/32 in
    assert droop_of(**near) == inches("1/16")
    assert droop_of(**far) == inches("1/32")


def test_the_planned_case_droops_no_more_than_its_size_allowed_for() -> None:
    job = placed_job({"depth": "6-1/4", "shelves": 6})
    limits = Limits(seed=1, work=0.05, seconds=20)
    (option, *_) = plan_job(job, limits, near=False).options
    assert option.hanging is not None
    figures = {one.key: one for one in option.hanging.cases[0].figures}
    allowed = next(
        one.length
        for one in sizes_from_place(job, job.cases[0]).height.deductions
        if one.what == "droop of the latch side"
    )

    assert figures["droop"].value <= allowed / TICKS_PER_MM
    assert figures["foot"].value >= job.doorways[0].floor_gap / TICKS_PER_MM


def test_a_case_without_sizes_gets_those_of_its_doorway() -> None:
    job = placed_job({"depth": "6-1/4"})
    found = sizes_from_place(job, job.cases[0])

    assert (job.cases[0].width, job.cases[0].height) == (found.width.size, found.height.size)
    assert job.cases[0].above_floor == found.above_floor


def test_inside_sizes_are_the_same_box_less_its_boards() -> None:
    outside = placed_job({"depth": "6-7/32"}).cases[0]  # the back is 7/32
    job = placed_job({"depth": "6", "sizes": "inside"})
    boards = 2 * job.thickness(job.cases[0].material)

    assert job.cases[0].width == outside.width - boards  # type: ignore[operator]
    assert job.cases[0].height == outside.height - boards  # type: ignore[operator]


def test_what_is_said_of_a_size_is_kept() -> None:
    case = placed_job({"depth": "6", "height": "70", "above_floor": "2"}).cases[0]

    assert (case.height, case.above_floor) == (inches(70), inches(2))
    assert isinstance(case.width, int)


def test_the_sizes_of_a_metric_doorway_are_the_same_length() -> None:
    imperial = placed_job({"depth": "6", "width": "26"}, hinge_gap="1/8", head_gap="1/8",
                          floor_gap="1/2", running_clearance="1/8")  # fmt: skip
    metric = placed_job(
        {"depth": "152.4", "width": "660.4"}, "mm",
        widths=["717.55"], heights=["2032"], hinge_gap="3.175", head_gap="3.175",
        floor_gap="12.7", running_clearance="3.175",
    )  # fmt: skip
    pairs = [(job, sizes_from_place(job, job.cases[0])) for job in (imperial, metric)]
    before = [
        one.height.measured - sum(d.length for d in one.height.deductions if "droop" not in d.what)
        for _, one in pairs
    ]

    assert before[0] == before[1]


def test_a_case_without_width_and_doorway_is_told_so() -> None:
    with pytest.raises(ValidationError, match="width"):
        placed_job({"depth": "6", "doorway": None, "kind": "standing"})


def test_of_two_cases_in_a_doorway_one_must_say_its_width() -> None:
    pair = [{"name": "a", "depth": "6"}, {"name": "b", "depth": "6"}]
    with pytest.raises(ValidationError, match="width"):
        placed_job({"cases": pair}, widths=["58"])

    job = placed_job({"cases": [{**pair[0], "width": "27"}, pair[1]]}, widths=["58"])
    rest = sizes_from_place(job, job.cases[1]).width
    assert rest.deductions[0].what == "the other case and its hinge gap"
    assert rest.deductions[0].length == inches(27) + inches("1/8")


def test_an_alcove_leaves_a_strip_on_each_side_and_at_the_head() -> None:
    job = placed_job({"kind": "built-in", "depth": "12"}, widths=["36", "35-3/4", "36-1/4"])
    found = sizes_from_place(job, job.cases[0])

    assert found.width.size == inches("35-3/4") - 2 * inches("3/4")
    assert found.height.size == inches(80) - inches("3/4")
    assert "3/4 in to 1-1/4 in wide" in found.notes[0]


def test_a_case_must_be_stood_up_under_the_ceiling() -> None:
    """sqrt(h^2 + d^2) <= ceiling - 1/4 in."""
    job = placed_job({"kind": "standing", "depth": "16", "width": "26"}, heights=["84"], ceiling=84)
    high, deep = sizes_from_place(job, job.cases[0]).height.size, inches(16)
    step = job.shop.cutting_step

    assert hypot(high, deep) <= inches(84) - TIP_MARGIN
    assert hypot(high + step, deep) > inches(84) - TIP_MARGIN
    assert tip_up_height(inches(84), deep) == int(sqrt((inches(84) - TIP_MARGIN) ** 2 - deep**2))


def test_the_longest_line_round_a_square_turn_is_the_known_one() -> None:
    """A ladder of no thickness: (a^(2/3) + b^(2/3))^(3/2), the classic problem of calculus."""
    a, b = mm(900), mm(1200)

    assert longest_round(a, b, 0) == pytest.approx((a ** (2 / 3) + b ** (2 / 3)) ** 1.5, abs=2)


def test_a_thick_box_round_an_even_turn_is_the_diagonal_less_twice_its_thickness() -> None:
    """At 45 degrees, equal passages: (2 a cos 45 - d) / (1/2) = 2 sqrt(2) a - 2 d."""
    a, d = mm(1000), mm(300)

    assert longest_round(a, a, d) == pytest.approx(2 * sqrt(2) * a - 2 * d, abs=2)
    assert longest_round(a, a, a) == 0


@pytest.mark.parametrize(
    ("way", "said"),
    [
        ({"width": "30", "height": "80"}, "goes through"),
        ({"width": "5", "height": "80"}, "does NOT go through"),
        ({"width": "36", "height": "80", "turn_from": "36", "turn_into": "36"}, "round the turn"),
        (
            {"width": "36", "height": "70", "turn_from": "20", "turn_into": "20"},
            "does NOT go round",
        ),
    ],
)
def test_the_way_in_is_tried_with_the_case(way: dict[str, Any], said: str) -> None:
    job = placed_job(
        {"depth": "10", "width": "26", "height": "78", "kind": "standing"},
        ways_in=[{"name": "stairs", **way}],
    )

    assert any(said in note for note in sizes_from_place(job, job.cases[0]).notes)
