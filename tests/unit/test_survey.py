"""A doorway as measured: what is out, which way a case drifts, what is missing, the old door."""

from __future__ import annotations

from math import isqrt
from typing import Any

import pytest

from solver.doorway.old_door import DUTIES, Provided
from solver.doorway.survey import Judgement, head_offset, judge, missing_measurements
from solver.doorway.survey_lean import climb, rest_angle
from solver.job.doorway import Lean
from solver.units import inches, mm
from tests.doorways import doorway


def found(what: str, **measures: Any) -> Judgement:
    return next(one for one in judge(doorway(**measures), "in") if one.what == what)


def test_an_alcove_is_told_of_scribed_strips_and_not_of_gaps_and_jambs() -> None:
    out = doorway(widths=["30", "31", "30-1/2"], heights=["80", "80-1/2"])
    said = " ".join(one.do for one in judge(out, "in", Provided(hung=False)))

    assert "scribed" in said
    assert "jamb" not in said


def test_a_parallelogram_leans_by_what_its_diagonals_say() -> None:
    """Sides 30 and 80, the head 2 aside: diagonals sqrt(32^2 + 80^2) and sqrt(28^2 + 80^2)."""
    long, short = (isqrt(inches(w) ** 2 + inches(80) ** 2) for w in (32, 28))
    door = doorway(
        widths=["30"], heights=["80"], diagonals=[f"{long / 320} mm", f"{short / 320} mm"]
    )

    assert abs(head_offset(door) - inches(2)) <= 2


@pytest.mark.parametrize(
    ("second", "verdict", "said"),
    [
        ("84-3/4", "good", "build the case square"),
        ("84-11/16", "mind", "to the right of the foot; shim the hinge jamb plumb"),
        ("84-1/2", "mind", "thin template"),
    ],
)
def test_out_of_square_is_judged_by_the_difference_of_the_diagonals(
    second: str, verdict: str, said: str
) -> None:
    one = found("out of square", diagonals=["84-7/8", second])

    assert one.verdict == verdict
    assert said in one.do


@pytest.mark.parametrize(
    ("widths", "verdict", "said"),
    [
        (["28", "28", "28-1/8"], "good", "gaps hide this much"),
        (["28", "28", "28-1/4"], "mind", "narrower at the top"),
        (["28-1/4", "28", "28"], "mind", "narrower at the bottom"),
    ],
)
def test_taper_is_top_against_bottom(widths: list[str], verdict: str, said: str) -> None:
    one = found("taper", widths=widths)

    assert one.verdict == verdict
    assert said in one.do


@pytest.mark.parametrize(
    ("middle", "verdict", "said"),
    [("28", "good", "gaps"), ("27-3/4", "mind", "bows into"), ("28-1/4", "mind", "bow apart")],
)
def test_bow_is_the_middle_against_the_mean_of_the_ends(
    middle: str, verdict: str, said: str
) -> None:
    one = found("bow", widths=["28-1/16", middle, "27-15/16"])

    assert one.verdict == verdict
    assert said in one.do


def lean(**numbers: Any) -> Lean:
    return Lean.model_validate({"over": inches(78), **numbers})


def test_the_lower_pin_ahead_of_the_upper_lifts_the_toe_and_shuts_the_door() -> None:
    """Building Trades Pocketbook, Doors: "keep the lower pin slightly in advance of the upper and
    the door rises at the toe as it opens". Ahead is to the side it swings to, here the room, so
    the top leans to the back; a door that rises as it opens shuts by itself."""
    ahead = lean(through=inches("1/8"), through_way="behind")

    assert rest_angle(ahead, swings_out=True) == 0
    # At a right angle the toe is up by width x lean / length: 28 x 1/8 / 78.
    assert climb(ahead, inches(28), 90, swings_out=True) == round(
        inches(28) * inches("1/8") / inches(78)
    )


@pytest.mark.parametrize(
    ("numbers", "out", "rests_at"),
    [
        ({"across": inches("1/8"), "across_way": "in"}, True, 0),
        ({"across": inches("1/8"), "across_way": "away"}, True, 180),
        ({"through": inches("1/8"), "through_way": "room"}, True, 90),
        ({"through": inches("1/8"), "through_way": "room"}, False, 0),
        ({"through": inches("1/8"), "through_way": "behind"}, False, 90),
        ({}, True, None),
    ],
)
def test_a_case_comes_to_rest_on_the_side_that_its_pins_lean_to(
    numbers: dict[str, Any], out: bool, rests_at: float | None
) -> None:
    assert rest_angle(lean(**numbers), swings_out=out) == rests_at


