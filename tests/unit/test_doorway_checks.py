"""Measurements that cannot be are told with both numbers and what would make sense."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from solver.doorway_checks import impossible
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
