"""Wishes about clear heights: what three openings by hand come to, and what their neighbour does.

With two shelves 960 mm are left for three openings; marks are whole millimetres.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from solver.layout import spacing_wishes
from solver.layout.constraints import tall_enough, width_at_each_level
from solver.layout.goal import Goal
from solver.layout.spacing_wishes import gini, half_gini, ranked_gini, rises, steps_off, symmetric
from solver.layout.variables import LayoutVariables
from solver.layout.wishes import levels_are_used
from tests.layout_models import heights, least, mm, problem, row, thing

Row = tuple[int, int, int]
LEVELS = (tall_enough, width_at_each_level, levels_are_used)


def three(wish: Callable[[LayoutVariables], Goal], row: Row, **look: str) -> int:
    """What a wish comes to where the openings have these heights [tick]."""
    assert sum(row) == 960
    return least(problem(case={"shelves": 2}, **look), wish, heights(*row))


@pytest.mark.parametrize(
    ("openings", "low", "top"),
    [
        ((400, 300, 260), 0, (400 - 300 - 1) + (300 - 260 - 1)),
        ((300, 301, 359), 359 - 301 - 1, 0),
        ((320, 320, 320), 0, 0),
        ((300, 360, 300), 360 - 300 - 1, 360 - 300 - 1),
    ],
)
def test_rises_beyond_one_step_of_the_marks(openings: Row, low: int, top: int) -> None:
    assert three(rises, openings) == mm(low)
    assert three(rises, openings, tallest="top") == mm(top)


@pytest.mark.parametrize(
    ("openings", "expected"),
    [
        ((400, 300, 260), (400 - 300) - (300 - 260)),
        ((400, 320, 240), 0),
        ((401, 320, 239), 0),
        ((401, 319, 240), (401 - 319) - (319 - 240)),
        ((300, 400, 260), (400 - 260) - (300 - 400)),
    ],
)
def test_the_largest_less_the_smallest_step(openings: Row, expected: int) -> None:
    assert three(spacing_wishes.steps_range, openings) == mm(expected)


@pytest.mark.parametrize("mark", [300, 500])
def test_two_openings_have_no_range_of_steps(mark: int) -> None:
    one = problem(case={"shelves": 1})
    assert least(one, spacing_wishes.steps_range, heights(mark - 20, 1000 - mark)) == 0


@pytest.mark.parametrize(
    ("openings", "low", "top"),
    [
        ((400, 300, 260), abs(100 - 50) + abs(40 - 50), (100 + 50) + (40 + 50)),
        ((370, 320, 270), 0, 4 * 50),
        ((270, 320, 370), 4 * 50, 0),
        ((371, 320, 269), 1 + 1, (51 + 50) + (51 + 50)),
    ],
)
def test_how_far_steps_are_from_the_one_asked_for(openings: Row, low: int, top: int) -> None:
    def off(v: LayoutVariables) -> Goal:
        return steps_off(v, mm(50))

    assert three(off, openings) == mm(low)
    assert three(off, openings, tallest="top") == mm(top)


@pytest.mark.parametrize(
    ("openings", "expected"),
    [
        ((400, 300, 260), 100 + 140 + 40),
        ((260, 400, 300), 140 + 40 + 100),
        ((320, 320, 320), 0),
        ((321, 320, 319), 1 + 2 + 1),
    ],
)
def test_differences_of_all_pairs_by_place_and_by_rank(openings: Row, expected: int) -> None:
    asked = problem(case={"shelves": 2})
    falling = sorted(openings, reverse=True)
    assert three(gini, openings) == mm(expected)
    assert least(asked, ranked_gini, heights(*falling), ranked=True) == mm(expected)


@pytest.mark.parametrize(
    ("openings", "expected"),
    [((300, 360, 300), 0), ((301, 359, 300), 0), ((302, 358, 300), 1), ((400, 300, 260), 139)],
)
def test_differences_of_openings_that_mirror_each_other(openings: Row, expected: int) -> None:
    assert three(symmetric, openings) == mm(expected)


@pytest.mark.parametrize(
    ("openings", "expected"), [((400, 300, 260), 100), ((300, 400, 260), 100), ((320, 320, 320), 0)]
)
def test_differences_of_the_lower_half_with_the_middle(openings: Row, expected: int) -> None:
    assert three(half_gini, openings) == mm(expected)


@pytest.mark.parametrize(
    ("jugs", "urn", "expected"),
    [
        # rooms 300, 200, 160; without the urn's opening 300 and 200; over the urn 60
        ((1, 1, 1), (0, 0, 0), 100 + 140 + 40),
        ((1, 1, 0), (0, 0, 0), 100),
        ((1, 1, 0), (0, 0, 1), 100 + 240 + 140),
        ((3, 0, 0), (0, 0, 0), 0),
    ],
)
def test_differences_of_the_rooms_over_the_tallest(jugs: Row, urn: Row, expected: int) -> None:
    asked = problem(thing(count=3), thing("urn", height="200"), case={"shelves": 2})
    extra = (heights(400, 300, 260), row(*jugs), row(*urn, kind=1))
    assert least(asked, spacing_wishes.to_fit, *extra, rules=LEVELS) == mm(expected)
