"""Measurements that cannot be are told with both numbers and what would make sense."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from solver.job.doorway_checks import impossible
from solver.units import inches, mm
from tests.doorways import doorway, placed_job


@pytest.mark.parametrize(
    ("width", "said"),
    [
        (inches(718), 'is it "718 mm", which is 28-9/32− in (718 mm)?'),
        (mm(28), 'is it "28 in", which is 28 in (711.2 mm)?'),
        (inches("2-1/4"), "would make sense; measure again"),
    ],
)
def test_a_size_in_the_wrong_unit_is_told_in_the_right_one(width: int, said: str) -> None:
    found = impossible([width], [inches(80)], None, None)

    assert found is not None
    assert said in found


@pytest.mark.parametrize(
    ("width", "height", "diagonal"), [("28", "80", "80"), ("96", "80", "95"), ("28", "80", "108")]
)
def test_a_diagonal_is_longer_than_either_side_and_shorter_than_both(
    width: str, height: str, diagonal: str
) -> None:
    found = impossible([inches(width)], [inches(height)], [inches(diagonal)], None)

    assert found is not None
    assert f"diagonal {diagonal} in" in found
    assert "would make sense" in found


def test_a_square_opening_is_let_pass() -> None:
    assert impossible([inches(30)], [inches(40)], [inches(50)] * 2, inches("4-9/16")) is None


def test_a_case_stands_either_before_the_wall_or_behind_it() -> None:
    with pytest.raises(ValidationError, match="give one of the two"):
        doorway(stands_out="1", set_back="1")


def test_a_pin_is_either_proud_or_behind() -> None:
    with pytest.raises(ValidationError, match="give one"):
        doorway(pin={"proud": "1", "behind": "1"})


@pytest.mark.parametrize(
    ("width", "jamb", "said"),
    [("26", "30", "jamb_depth, 30 in, is more than the case is wide, 26 in"),
     ("30", "5", "30 in outside is wider than its doorway, 28-1/4 in")],
)  # fmt: skip
def test_a_case_that_cannot_belong_to_its_doorway_is_refused(
    width: str, jamb: str, said: str
) -> None:
    with pytest.raises(ValidationError, match=said):
        placed_job({"depth": "6", "width": width, "height": "76"}, jamb_depth=jamb)


CANNOT_BE = [
    ({"heights": ["80", "60"]}, "heights 60 in .* and 80 in .* are not of one opening"),
    ({"widths": ["28", "30", "36"]}, "widths 28 in .* and 36 in .* are not of one opening"),
    ({"stop": "15"}, "door stop 15 in"),
    ({"stop": "12"}, 'is it "12 mm"'),
    ({"mortise_height": "35"}, "mortise_height 35 in"),
    ({"highest_floor_in_swing": "20"}, "highest_floor_in_swing 20 in"),
    ({"hinge_lean": {"across": "40", "over": "78"}}, "hinge_lean 40 in .* over 78 in"),
    ({"old_mortises": ["7", "9"], "mortise_height": "3-1/2"}, "7 in .* and 9 in .* nearer"),
    ({"old_mortises": ["7", "95"]}, "95 in .* below the floor, 80 in"),
]


@pytest.mark.parametrize(("measures", "said"), CANNOT_BE)
def test_finer_measurements_that_cannot_be_are_told_with_both_numbers(
    measures: dict[str, Any], said: str
) -> None:
    with pytest.raises(ValidationError, match=said):
        doorway(**measures)


CAN_BE = [
    {"heights": ["80", "77-1/4"]},
    {"widths": ["28", "30", "31-1/2"]},
    {"stop": "1/2"},
    {"mortise_height": "4-1/2"},
    {"hinge_lean": {"across": "1-1/2", "over": "78"}},
    {"old_mortises": ["7", "10-1/2"], "mortise_height": "3-1/2"},
]


@pytest.mark.parametrize("measures", CAN_BE)
def test_measurements_of_a_crooked_old_house_are_let_pass(measures: dict[str, Any]) -> None:
    assert doorway(**measures).name


@pytest.mark.parametrize(("height", "above"), [("79", "1"), ("76", "4")])
def test_a_case_as_high_as_its_doorway_is_let_pass_and_a_higher_one_refused(
    height: str, above: str
) -> None:
    case = {"depth": "6", "width": "26", "height": height, "above_floor": above}
    assert placed_job(dict(case)).cases[0].height == inches(height)

    with pytest.raises(ValidationError, match="is higher than its doorway, 80 in; at most"):
        placed_job({**case, "height": f"{height}-1/16"})
