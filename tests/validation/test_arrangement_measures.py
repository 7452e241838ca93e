"""Measures of arrangement by other people, on cases worked by hand, and drawers that fall steadily.

Where the formulas come from, and how they were seen, stands in `tests/arrangement_measures.py`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pytest

from tests.arrangement_measures import Frame, Rectangle, balance, mass_deviation, symmetry

Measure = Callable[[Frame, Sequence[Rectangle]], float]

FRAME = (10.0, 8.0)


def mirrored(one: Rectangle) -> Rectangle:
    return Rectangle(FRAME[0] - one.x - one.width, one.y, one.width, one.height)


def test_balance_of_two_objects_is_the_ratio_of_their_moments() -> None:
    # Left: area 2 x 1, its middle 4 from the frame's; right: area 1 x 1, its middle 2 from it.
    objects = [Rectangle(0, 0, 2, 1), Rectangle(6.5, 0, 1, 1)]
    assert balance(FRAME, objects) == pytest.approx(1 - (2 * 4 - 1 * 2) / (2 * 4))


def test_balance_of_a_light_object_far_out_and_a_heavy_one_near_is_full() -> None:
    # 1 x 1 at 4 from the middle against 2 x 2 at 1 from it.
    assert balance(FRAME, [Rectangle(0.5, 0, 1, 1), Rectangle(5, 0, 2, 2)]) == 1


def test_balance_splits_an_object_over_the_middle() -> None:
    # From 4 to 7: 1 wide on the left with its middle at 0.5, 2 wide on the right at 1.
    object_over = [Rectangle(4, 0, 3, 1)]
    assert balance(FRAME, object_over) == pytest.approx(1 - (2 * 1 - 1 * 0.5) / (2 * 1))


def test_balance_is_nothing_with_one_side_empty() -> None:
    assert balance(FRAME, [Rectangle(6, 0, 2, 2)]) == 0


def test_symmetry_of_mirrored_objects_is_full() -> None:
    left = [Rectangle(1, 1, 2, 1), Rectangle(3, 5, 1, 2)]
    assert symmetry(FRAME, [*left, *map(mirrored, left)]) == pytest.approx(1)


def test_symmetry_of_one_object_is_a_half() -> None:
    # One quadrant has the most of every sum, the others none: six of twelve differences are 1.
    assert symmetry(FRAME, [Rectangle(1, 1, 2, 1)]) == pytest.approx(1 - 6 / 12)


def test_symmetry_of_a_pair_of_unlike_objects_by_hand() -> None:
    # Both in the lower half. Left: 2 x 1, middle (2, 1), so 3 across, 3 down; right: 2 x 2,
    # middle (9, 2), so 4 across, 2 down. The upper quadrants have nothing, so the least is 0
    # and each lower difference is that of the two over the larger one.
    objects = [Rectangle(1, 0.5, 2, 1), Rectangle(8, 1, 2, 2)]
    across, up, height, width = (4 - 3) / 4, (3 - 2) / 3, (2 - 1) / 2, 0
    slope = (3 / 3 - 2 / 4) / (3 / 3)
    middle = (20**0.5 - 18**0.5) / 20**0.5
    expected = 1 - (across + up + height + width + slope + middle) / 12
    assert symmetry(FRAME, objects) == pytest.approx(expected)


def test_symmetry_splits_an_object_over_the_middle() -> None:
    assert symmetry(FRAME, [Rectangle(3, 3, 4, 2)]) == pytest.approx(1)


def test_mass_deviation_of_one_object_is_its_way_off_the_middle() -> None:
    # Middle at 7: 2 of the 5 from the middle to the edge.
    assert mass_deviation(FRAME, [Rectangle(6, 0, 2, 3)]) == pytest.approx(2 / 5 * 100)


def test_mass_deviation_weighs_by_area() -> None:
    # Area 2 at 1, area 6 at 7.
    objects = [Rectangle(0, 0, 2, 1), Rectangle(6, 0, 2, 3)]
    centre = (2 * 1 + 6 * 7) / (2 + 6)
    assert mass_deviation(FRAME, objects) == pytest.approx((centre - 5) / 5 * 100)


@pytest.mark.parametrize("measure", [balance, symmetry, mass_deviation])
def test_no_measure_cares_which_side_is_which(measure: Measure) -> None:
    objects = [Rectangle(0, 0, 2, 1), Rectangle(6.5, 3, 1, 2), Rectangle(4.5, 5, 2, 1)]
    turned = [mirrored(one) for one in objects]
    assert measure(FRAME, objects) == pytest.approx(measure(FRAME, turned))