@pytest.mark.parametrize("angle", [30, 90, 150])
def test_a_case_is_nowhere_lower_than_where_it_rests(angle: float) -> None:
    both = lean(across=mm(2), across_way="away", through=mm(3), through_way="room")
    rest = rest_angle(both, swings_out=True)

    assert rest is not None
    heights = [climb(both, mm(700), one, swings_out=True) for one in (rest, angle)]
    assert heights[0] <= heights[1]


def test_a_leaning_hinge_jamb_says_which_way_it_drifts_and_to_shim_it() -> None:
    one = found("hinge jamb", hinge_lean={"across": "1/8", "across_way": "in", "over": "78"})

    assert one.verdict == "mind"
    assert "the case shuts by itself, on fingers too" in one.do
    assert "shim behind each hinge" in one.do


def test_a_bare_doorway_names_everything_that_is_missing() -> None:
    names = " ".join(missing_measurements(doorway()))

    for word in ("2 of the three widths", "second height", "diagonals", "jamb depth", "pile",
                 "plumb of the hinge jamb", "stop", "mortises", "casing", "in the swing",
                 "what is behind", "what the old door did"):  # fmt: skip
        assert word in names


def test_nothing_is_missing_once_everything_is_said() -> None:
    full = doorway(
        widths=["28-1/4", "28-1/4", "28-1/4"],
        heights=["80", "80"],
        diagonals=["84-13/16", "84-13/16"],
        jamb_depth="4-9/16",
        floor_covering="oak",
        pile=0,
        highest_floor_in_swing="1/8",
        hinge_side="left",
        swing="out",
        hinge_lean={"over": 78},
        latch_lean={"over": 78},
        stop=0,
        behind="pantry",
        room_in_front="120",
        room_behind="48",
        old_mortises=["7", "36", "66"],
        casing="2-1/4",
        obstacles="none",
        old_door={duty.key: "no" for duty in DUTIES},
    )

    assert missing_measurements(full) == ()
    assert [one.what for one in judge(full, "in") if one.verdict != "good"] == [
        "floor in the swing"
    ]


def test_an_answer_that_was_not_given_is_named() -> None:
    answers = {duty.key: "no" for duty in DUTIES if duty.key not in ("panel", "exit")}

    assert "old door: panel, exit" in missing_measurements(doorway(old_door=answers))


@pytest.mark.parametrize("appliance", ["yes", "unknown"])
def test_a_louvred_door_before_an_appliance_is_not_closed(appliance: str) -> None:
    duty = next(duty for duty in DUTIES if duty.key == "appliance")
    answers = {"louvred": "yes", "appliance": appliance}

    assert found(duty.question, old_door=answers).verdict == "refused"
    provided = judge(doorway(old_door=answers), "in", Provided(air=True))
    assert "refused" not in {one.verdict for one in provided}


def test_a_door_without_louvres_before_nothing_known_is_only_minded() -> None:
    duty = next(duty for duty in DUTIES if duty.key == "appliance")

    one = found(duty.question, old_door={"louvred": "no", "appliance": "unknown"})

    assert (one.verdict, one.do.startswith("find out")) == ("mind", True)


@pytest.mark.parametrize("key", ["exit", "fire_door"])
def test_a_way_out_or_fire_door_is_refused_unless_somebody_cleared_it(key: str) -> None:
    duty = next(duty for duty in DUTIES if duty.key == key)

    assert found(duty.question, old_door={key: "yes"}).verdict == "refused"
    cleared = found(duty.question, old_door={key: "yes", "cleared_by": "the fire marshal"})
    assert cleared.verdict == "mind"
    assert "cleared by the fire marshal" in cleared.do


def test_a_space_that_can_be_entered_must_open_from_inside() -> None:
    duty = next(duty for duty in DUTIES if duty.key == "entered")

    refused = found(duty.question, old_door={"entered": "yes"})
    assert (refused.verdict, "opens from inside" in refused.do) == ("refused", True)
    provided = judge(doorway(old_door={"entered": "yes"}), "in", Provided(opens_inside=True))
    (minded,) = [one for one in provided if one.what == duty.question]
    assert (minded.verdict, "open from inside" in minded.do) == ("mind", True)
