"""Figures of US rules in cautions: chosen at the rule's own inches, told in whole millimetres."""

from __future__ import annotations

import pytest

from cli.screen.caution_lines import cautions
from solver.job.job import Job
from solver.plan.plan import Plan
from solver.strength.cautions import cautions_of
from solver.strength.hinges import hinge_places
from solver.units import TICKS_PER_MM as MM
from solver.units import Unit, inch_rule, inches
from tests.doorways import doorway
from tests.edits import put
from tests.mutations_swing import hung
from tests.sample_plans import good_plan

THICK = 18 * MM


def told(plan: Plan, key: str) -> list[str]:
    found = cautions_of(plan.job, plan.options[0])
    return [one.text for one in found if one.key == key]


@pytest.mark.parametrize(
    ("length", "unit", "words"),
    [
        (inches(32), "in", "32 in"),
        (inches(32), "mm", "32 in (813 mm)"),  # 32 x 25.4 = 812.8
        (inches(4), "mm", "4 in (102 mm)"),  # 101.6
        (inches("4-9/16"), "mm", "4-9/16 in (116 mm)"),  # 115.9
    ],
)
def test_a_rule_in_inches_says_both_in_a_metric_job(length: int, unit: Unit, words: str) -> None:
    assert inch_rule(length, unit) == words


def test_a_way_of_thirty_two_inches_is_no_caution_and_a_tick_less_is() -> None:
    at = "options.0.cases.0.swing.passage_90"
    plan = hung(good_plan())

    assert told(put(plan, at, inches(32)), "passage") == []
    (text,) = told(put(plan, at, inches(32) - 1), "passage")
    assert "an accessible way is 32 in (813 mm) clear by the US rule" in text


def test_a_case_that_projects_four_inches_is_no_caution_and_a_tick_more_is() -> None:
    plan = put(good_plan(), "job.cases.0.above_floor", inches(27) + 1)
    at = "options.0.cases.0.outside.depth"

    assert told(put(plan, at, inches(4)), "projects") == []
    (text,) = told(put(plan, at, inches(4) + 1), "projects")
    assert "Deeper than 4 in (102 mm) and higher than 27 in (686 mm)" in text
    low = put(put(plan, at, inches(4) + 1), "job.cases.0.above_floor", inches(27))
    assert told(low, "projects") == []


@pytest.mark.parametrize(
    ("unit", "words"),
    [
        ("in", "by the US standard, 40 lb/ft2, at most 200 lb a shelf,"),
        # 40 x 0.4536 / 0.3048^2 = 195.3, and 200 x 0.4536 = 90.7
        ("mm", "by the US standard, 40 lb/ft2 (195 kg/m2), at most 200 lb (91 kg) a shelf,"),
    ],
)
def test_the_standard_load_of_a_shelf_is_told_in_the_standards_own_figures(
    unit: Unit, words: str
) -> None:
    plan = good_plan()
    job: Job = put(plan.job, "head.unit", unit)

    assert any(
        words in line for line in cautions(put(job, "look.shelf_load", None), plan.options[0])
    )


def test_a_new_mortise_lies_on_a_whole_mark_and_still_clear_of_the_shelf() -> None:
    """The rules, 7 in, 11 in and an inch from a shelf, are no whole millimetres."""
    case = good_plan().options[0].cases[0]
    door = doorway("mm", widths=["1300"], heights=["1100"], mortise_height="76")
    high, moved_one = case.outside.height, False
    for down in range(200 * MM, 300 * MM, 777):
        under = high - down
        board = (
            case.bays[0].shelves[0].model_copy(update={"underside": under, "top": under + THICK})
        )
        bay = case.bays[0].model_copy(update={"shelves": (board,)})
        built = case.model_copy(update={"bays": (bay,)})
        exact, marked = hinge_places(door, built), hinge_places(door, built, MM)

        moved_one = moved_one or any(one.from_top % MM for one in exact[1:])
        assert all(one.from_top % MM == 0 for one in marked)
        assert not any(one.near_shelf for one in marked)
        assert all(
            abs(one.from_top - true.from_top) <= MM for one, true in zip(marked, exact, strict=True)
        )
    assert moved_one
