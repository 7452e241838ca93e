"""A shelf goes on the page exactly as far as the checker allows, and the figures are the plan's."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from cli.page.facts import page_facts
from solver.checking.check import check
from solver.checking.look_scores import MEASURES
from solver.checking.structure import view
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from solver.units import TICKS_PER_MM, inches
from tests.browsing import program
from tests.builders import make_job
from tests.edits import both, in_job, in_option
from tests.moved import with_marks
from tests.mutations_look import stage as stage_path
from tests.sample_plans import good_plan

THINGS: list[dict[str, Any]] = [
    {"name": "urn", "width": "6", "height": "11", "depth": "5", "weight": "2 lb"},
    {"name": "cup", "width": "4", "height": "5-1/2", "depth": "5", "weight": "1 lb", "count": 3},
]
BESIDE: list[dict[str, Any]] = [
    {"name": "more", "height": "32", "shelves": 2},
    {"name": "fewer", "height": "32", "shelves": 1, "beside": "more"},
]
PLANS: dict[str, Callable[[], Plan]] = {
    "lips, a toe, a most clear height": good_plan,
    "pins": lambda: _planned(
        case={"shelves": 3, "fixing": "pins", "pin_pitch": "32 mm", "first_hole": "11"},
        look={"rhythm": "to-fit"},
    ),
    "neighbouring cases": lambda: _planned(case=BESIDE, look={"rhythm": "even"}),
    "bays of their own": lambda: _planned(
        case={"shelves": 2, "uprights": 1, "width": "40"},
        look={"share_lines": False, "rhythm": "symmetric"},
    ),
    "a band of thickness": lambda: _planned(
        case={"shelves": 3, "sizes": "outside", "material": "ply", "back": "none"},
        look={"clear_most": "17"},
        sheet=[
            {
                "name": "ply",
                "material": "ply",
                "length": 96,
                "width": 48,
                "thickness": {"least": "11/16", "most": "3/4"},
                "price": 60,
            }
        ],
    ),
}


def _planned(**tables: Any) -> Plan:
    return plan_job(make_job(items=THINGS, **tables), Limits(), near=False)


@cache
def plan_of(name: str) -> Plan:
    plan = PLANS[name]()
    assert check(plan) == ()
    return plan


@pytest.fixture(scope="module")
def page(chrome: Browser) -> Iterator[Page]:
    made = chrome.new_page()
    made.add_script_tag(content=program("units", "rhythm", "model"))
    yield made
    made.close()


RANGES = """facts => {
  const option = facts.options[0], marks = plannedMarks(option);
  return option.lines.map(line => {
    const range = lineRange(option, marks, line, false);
    const step = option.bays[line.shelves[0][0]].step;
    const at = by => movedLine(marks, line, by);
    return {within: [range.down, range.up].map(at),
            beyond: [range.down - step, range.up + step].map(at),
            planned: marks};
  });
}"""


def wrong(plan: Plan, marks: list[list[int]]) -> list[str]:
    """What the checker says of where things stand, with the shelves at these marks."""
    moved = with_marks(plan, marks)
    places = ("layout.", "items.", "band.fits")
    return [one.code for one in check(moved) if one.code.startswith(places)]


@pytest.mark.parametrize("name", PLANS)
def test_every_line_goes_exactly_as_far_as_the_checker_allows(page: Page, name: str) -> None:
    plan = plan_of(name)

    ranges = page.evaluate(RANGES, page_facts(plan))

    assert ranges
    assert any(
        one["within"][0] != one["planned"] or one["within"][1] != one["planned"] for one in ranges
    )
    for one in ranges:
        assert [wrong(plan, marks) for marks in one["within"]] == [[], []]
        assert all(wrong(plan, marks) for marks in one["beyond"])


@pytest.mark.parametrize("name", PLANS)
def test_figures_are_those_that_the_plan_would_have(page: Page, name: str) -> None:
    hold_figures(page, plan_of(name))


@pytest.mark.parametrize("stage", ["steady", "graduated", "even", "symmetric", "to-fit"])
@pytest.mark.parametrize("tallest", ["low", "top"])
@pytest.mark.parametrize("step", [None, inches("1/2")])
def test_figures_are_those_of_the_stage_of_rhythm(
    page: Page, stage: str, tallest: str, step: int | None
) -> None:
    """The good plan, as if that stage had told its rhythm, with and without shared lines."""
    asked = in_job("look.tallest", tallest), in_job("look.step", step)
    plan = both(in_option(f"{OF_RHYTHM}.name", stage), *asked)(good_plan())

    hold_figures(page, plan)
    hold_figures(page, in_option("lines", ())(plan))


OF_RHYTHM = stage_path("to-fit")


def hold_figures(page: Page, plan: Plan) -> None:
    """Hold the figures of the page against the checker's, shelves as planned and as far as goes."""
    facts = page_facts(plan)
    lines = page.evaluate(RANGES, facts)
    for marks in [lines[0]["planned"], *(marks for line in lines for marks in line["within"])]:
        found = page.evaluate(
            "([facts, marks]) => figuresAt(facts.options[0], marks)", [facts, marks]
        )
        moved = with_marks(plan, marks)
        seen, scores = view(moved, moved.options[0]), moved.options[0].scores
        assert scores is not None
        stage = facts["options"][0]["rhythm"]["stage"]
        rhythm = MEASURES[stage](seen) * TICKS_PER_MM
        assert (found["rhythm"], found["least"], found["spread"]) == (
            rhythm,
            scores.headroom_least,
            scores.headroom_spread,
        )
        assert (found["tight"], found["out"]) == (0, 0)
