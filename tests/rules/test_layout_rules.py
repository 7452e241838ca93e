"""One rule of a layout at a time: what just fits, and what just does not.

Each model holds only the rule under test and what ties it to what it forbids.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from ortools.sat.python import cp_model

from solver.layout import constraints
from solver.layout.constraints import Rule
from solver.layout.counting_cuts import enough_openings
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.layout.variables import LayoutVariables
from tests.builders import make_job

Extra = Callable[[LayoutVariables], None]
FITS, NOT = cp_model.OPTIMAL, cp_model.INFEASIBLE

# Boards of 20 mm without a back: 1000 x 1040 outside leaves 960 x 1000 mm inside. The bottom
# board ends at 20 mm, so with one shelf at mark m the openings are m - 20 and 1000 - m high.
SHEET = {"name": "s", "material": "ply", "length": "2440", "width": "1220", "thickness": "20"}
CASE = {"width": "1000", "height": "1040", "depth": "300", "shelves": 1, "back": "none"}
PLAIN = {"headroom": "0", "gap": "10", "end_margin": "0", "clear_least": "100"}


def thing(name: str = "jug", **more: Any) -> dict[str, Any]:
    return {"name": name, "width": "100", "height": "100", "depth": "100", "weight": "1 kg", **more}


def problem(
    *items: dict[str, Any], case: dict[str, Any] | None = None, **look: Any
) -> LayoutProblem:
    """A case of 960 x 1000 mm inside, one shelf unless the case says otherwise."""
    job = make_job(
        unit="mm",
        case={**CASE, **(case or {})},
        items=list(items) or [thing()],
        look={**PLAIN, **look},
        sheet=[SHEET],
        job={"marking_step": "1"},
    )
    one = job.cases[0]
    counts = {one.name: list(one.shelf_counts) * one.bay_count}
    return build(job, counts, {one.name: 300 * 320})


def status(asked: LayoutProblem, rules: tuple[Rule, ...], extra: Extra | None = None) -> int:
    """Solve a model of these rules alone."""
    v = LayoutVariables(cp_model.CpModel(), asked, merge=False)
    for rule in rules:
        rule(v)
    if extra is not None:
        extra(v)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    return int(solver.solve(v.model))


def marks(*numbers: int) -> Extra:
    """Hold the marks of the first bay."""

    def hold(v: LayoutVariables) -> None:
        for shelf, number in enumerate(numbers, start=1):
            v.model.add(v.mark(0, shelf) == number)

    return hold


def stands(count: int, opening: int, *, kind: int = 0, c: int = 0) -> Extra:
    """So many things of a kind stand in an opening of a bay, the first one unless said."""

    def hold(v: LayoutVariables) -> None:
        v.model.add(v.count(kind, c, opening) == count)

    return hold


def both(*extras: Extra) -> Extra:
    def hold(v: LayoutVariables) -> None:
        for extra in extras:
            extra(v)

    return hold


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
    assert status(asked, rules, both(marks(mark), stands(1, 0))) == expected


def test_a_level_counts_only_where_something_needs_it() -> None:
    asked = problem(thing(height="300"), headroom="25")
    rules = (constraints.tall_enough, constraints.width_at_each_level)
    assert status(asked, rules, both(marks(344), stands(0, 0))) == FITS


@pytest.mark.parametrize(("count", "expected"), [(8, FITS), (9, NOT)])
def test_things_stand_side_by_side_with_gaps(count: int, expected: int) -> None:
    # 8 x 111 + 7 x 10 = 958 <= 960 and 9 x 111 + 8 x 10 = 1079 > 960
    asked = problem(thing(width="111", count=9))
    assert status(asked, (constraints.width,), stands(count, 0)) == expected


@pytest.mark.parametrize(("width", "expected"), [(475, FITS), (476, NOT)])
def test_two_kinds_have_the_usual_gap_between_them(width: int, expected: int) -> None:
    # 2 x 475 + 10 = 960
    asked = problem(thing(width=str(width)), thing("cup", width="475"))
    extra = both(stands(1, 0), stands(1, 0, kind=1))
    assert status(asked, (constraints.width,), extra) == expected


@pytest.mark.parametrize(("width", "expected"), [(150, FITS), (151, NOT)])
def test_a_kind_keeps_its_own_gap_within_and_the_usual_one_beside(
    width: int, expected: int
) -> None:
    # 4 x 200 with no gap between them, 10 and the cup: 800 + 10 + 150 = 960
    asked = problem(thing(width="200", gap="0", count=4), thing("cup", width=str(width)))
    extra = both(stands(4, 0), stands(1, 0, kind=1))
    assert status(asked, (constraints.width,), extra) == expected


@pytest.mark.parametrize(("gap", "expected"), [(80, FITS), (81, NOT)])
def test_a_wider_gap_of_its_own_is_kept_within_a_kind(gap: int, expected: int) -> None:
    # 3 x 200 + 2 x 80 = 760, 10 and the cup of 190: 960
    asked = problem(thing(width="200", gap=str(gap), count=3), thing("cup", width="190"))
    extra = both(stands(3, 0), stands(1, 0, kind=1))
    assert status(asked, (constraints.width,), extra) == expected


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


def all_placed(v: LayoutVariables) -> None:
    for left in v.left.values():
        v.model.add(left == 0)


@pytest.mark.parametrize(("opening", "expected"), [(1, FITS), (2, NOT)])
def test_a_group_stands_in_openings_that_follow_one_another(opening: int, expected: int) -> None:
    asked = problem(thing(group="set"), thing("cup", group="set"), case={"shelves": 2})
    extra = both(all_placed, stands(1, 0), stands(1, opening, kind=1))
    assert status(asked, GROUP, extra) == expected


def test_a_group_may_span_three_openings_but_not_bridge_an_empty_one() -> None:
    asked = problem(thing(group="set", count=3), case={"shelves": 2})
    spread = both(all_placed, stands(1, 0), stands(1, 1), stands(1, 2))
    assert status(asked, GROUP, spread) == FITS
    assert status(asked, GROUP, both(all_placed, stands(2, 0), stands(1, 2))) == NOT


@pytest.mark.parametrize(("bay", "expected"), [(0, FITS), (1, NOT)])
def test_a_group_stands_in_one_bay(bay: int, expected: int) -> None:
    asked = problem(thing(group="set", count=2), case={"uprights": 1})
    extra = both(all_placed, stands(1, 0), stands(1, 1, c=bay))
    assert status(asked, GROUP, extra) == expected


@pytest.mark.parametrize(("count", "expected"), [(8, FITS), (9, NOT)])
def test_tall_things_need_enough_tall_openings(count: int, expected: int) -> None:
    # 8 x (110 + 10) = 960 <= 970 and 9 x 120 > 970; both openings at once cannot be 600 high
    asked = problem(thing(width="110", height="600", count=count))
    rules = (
        constraints.openings_within_limits,
        constraints.tall_enough,
        lambda v: enough_openings(v, 0),
    )
    assert status(asked, rules) == expected


@pytest.mark.parametrize(("mark", "expected"), [(510, FITS), (511, NOT)])
def test_marks_on_a_listed_spacing_only(mark: int, expected: int) -> None:
    def listed(v: LayoutVariables) -> None:
        constraints.on_falls(v, {0: [(510,), (600,)]})
        marks(mark)(v)

    assert status(problem(), (), listed) == expected


@pytest.mark.parametrize(("third", "expected"), [(600, FITS), (601, NOT)])
def test_middle_openings_fall_from_below(third: int, expected: int) -> None:
    # marks 200, 400: the second opening takes 200 steps, the third must take no more
    asked = problem(case={"shelves": 3})
    extra = marks(200, 400, third)
    assert status(asked, (constraints.middle_openings_fall,), extra) == expected


@pytest.mark.parametrize("first", [100, 300])
def test_the_lowest_and_the_top_opening_may_have_any_height(first: int) -> None:
    asked = problem(case={"shelves": 3})
    extra = marks(first, first + 150, first + 300)
    assert status(asked, (constraints.middle_openings_fall,), extra) == FITS


def test_what_an_upper_middle_opening_reaches_the_lower_one_reaches_too() -> None:
    def upper_only(v: LayoutVariables) -> None:
        v.model.add(v.levels[0, 2].reached[0] == 1)
        v.model.add(v.levels[0, 1].reached[0] == 0)

    def lower_only(v: LayoutVariables) -> None:
        v.model.add(v.levels[0, 1].reached[0] == 1)
        v.model.add(v.levels[0, 2].reached[0] == 0)

    asked = problem(thing(height="200"), case={"shelves": 3})
    assert status(asked, (constraints.middle_openings_fall,), lower_only) == FITS
    assert status(asked, (constraints.middle_openings_fall,), upper_only) == NOT
