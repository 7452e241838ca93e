"""The exhaustive solver by the new scores, against cases worked out by hand."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import ceil, floor
from typing import Any

import pytest

from solver.job.job import Job
from solver.layout.layout_problem import EmptyHeld, Holding, LayoutProblem, MarkHeld, ThingsHeld
from solver.layout.problem_from_job import build
from solver.outcome import Status
from tests.builders import make_job
from tests.eye_brute import Best, best
from tests.eye_compare import judge
from tests.eye_contents import TooLargeError
from tests.eye_jobs import problem_of
from tests.eye_layout import clear, faults, spots
from tests.eye_scores import SCORES
from tests.eye_wishes import loss

IN = 8128
"""Ticks in an inch."""
SQUARE_INCH = Fraction("645.16")
"""Square millimetres in a square inch."""
BOARD = {"name": "s", "material": "ply", "length": "96", "width": "48", "thickness": "1"}
PLAIN = {
    "headroom": "1",
    "gap": "0",
    "end_margin": "0",
    "clear_least": "4",
    "rhythm": "steady",
    "tallest": "low",
    "spare": 0,
}


def thing(name: str, width: int, height: int, count: int = 1, **more: Any) -> dict[str, Any]:
    """So many of a kind, 5 in deep."""
    size = {"width": f"{width}", "height": f"{height}", "depth": "5", "weight": "1 lb"}
    return {"name": name, **size, "count": count, **more}


def case_of(inside: int, shelves: int, **more: Any) -> dict[str, Any]:
    """Boards of 1 in, 20 in wide inside; `inside` is what the openings have together [in]."""
    height = f"{inside + shelves + 2}"
    sizes = {"width": "22", "height": height, "depth": "9", "shelves": shelves}
    return {"name": "case", **sizes, "back": "none", **more}


def problem(inside: int, shelves: int, items: list[dict[str, Any]], **look: Any) -> LayoutProblem:
    """One bay with marks on whole inches."""
    return of_job([case_of(inside, shelves)], items, **look)


def of_job(
    cases: list[dict[str, Any]],
    items: list[dict[str, Any]],
    counts: dict[str, list[int]] | None = None,
    **look: Any,
) -> LayoutProblem:
    """The problem of some cases."""
    job: Job = make_job(
        case=cases,
        sheet=[BOARD],
        items=items,
        look={**PLAIN, **look},
        job={"marking_step": "1 in"},
        moulding=[
            {
                "name": "bead",
                "width": "1-1/2 in",
                "thickness": "3/4 in",
                "lengths": [{"length": "96 in", "price": "1.00"}],
            }
        ],
        site={"sag": "none"},
    )
    plain = {case.name: list(case.shelf_counts[:1]) * case.bay_count for case in job.cases}
    return build(job, counts or plain, {case.name: 9 * IN for case in job.cases})


def found(of: LayoutProblem) -> Best:
    """The best there is; there must be one."""
    one = best(of)
    assert one is not None
    return one


def values(of: LayoutProblem) -> dict[str, int]:
    """The values of the stages, the rhythm scored in its only way."""
    (way,) = found(of).ways
    return way.values


def high(of: LayoutProblem) -> list[int]:
    """Clear heights of a best layout, lowest first [tick]."""
    return list(clear(of, found(of).ways[0].layout).values())


def area(width: int, height: int) -> int:
    """Area in whole square millimetres, rounded up, of a thing in inches."""
    return ceil(width * height * SQUARE_INCH)


def mm2(square_inches: Fraction | int) -> int:
    """Square inches in whole square millimetres, rounded down."""
    return floor(square_inches * SQUARE_INCH)


# --- The rhythm ---------------------------------------------------------------------------


def test_two_urns_stand_low_and_the_cup_above_them() -> None:
    # 11 + 1 and 6 + 1 fill 19 in. The lower opening may be the taller, so nothing rises.
    two = problem(19, 1, [thing("urn", 10, 11, 2), thing("cup", 10, 6)])
    assert high(two) == [12 * IN, 7 * IN]
    assert values(two) == {
        "asked": 0,
        "empty": 0,
        "mirrored": 0,
        "headings": 0,
        "together": 0,
        "alone": 0,
        "rises": 0,
        "steady": 0,
        "void": mm2(20 * 7 - 10 * 6),  # over and beside the cup: 80; over the urns 20 * 12 - 220
        "roomy": 20 * IN,
        "beside": 0,
        "air": 0,  # 12 - 11 and 7 - 6
    }


def test_urns_held_above_rise_by_all_but_a_marking_step() -> None:
    # The cup's 7 in below the urns' 12 in: 5 in less the step of 1 in.
    two = problem(19, 1, [thing("urn", 10, 11, 2), thing("cup", 10, 6)])
    held = replace(two, holding=Holding((ThingsHeld(0, ((0, 1),), 2),)))
    assert high(held) == [7 * IN, 12 * IN]
    assert values(held)["rises"] == (12 - 7 - 1) * IN


def test_with_the_tallest_on_top_the_urns_stand_on_top() -> None:
    two = problem(19, 1, [thing("urn", 10, 11, 2), thing("cup", 10, 6)], tallest="top")
    assert high(two) == [7 * IN, 12 * IN]
    assert values(two)["rises"] == 0


def test_where_any_opening_may_be_tallest_rises_are_no_wish() -> None:
    two = problem(19, 1, [thing("urn", 10, 11, 2), thing("cup", 10, 6)], tallest="any")
    assert "rises" not in values(two)


def test_equal_openings_are_a_steady_fall_and_have_the_least_void() -> None:
    # Each opening holds one cup of 4 x 6: the void of the largest is least where all are 8 in.
    # A fall of 1 in, 9 8 7, is as steady, but its largest opening is 9 in.
    three = problem(24, 2, [thing(f"cup {n}", 4, 6) for n in range(3)])
    assert values(three)["steady"] == 0
    assert values(three)["void"] == mm2(20 * 8 - 4 * 6)


def test_the_range_of_steps_by_hand() -> None:
    # 13 + 1, 4 + 1 and at least 4 + 1 fill 25 in but for 1 in: 15 5 5, 14 6 5 (14 5 6 has steps
    # of 9 and -1): ranges 10, 7. Its mean step is (8 + 1) / 2 in, so that openings are even
    # instead: 14 6 5 has pairs of 8, 9 and 1 in, 15 5 5 of 10, 10 and 0, 14 5 6 the same 18 as
    # the first, with a rise that the marking step forgives.
    three = problem(25, 2, [thing("tall", 18, 13), *(thing(f"low {n}", 18, 4) for n in range(2))])
    assert "steady" not in values(three)
    assert values(three)["even"] == (8 + 9 + 1) * IN


def test_a_range_within_two_marking_steps_stays_steady() -> None:
    # 8 + 1 in and at least 3 and 3 of 17 in: 9 5 3 has steps of 4 and 2 in, 9 4 4 of 5 and 0,
    # 10 4 3 of 6 and 1, 11 3 3 of 8 and 0; 9 3 5 rises. The least range is not over two steps.
    items = [thing("tall", 18, 8), *(thing(f"low {n}", 18, 2) for n in range(2))]
    assert values(problem(17, 2, items, clear_least="3"))["steady"] == 2 * IN


def test_a_given_step_is_what_steps_are_held_against() -> None:
    # 24 in by steps of 3 in: 11 8 5, exactly.
    items = [thing(f"cup {n}", 18, 4) for n in range(3)]
    stepped = problem(24, 2, items, step="3 in")
    assert high(stepped) == [11 * IN, 8 * IN, 5 * IN]
    assert values(stepped)["steady"] == 0


def test_a_single_step_is_held_against_the_one_given_too() -> None:
    # 19 in: 11 8 falls by 3 in.
    assert high(problem(19, 1, [thing(f"cup {n}", 18, 4) for n in range(2)], step="3 in")) == [
        11 * IN,
        8 * IN,
    ]


def test_where_things_allow_it_the_fall_is_no_steeper_than_wished() -> None:
    # 24 in, steady by 2 in to 5 in: 10 8 6 (5 : 3), 11 8 5 (11 : 5), 9 8 7. The tall one needs 10.
    items = [thing("tall", 18, 9), *(thing(f"cup {n}", 18, 4) for n in range(2))]
    assert high(problem(24, 2, items, steepest=2.0)) == [10 * IN, 8 * IN, 6 * IN]


def test_graduated_openings_fall_by_half_an_inch_at_least() -> None:
    # 24 in: 9 8 7 falls, 8 8 8 does not.
    items = [thing(f"cup {n}", 18, 4) for n in range(3)]
    heights = high(problem(24, 2, items, rhythm="graduated"))
    assert heights in (
        [9 * IN, 8 * IN, 7 * IN],
        [10 * IN, 8 * IN, 6 * IN],
        [11 * IN, 8 * IN, 5 * IN],
    )


def test_even_openings_have_the_least_sum_over_pairs() -> None:
    # 25 in, the tall one in 12 in: 13 in are left as 7 and 6: 5 + 6 + 1.
    items = [thing("tall", 18, 11), *(thing(f"cup {n}", 18, 4) for n in range(2))]
    assert values(problem(25, 2, items, rhythm="even"))["even"] == (5 + 6 + 1) * IN


def test_symmetric_openings_mirror_within_a_marking_step() -> None:
    # 25 in: 8 9 8, and 9 8 8 and 8 8 9 are as good; the lower half is then 8 8, even.
    items = [thing(f"cup {n}", 18, 4) for n in range(3)]
    symmetric = values(problem(25, 2, items, rhythm="symmetric"))
    assert (symmetric["symmetric"], symmetric["even"]) == (0, 0)


def test_rooms_over_the_things_to_fit() -> None:
    # 6 + 8 + 4 in of things in 24 in: 2 in over each.
    items = [thing("a", 18, 6), thing("b", 18, 8), thing("c", 18, 4)]
    assert values(problem(24, 2, items, rhythm="to-fit"))["to-fit"] == 0
    # In 25 in one has 1 in more than two others: 1 + 1 + 0.
    assert values(problem(25, 2, items, rhythm="to-fit"))["to-fit"] == 2 * IN


# --- What stands with what ----------------------------------------------------------------


def test_two_odd_kinds_in_an_opening_are_one_too_many() -> None:
    one = problem(12, 0, [thing("a", 2, 4), thing("b", 2, 5, 3), thing("c", 2, 6, 2)])
    assert values(one)["mirrored"] == 1


def test_a_stack_is_one_place() -> None:
    # 6 in take a stack of two, 2 x 2 + 1, and nothing wider: one place, odd as the single is.
    items = [thing("box", 12, 2, 2, stack=2), thing("a", 8, 2)]
    assert values(problem(6, 0, items))["mirrored"] == 1


def test_a_heading_on_two_shelves_misses_one() -> None:
    # Each is 12 in wide, so that two do not stand in 20 in; neighbours, so that none is skipped.
    red = [thing(name, 12, 4, heading="red") for name in "ab"]
    assert values(problem(12, 1, red))["headings"] == 1


def test_a_heading_that_skips_an_opening_misses_that_too() -> None:
    red = [thing(name, 12, 4, heading="red") for name in "ab"]
    three = problem(18, 2, [*red, thing("c", 12, 4)])
    apart = Holding((ThingsHeld(0, ((0, 0),), 1), ThingsHeld(1, ((0, 2),), 1)))
    assert values(replace(three, holding=apart))["headings"] == 1 + 1


def test_a_kind_of_three_with_two_on_a_shelf_leaves_one_alone() -> None:
    two = values(problem(12, 1, [thing("urn", 9, 4, 3)]))
    assert (two["together"], two["alone"]) == (1, 1)


def test_a_kind_of_two_is_never_alone() -> None:
    two = values(problem(12, 1, [thing("urn", 12, 4, 2)]))
    assert (two["together"], two["alone"]) == (1, 0)


def test_an_empty_opening_comes_before_kinds_together() -> None:
    two = values(problem(12, 1, [thing("urn", 4, 4, 2)]))
    assert (two["empty"], two["together"]) == (0, 1)


def test_an_opening_kept_empty_is_not_counted() -> None:
    two = problem(12, 1, [thing("urn", 4, 4, 2)])
    kept = values(replace(two, holding=Holding((EmptyHeld(0, 1),))))
    assert (kept["empty"], kept["together"]) == (0, 0)


# --- What is asked and what fits ----------------------------------------------------------


def test_what_must_be_shown_stays_before_larger_things() -> None:
    # 10 + 15 in do not stand in 20 in.
    one = problem(
        12, 0, [thing("dear", 10, 4, keep="must"), thing("large", 15, 9, keep="optional")]
    )
    assert found(one).loss == (0, 0, area(15, 9))


def test_of_equals_the_smaller_is_left_out() -> None:
    one = problem(12, 0, [thing("boat", 15, 9), thing("paperback", 4, 5, 3)])
    # The boat leaves 5 in: one paperback of 4 in; the other two are out, 40 square inches, where
    # the boat has 135.
    assert found(one).loss == (0, 2 * area(4, 5), 0)


def test_a_thing_asked_for_on_top_costs_the_tallest_lowest() -> None:
    items = [thing("urn", 10, 11, 2, where="top"), thing("cup", 10, 6)]
    asked = values(problem(19, 1, items))
    assert (asked["asked"], asked["rises"]) == (0, 4 * IN)


def test_a_kind_asked_for_together_misses_by_what_is_elsewhere() -> None:
    # Two of three stand in 20 in.
    assert values(problem(12, 1, [thing("urn", 9, 4, 3, together=True)]))["asked"] == 1


@pytest.mark.parametrize(("above_floor", "missed"), [("54", 0), ("53", 1), ("61", 0), ("62", 1)])
def test_a_hero_has_its_middle_between_57_and_64_in(above_floor: str, missed: int) -> None:
    # On a board of 1 in, 4 in high: its middle is 1 + 2 in above the case.
    cases = [case_of(12, 0, above_floor=above_floor, kind="wall")]
    assert values(of_job(cases, [thing("urn", 9, 4, hero=True)]))["asked"] == missed


@pytest.mark.parametrize(("above_floor", "missed"), [("17", 0), ("16", 1)])
def test_a_fragile_thing_stands_18_in_above_the_floor(above_floor: str, missed: int) -> None:
    cases = [case_of(12, 0, above_floor=above_floor, kind="wall")]
    assert values(of_job(cases, [thing("urn", 9, 4, fragile=True)]))["asked"] == missed


def test_eye_level_is_the_last_floor_not_above_it() -> None:
    # Opening 1's floor is 1 + h0 + 1 in: 8 in where h0 is 6. With eyes at 7 in h0 is 5 at most.
    items = [thing("urn", 9, 5), thing("cup", 9, 3, where="eye")]
    low = values(problem(12, 1, items, eye_level="7 in"))
    # The cup is at eye level in opening 0, with the urn in the other or not: never missed.
    assert low["asked"] == 0


def test_no_marks_at_all_where_a_shelf_is_held_too_high() -> None:
    two = problem(12, 1, [thing("urn", 9, 4)])
    assert best(replace(two, holding=Holding((MarkHeld(0, 1, 12),)))) is None


def test_a_lip_takes_the_lift_over_it() -> None:
    # Above the lip of 1/2 in the lift is 1 in: 1-1/2 in are more than the headroom of 1 in, and the
    # lip hangs 0 in below. Two of 4 in need 4 + 1 below and 4 + 1-1/2 above: 10-1/2 of 11 in.
    lip = {"moulding": "bead", "above": "1/2 in"}
    urn = [thing("urn", 12, 4, 2)]
    # bead of 1-1/2 in on a board of 1 in: nothing hangs below with 1/2 in above.
    assert sum(found(of_job([case_of(11, 1, lip=lip)], urn, lift="1 in")).loss) == 0
    assert sum(found(of_job([case_of(10, 1, lip=lip)], urn, lift="1 in")).loss) == area(12, 4)


def test_a_group_that_the_client_wrote_is_a_rule() -> None:
    # Both are 12 in wide; with `c` held between them they cannot be neighbours: one is out.
    items = [thing(name, 12, 4, group="g") for name in "ab"]
    three = problem(18, 2, [*items, thing("c", 12, 4, keep="must")])
    middle = replace(three, holding=Holding((ThingsHeld(2, ((0, 1),), 1),)))
    assert found(middle).loss == (0, area(12, 4), 0)


def test_a_bay_with_fewer_shelves_uses_a_line_of_its_neighbour() -> None:
    cases = [{**case_of(18, 2, uprights=1), "width": "43"}]
    items = [thing("tall", 12, 11), *(thing(f"low {n}", 12, 4) for n in range(4))]
    two = of_job(cases, items, {"case": [2, 1]})
    layout = found(two).ways[0].layout
    assert layout.marks[1, 1] in (layout.marks[0, 1], layout.marks[0, 2])
    # Scored once, by the bay of two shelves: 6 6 6, the line at 6 + 1 + 6 in leaves 13 in below.
    assert values(two)["steady"] == 0


# --- By itself ----------------------------------------------------------------------------


@dataclass(frozen=True)
class Told:
    """A stage of an answer made up for the test."""

    value: int
    bound: int
    proven: bool = True


@dataclass
class Answered:
    """An answer made up of a best layout."""

    status: Status
    marks: Any
    places: Any
    left: Any
    stages: dict[str, Told] = field(default_factory=dict)


def answered(of: LayoutProblem, one: Best) -> Answered:
    way = one.ways[0]
    stages = {"fit": Told(sum(one.loss), sum(one.loss))}
    stages |= {name: Told(value, value) for name, value in way.values.items()}
    layout = way.layout
    return Answered(Status.OPTIMAL, layout.marks, layout.places, layout.left, stages)


@pytest.mark.parametrize("seed", range(60))
def test_the_best_layout_obeys_the_rules_and_has_the_scores(seed: int) -> None:
    of = problem_of(seed)
    try:
        one = best(of)
    except TooLargeError:
        pytest.skip("not tiny")
    if one is None:
        return
    for way in one.ways:
        assert faults(of, way.layout) == []
        assert loss(of, way.layout) == one.loss
        for name, value in way.values.items():
            assert value <= SCORES[name](of, way.layout) <= way.hold.get(name, value)
    told = answered(of, one)
    judged = judge(of, told, one)
    assert (judged.wrong, judged.later) == ([], [])
    assert judged.proven == judged.asked


def test_a_better_value_a_worse_one_and_a_bound_too_high_are_found() -> None:
    two = problem(19, 1, [thing("urn", 9, 11, 3), thing("cup", 10, 6)])
    one = found(two)
    for name, told in {
        "fit": Told(-1, -1),
        "together": Told(2, 2),
        "steady": Told(5, 5),
        "alone": Told(0, 1, proven=False),
    }.items():
        answer = answered(two, one)
        answer.stages[name] = told
        assert judge(two, answer, one).wrong != [], name


def test_a_layout_that_breaks_a_rule_is_found() -> None:
    two = problem(19, 1, [thing("urn", 10, 11, 2), thing("cup", 10, 6)])
    answer = answered(two, found(two))
    answer.marks = {(0, 1): 12}
    assert any("too high" in text for text in judge(two, answer, found(two)).wrong)


def test_every_opening_is_counted_once() -> None:
    assert spots(problem(19, 1, [thing("urn", 10, 11)])) == [(0, 0), (0, 1)]
