"""The scores of the look in the checker, against sums by hand, and its rules on both sides."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest

from solver.checking import look_scores
from solver.checking.check import check
from solver.checking.findings import Code
from solver.checking.structure import view
from solver.checking.views import OptionView
from solver.job.holds import Hold
from solver.plan.plan import Plan
from solver.units import TICKS_PER_MM, inches
from tests.edits import both, in_job, in_option
from tests.mutations_cutting import Change
from tests.mutations_look import STAGES, keeping_look, stage
from tests.sample_plans import ROOMS, good_plan
from tests.two_bays_job import mm

LOOKED_AT = STAGES[3:]


def codes(*changes: Change) -> set[Code]:
    return {finding.code for finding in check(both(*changes)(good_plan()))}


def seen(*changes: Change) -> OptionView:
    plan: Plan = both(*changes)(good_plan())
    return view(plan, plan.options[0])


def heights(*bays: tuple[int, ...]) -> Change:
    """Clear heights [mm] of the good plan's bays, lowest first."""
    return both(
        *(
            in_option(f"cases.0.bays.{b}.openings.{k}.height", mm(height))
            for b, row in enumerate(bays)
            for k, height in enumerate(row)
        )
    )


APART = in_option("lines", ())
"""Each bay has lines of its own."""


@pytest.mark.parametrize("name", LOOKED_AT)
@pytest.mark.parametrize("by", [1, -1])
def test_the_value_of_each_stage_is_held_on_both_sides(name: str, by: int) -> None:
    """By one; a length by one tick, a share by a tenth of a per cent."""
    where = stage(name)
    least = {"mm": 1 / TICKS_PER_MM, "%": 0.1}
    (unit,) = (one.unit for one in good_plan().options[0].stages if one.name == name)

    def change(old: float) -> float:
        return round(old + by * least.get(unit, 1), 6)

    moved = [in_option(f"{where}.value", change)]
    if name not in ("to-fit", *STAGES[11:]) or name == "heavy":
        moved.append(in_option(f"{where}.bound", change))
    assert codes(*moved) == {Code.LOOK_VALUE}


@pytest.mark.parametrize("name", ["asked", "headings", "rises", "to-fit", *STAGES[11:]])
def test_a_stage_that_the_job_calls_for_is_missed(name: str) -> None:
    def left_off(old: tuple[object, ...]) -> tuple[object, ...]:
        at = STAGES.index(name)
        return (*old[:at], *old[at + 1 :])

    assert codes(in_option("stages", left_off)) == {Code.LOOK_LISTED}


def test_stages_stand_once_and_in_their_order() -> None:
    twice = in_option("stages", lambda old: (*old[:5], old[4], *old[5:]))
    turned = in_option("stages", lambda old: (*old[:4], old[5], old[4], *old[6:]))

    assert codes(twice) == codes(turned) == {Code.STATUS_STAGES}


def test_rises_count_beyond_one_step_of_the_marks() -> None:
    step = good_plan().job.head.marking_step
    up = heights((280, 300, 290), (280, 300, 290))

    assert look_scores.rises(seen(up)) == mm(20) - step
    assert look_scores.rises(seen(up, APART)) == 2 * (mm(20) - step)
    top = in_job("look.tallest", "top")
    assert look_scores.rises(seen(up, top)) == mm(10) - step


def test_where_the_tallest_may_stand_anywhere_there_is_no_stage_of_rises() -> None:
    def left_off(old: tuple[object, ...]) -> tuple[object, ...]:
        return tuple(one for at, one in enumerate(old) if at != STAGES.index("rises"))

    free = in_job("look.tallest", "any")
    assert codes(free) == {Code.LOOK_LISTED}
    assert codes(free, in_option("stages", left_off)) == set()


def test_a_steady_fall_has_no_range_of_steps() -> None:
    assert look_scores.steady(seen(heights((320, 290, 260), (320, 290, 260)))) == 0


def test_bays_that_share_lines_are_scored_once_and_others_each() -> None:
    falling = heights((330, 290, 260), (330, 290, 260))

    assert look_scores.steady(seen(falling)) == mm(40 - 30)
    assert look_scores.steady(seen(falling, APART)) == 2 * mm(40 - 30)
    # the same lines, but another top
    other = heights((330, 290, 260), (330, 290, 250))
    assert look_scores.steady(seen(other)) == mm(40 - 30) + mm(40 - 40)


def test_a_step_that_is_asked_for_is_what_steps_are_off_from() -> None:
    falling = heights((330, 290, 260), (330, 290, 260))
    asked = in_job("look.step", mm(25))

    assert look_scores.steady(seen(falling, asked)) == mm((40 - 25) + (30 - 25))


def test_the_mean_step_is_told_to_the_nearest_tick() -> None:
    falling = heights((330, 290, 261), (330, 290, 261))

    assert look_scores.steps_mean(seen(falling)) == mm(330 - 261) // 2
    rising = heights((261, 290, 330), (261, 290, 330))
    assert look_scores.steps_mean(seen(rising)) == -mm(330 - 261) // 2


