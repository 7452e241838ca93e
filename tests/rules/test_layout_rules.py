"""One rule of a layout at a time: what just fits, and what just does not.

Each model holds only the rule under test and what ties it to what it forbids.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.layout import constraints
from solver.layout.constraints import enough_openings, openings_fall
from solver.layout.hold_rules import held_as_decided
from solver.layout.layout_problem import (
    Before,
    EmptyHeld,
    Holding,
    LayoutProblem,
    MarkHeld,
    ThingsHeld,
)
from solver.layout.variables import LayoutVariables
from tests.layout_models import (
    FITS,
    NOT,
    all_placed,
    heights,
    marks,
    mm,
    problem,
    row,
    stands,
    status,
    thing,
)


@pytest.mark.parametrize(
    ("mark", "expected"),
    [(119, NOT), (120, FITS), (900, FITS), (901, NOT)],
)
def test_no_opening_is_lower_than_the_least_clear_height(mark: int, expected: int) -> None:
    # m - 20 >= 100 and 1000 - m >= 100
    assert status(problem(), (constraints.openings_within_limits,), marks(mark)) == expected


@pytest.mark.parametrize(
    ("mark", "expected"),
    [(399, NOT), (400, FITS), (620, FITS), (621, NOT)],
)
def test_no_opening_is_higher_than_the_most_clear_height(mark: int, expected: int) -> None:
    # 1000 - m <= 600 and m - 20 <= 600
    asked = problem(clear_most="600")
    assert status(asked, (constraints.openings_within_limits,), marks(mark)) == expected


@pytest.mark.parametrize(("second", "expected"), [(301, FITS), (300, NOT)])
def test_shelf_lines_rise(second: int, expected: int) -> None:
    asked = problem(case={"shelves": 2})
    assert status(asked, (constraints.lines_rise,), marks(300, second)) == expected


@pytest.mark.parametrize(("mark", "expected"), [(345, FITS), (344, NOT)])
def test_an_opening_is_as_high_as_a_thing_and_its_headroom(mark: int, expected: int) -> None:
    # m - 20 >= 300 + 25
    asked = problem(thing(height="300"), headroom="25")
    rules = (constraints.tall_enough, constraints.width_at_each_level)
    assert status(asked, rules, marks(mark), stands(1, 0)) == expected


def test_a_level_counts_only_where_something_needs_it() -> None:
    asked = problem(thing(height="300"), headroom="25")
    rules = (constraints.tall_enough, constraints.width_at_each_level)
    assert status(asked, rules, marks(344), stands(0, 0)) == FITS


@pytest.mark.parametrize(("count", "expected"), [(8, FITS), (9, NOT)])
def test_things_stand_side_by_side_with_gaps(count: int, expected: int) -> None:
    # 8 x 111 + 7 x 10 = 958 <= 960 and 9 x 111 + 8 x 10 = 1079 > 960
    asked = problem(thing(width="111", count=9))
    assert status(asked, (constraints.width,), stands(count, 0)) == expected


@pytest.mark.parametrize(("width", "expected"), [(475, FITS), (476, NOT)])
def test_two_kinds_have_the_usual_gap_between_them(width: int, expected: int) -> None:
    # 2 x 475 + 10 = 960
    asked = problem(thing(width=str(width)), thing("cup", width="475"))
    extra = (stands(1, 0), stands(1, 0, kind=1))
    assert status(asked, (constraints.width,), *extra) == expected


@pytest.mark.parametrize(("width", "expected"), [(150, FITS), (151, NOT)])
def test_a_kind_keeps_its_own_gap_within_and_the_usual_one_beside(
    width: int, expected: int
) -> None:
    # 4 x 200 with no gap between them, 10 and the cup: 800 + 10 + 150 = 960
    asked = problem(thing(width="200", gap="0", count=4), thing("cup", width=str(width)))
    extra = (stands(4, 0), stands(1, 0, kind=1))
    assert status(asked, (constraints.width,), *extra) == expected


@pytest.mark.parametrize(("gap", "expected"), [(80, FITS), (81, NOT)])
def test_a_wider_gap_of_its_own_is_kept_within_a_kind(gap: int, expected: int) -> None:
    # 3 x 200 + 2 x 80 = 760, 10 and the cup of 190: 960
    asked = problem(thing(width="200", gap=str(gap), count=3), thing("cup", width="190"))
    extra = (stands(3, 0), stands(1, 0, kind=1))
    assert status(asked, (constraints.width,), *extra) == expected


@pytest.mark.parametrize(("width", "expected"), [(475, FITS), (476, NOT)])
def test_things_of_one_level_share_one_width(width: int, expected: int) -> None:
    # (475 + 10) x 2 = 960 + 10
    asked = problem(thing(height="300", width=str(width), count=2))
    assert status(asked, (constraints.width_at_each_level,), stands(2, 0)) == expected


@pytest.mark.parametrize(("placed", "expected"), [(3, FITS), (2, NOT), (4, NOT)])
def test_each_thing_is_placed_or_left_out(placed: int, expected: int) -> None:
    def one_left(v: LayoutVariables) -> None:
        v.model.add(v.left[0] == 1)
        v.model.add(v.count(0, 0, 0) + v.count(0, 0, 1) == placed)

    asked = problem(thing(count=4))
    assert status(asked, (constraints.everything_placed_or_left,), one_left) == expected


@pytest.mark.parametrize(("count", "expected"), [(3, FITS), (4, NOT)])
def test_no_shelf_carries_more_than_its_load(count: int, expected: int) -> None:
    asked = problem(thing(weight="5 kg", count=4), shelf_load="15 kg")
    assert status(asked, (constraints.load,), stands(count, 1)) == expected


GROUP = (constraints.everything_placed_or_left, constraints.groups_together)


@pytest.mark.parametrize(("opening", "expected"), [(1, FITS), (2, NOT)])
def test_a_group_stands_in_openings_that_follow_one_another(opening: int, expected: int) -> None:
    asked = problem(thing(group="set"), thing("cup", group="set"), case={"shelves": 2})
    extra = (all_placed, stands(1, 0), stands(1, opening, kind=1))
    assert status(asked, GROUP, *extra) == expected


def test_a_group_may_span_three_openings_but_not_bridge_an_empty_one() -> None:
    asked = problem(thing(group="set", count=3), case={"shelves": 2})
    spread = (all_placed, stands(1, 0), stands(1, 1), stands(1, 2))
    assert status(asked, GROUP, *spread) == FITS
    assert status(asked, GROUP, all_placed, stands(2, 0), stands(1, 2)) == NOT


@pytest.mark.parametrize(("bay", "expected"), [(0, FITS), (1, NOT)])
def test_a_group_stands_in_one_bay(bay: int, expected: int) -> None:
    asked = problem(thing(group="set", count=2), case={"uprights": 1})
    extra = (all_placed, stands(1, 0), stands(1, 1, c=bay))
    assert status(asked, GROUP, *extra) == expected


@pytest.mark.parametrize(("count", "expected"), [(8, FITS), (9, NOT)])
def test_tall_things_need_enough_tall_openings(count: int, expected: int) -> None:
    # 8 x (110 + 10) = 960 <= 970 and 9 x 120 > 970; both openings at once cannot be 600 high
    asked = problem(thing(width="110", height="600", count=count))
    rules = (
        constraints.openings_within_limits,
        constraints.tall_enough,
        enough_openings,
    )
    assert status(asked, rules) == expected


def in_thinner_boards(asked: LayoutProblem) -> LayoutProblem:
    """Boards that may turn out so thin that openings grow by 2, 3 and 4 mm, from below."""
    (bay,) = asked.bays
    return replace(asked, bays=(replace(bay, thinner=(mm(2), mm(3), mm(4))),))


@pytest.mark.parametrize(("mark", "expected"), [(403, NOT), (404, FITS), (618, FITS), (619, NOT)])
def test_no_opening_is_too_high_where_boards_are_the_thinnest(mark: int, expected: int) -> None:
    # 1000 - m + 4 <= 600 and m - 20 + 2 <= 600
    asked = in_thinner_boards(problem(clear_most="600"))
    assert status(asked, (constraints.not_too_high_if_thin,), marks(mark)) == expected


@pytest.mark.parametrize(("mark", "expected"), [(0, FITS), (-1, NOT)])
def test_no_shelf_is_below_the_lowest_pins(mark: int, expected: int) -> None:
    asked = problem(case={"fixing": "pins", "first_hole": "300", "pin_pitch": "32"})
    assert status(asked, (constraints.marks_from_the_first_hole,), marks(mark)) == expected


@pytest.mark.parametrize(("low", "expected"), [(290 - 10, FITS), (290 - 10 - 32, NOT)])
def test_no_shelf_is_below_the_lowest_pins_whichever_opening_is_lowest(
    low: int, expected: int
) -> None:
    # holes at 300, 332, ...: the lowest opening is 300 - 20 = 280 high or more
    case = {"fixing": "pins", "first_hole": "300", "pin_pitch": "32", "height": "1000"}
    asked = problem(case=case, clear_least="10")

    def lowest_last(v: LayoutVariables) -> None:
        v.model.add(v.at_end[0, 1][0] == 1)
        v.model.add(v.height(0, 1) == mm(low))

    rules = (constraints.marks_from_the_first_hole,)
    assert status(asked, rules, lowest_last, ranked=True) == expected


@pytest.mark.parametrize(("lower", "expected"), [(490, FITS), (491, NOT)])
def test_in_a_ranked_model_the_highest_come_first(lower: int, expected: int) -> None:
    rules = (constraints.ranks_fall,)
    assert status(problem(), rules, heights(980 - lower, lower), ranked=True) == expected


@pytest.mark.parametrize(("high", "expected"), [(325, FITS), (324, NOT)])
def test_a_ranked_opening_is_as_high_as_a_thing_and_its_headroom(high: int, expected: int) -> None:
    # 300 + 25
    asked = problem(thing(height="300"), headroom="25")
    rules = (constraints.tall_enough, constraints.width_at_each_level)
    extra = (heights(high, 980 - high), stands(1, 0))
    assert status(asked, rules, *extra, ranked=True) == expected


@pytest.mark.parametrize(
    ("top", "mark", "expected"),
    [(False, 510, FITS), (False, 509, NOT), (True, 510, FITS), (True, 511, NOT)],
)
def test_the_tallest_opening_is_at_the_end_where_it_is_wished(
    top: bool, mark: int, expected: int
) -> None:
    # m - 20 and 1000 - m: 490 and 490 at 510; 2 mm apart at the next mark, a step is 1 mm
    def falls(v: LayoutVariables) -> None:
        openings_fall(v, top=top)

    assert status(problem(), (), falls, marks(mark)) == expected


HELD = (held_as_decided,)


@pytest.mark.parametrize(("mark", "expected"), [(500, FITS), (501, NOT)])
def test_a_shelf_is_where_it_is_held(mark: int, expected: int) -> None:
    assert status(problem(held=[MarkHeld(0, 1, 500)]), HELD, marks(mark)) == expected


@pytest.mark.parametrize(("count", "expected"), [(2, FITS), (1, NOT)])
def test_so_many_things_stand_where_they_are_held(count: int, expected: int) -> None:
    asked = problem(thing(count=3), held=[ThingsHeld(0, ((0, 1),), 2)])
    assert status(asked, HELD, stands(count, 1)) == expected


@pytest.mark.parametrize(("count", "expected"), [(0, FITS), (1, NOT)])
def test_an_opening_held_empty_is_empty(count: int, expected: int) -> None:
    assert status(problem(held=[EmptyHeld(0, 1)]), HELD, stands(count, 1)) == expected


@pytest.mark.parametrize("held", [MarkHeld(-1, 1, 500), MarkHeld(0, 2, 500), EmptyHeld(0, 2)])
def test_what_is_not_there_cannot_be_held(held: MarkHeld | EmptyHeld) -> None:
    assert status(problem(held=[held]), HELD) == NOT


def before(asked: LayoutProblem, *, fixed: bool = False, stay: bool = False) -> LayoutProblem:
    """The shelf was at 500 mm, two things stood under it and one on it."""
    there = Before((((0, 1), 500),), (((0, 0, 0), 2), ((0, 0, 1), 1)))
    return replace(asked, holding=Holding((), there, fixed, stay))


@pytest.mark.parametrize(("mark", "expected"), [(500, FITS), (499, NOT)])
def test_all_shelves_stay(mark: int, expected: int) -> None:
    assert status(before(problem(), fixed=True), HELD, marks(mark)) == expected


@pytest.mark.parametrize(("counts", "expected"), [((2, 1), FITS), ((1, 2), NOT)])
def test_all_things_stay(counts: tuple[int, int], expected: int) -> None:
    asked = before(problem(thing(count=3)), stay=True)
    assert status(asked, HELD, row(*counts)) == expected