def test_even_is_the_sum_of_all_differences() -> None:
    row = (330, 290, 261)
    needs = sum(mm(abs(a - b)) for a, b in combinations(row, 2))

    assert look_scores.even(seen(heights(row, row))) == needs
    half = in_job("look.rhythm", "symmetric")
    assert look_scores.even(seen(heights(row, row), half)) == mm(330 - 290)


def test_symmetric_takes_one_step_of_the_marks_for_nothing() -> None:
    step = good_plan().job.head.marking_step

    assert look_scores.symmetric(seen(heights((300, 250, 270), (300, 250, 270)))) == mm(30) - step


def test_to_fit_goes_by_the_bays_of_each_group_of_lines() -> None:
    each = ROOMS[:2], ROOMS[2:]
    needs = sum(mm(abs(a - b)) for rooms in each for a, b in combinations(rooms, 2))

    assert look_scores.to_fit(seen(APART)) == needs


def test_an_opening_that_is_kept_empty_is_not_counted() -> None:
    hold = Hold.model_validate({"case": "hall", "bay": 1, "opening": 2, "empty": True})
    kept = keeping_look(in_job("holds", (hold,)))

    assert codes(kept) == set()
    assert look_scores.empty(seen(kept)) == 0


def test_things_that_miss_what_was_asked_are_counted_for_each_wish() -> None:
    figurines = 5  # wished at the top
    # Middles: 700 + 386 + 241 / 2 mm of the clock are 47-1/2 in, not 57 to 64.
    assert look_scores.asked(seen(in_job("items.3.hero", True))) == figurines + 1
    # Floors: 778 mm are 30-5/8 in, more than 18 but not than 48.
    fragile = in_job("items.2.fragile", True)
    assert look_scores.asked(seen(fragile)) == figurines
    assert mm(700 + 78) > inches(18)


def test_a_kind_that_is_asked_for_together_misses_by_the_smaller_part() -> None:
    together = in_job("items.6.together", True)
    split = in_option(
        "cases.0.bays.0.openings.2.items",
        good_plan().options[0].cases[0].bays[1].openings[2].items[-1:],
    )
    less = in_option("cases.0.bays.1.openings.2.items", lambda old: old[:-1])

    assert look_scores.asked(seen(together)) == 5
    assert look_scores.asked(seen(together, split, less)) == 5 + 1
    assert look_scores.together(seen(split, less)) == 1
    assert look_scores.alone(seen(split, less)) == 1


def test_a_series_in_its_order_and_one_that_is_noted_pass() -> None:
    in_order = in_job("items.4.order", 1), in_job("items.6.order", 2)
    turned = in_job("items.4.order", 2), in_job("items.6.order", 1)
    note = in_option(
        "notes", ("'carriage clock' stands left of 'book', which comes before it in their series",)
    )

    assert codes(*in_order) == set()
    assert codes(*turned) == {Code.ROWS_SERIES}
    assert codes(*turned, note) == set()


def test_things_apart_may_stand_side_by_side_only_with_a_note() -> None:
    apart = in_job("items.6.apart", ("book",))
    note = in_option(
        "notes", ("two of 'book' stand side by side, since there is too little between them",)
    )

    assert codes(apart) == {Code.ROWS_APART}
    assert codes(apart, note) == set()
    assert codes(in_job("items.6.apart", ("jug",))) == set()


def test_a_kind_keeps_the_place_that_it_is_held_to() -> None:
    there = Hold.model_validate({"item": "jug", "opening": 1, "place": 2})
    not_there = Hold.model_validate({"item": "jug", "opening": 1, "place": 1})
    note = in_option("notes", ("'jug' does not stand at place 1 of its row",))

    assert codes(in_job("holds", (there,))) == set()
    assert codes(in_job("holds", (not_there,))) == {Code.HELD_PLACE}
    assert codes(in_job("holds", (not_there,)), note) == set()


def test_kinds_apart_may_stand_one_behind_the_other() -> None:
    """Figurines stand in two rows: only the front row is what the eye sees side by side."""
    row = "cases.0.bays.0.openings.0.items"
    apart = in_job("items.0.apart", ("figurine",))
    spread = in_option(row, lambda old: (old[0], old[3]))  # one in front, one behind it

    assert Code.ROWS_APART in codes(apart)
    assert Code.ROWS_APART not in codes(apart, spread)


def _steady(value: float, bound: float) -> Change:
    where = stage("to-fit")
    update = {"name": "steady", "value": value, "bound": bound, "proven": True}
    changes = [in_option(f"{where}.{key}", one) for key, one in update.items()]
    return both(in_job("look.rhythm", "steady"), *changes)


def test_a_steady_fall_is_proven_within_one_step_of_the_marks() -> None:
    step = Fraction(good_plan().job.head.marking_step, TICKS_PER_MM)
    reached = 1.0  # steps of 1 and 0 mm
    near, far = float(reached - step), float(reached - step - Fraction(1, TICKS_PER_MM))

    assert codes(_steady(reached, reached)) == codes(_steady(reached, near)) == set()
    assert codes(_steady(reached, far)) == {Code.STATUS_PROVEN}
    assert codes(_steady(reached, reached + 0.5)) == {Code.STATUS_PROVEN}
