"""The page's own program counts as the planner does: lengths, rhythm, quoting."""

from __future__ import annotations

import itertools
import random
import shlex
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from solver.units import format_length, inches, mm, parse_length
from tests.browsing import program


@pytest.fixture(scope="module")
def page(chrome: Browser) -> Iterator[Page]:
    """An empty page with the parts of the program that need no document."""
    made = chrome.new_page()
    made.add_script_tag(content=program("units", "rhythm", "model"))
    yield made
    made.close()


def cases() -> list[list[int]]:
    """Clear heights: a grid of small ones with ties, and drawn ones in sixteenths and in mm."""
    grid = [list(case) for n in (1, 2, 3, 4) for case in itertools.product((4, 5, 9), repeat=n)]
    drawn = random.Random(7)
    for step in (inches("1/16"), mm(1), 1):
        for _ in range(60):
            count = drawn.randint(1, 9)
            grid.append([step * drawn.randint(60, 400) for _ in range(count)])
    return grid


def pairs(heights: list[int]) -> int:
    return sum(abs(one - other) for one, other in itertools.combinations(heights, 2))


def steps_range(heights: list[int]) -> int:
    steps = [low - high for low, high in itertools.pairwise(heights)]
    return max(steps) - min(steps) if steps else 0


def off_steps(heights: list[int], step: int, sign: int = 1) -> int:
    steps = (sign * (low - high) for low, high in itertools.pairwise(heights))
    return sum(abs(one - step) for one in steps)


def unlike(heights: list[int], marking: int) -> int:
    half = range(len(heights) // 2)
    return sum(max(0, abs(heights[k] - heights[-1 - k]) - marking) for k in half)


SCORES: list[tuple[str, dict[str, Any], Callable[[list[int]], int]]] = [
    ("even", {"stage": "even"}, pairs),
    ("to-fit", {"stage": "to-fit"}, pairs),
    ("symmetric", {"stage": "symmetric"}, lambda h: unlike(h, 2)),
    ("steady", {"stage": "steady"}, steps_range),
    ("graduated", {"stage": "graduated"}, steps_range),
    ("a step", {"stage": "steady", "step": 3}, lambda h: off_steps(h, 3)),
    ("a step up", {"stage": "steady", "step": 3, "upward": True}, lambda h: off_steps(h, 3, -1)),
]
SCORE = """([rhythm, all]) => all.map(bays => rhythmScore(rhythm, bays.map(
  heights => ({falls: [{heights, step: 2}], rooms: heights}))))"""


@pytest.mark.parametrize(("rhythm", "score"), [pytest.param(r, s, id=n) for n, r, s in SCORES])
def test_each_score_is_exactly_that_of_the_stage(
    page: Page, rhythm: dict[str, Any], score: Callable[[list[int]], int]
) -> None:
    heights = cases()
    asked = {"step": None, "upward": False, **rhythm}

    found = page.evaluate(SCORE, [asked, [[one] for one in heights]])

    assert found == [score(one) for one in heights]


@pytest.mark.parametrize(("rhythm", "score"), [pytest.param(r, s, id=n) for n, r, s in SCORES])
def test_scores_of_several_bays_are_added(
    page: Page, rhythm: dict[str, Any], score: Callable[[list[int]], int]
) -> None:
    bays = [[4, 5, 9, 9], [5, 4, 4], [9, 4], [7, 5, 5, 4, 9, 8, 8]]

    found = page.evaluate(SCORE, [{"step": None, "upward": False, **rhythm}, [bays]])

    assert found == [sum(score(bay) for bay in bays)]


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_lengths_are_printed_as_everywhere_else(page: Page, unit: Any) -> None:
    drawn = random.Random(3)
    ticks = [*range(-300, 900), *(drawn.randrange(32_000_000) for _ in range(2000))]

    found = page.evaluate("([all, unit]) => all.map(t => formatLength(t, unit))", [ticks, unit])

    assert found == [format_length(one, unit) for one in ticks]


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_marks_that_are_copied_read_back_as_the_same_ticks(page: Page, unit: Any) -> None:
    ticks = [*range(8000, 8300), inches("31-1/2"), mm(32) * 7 + mm("9.5"), inches("1/64")]

    found = page.evaluate("([all, unit]) => all.map(t => exactLength(t, unit))", [ticks, unit])

    assert [parse_length(text, unit) for text in found] == ticks


@pytest.mark.parametrize(
    "name",
    ["alcove", "spice case", 'the "blue" one', "it's", "$HOME `x`", "a/2", "c:\\d", "50%", "漢字"],
)
def test_words_are_quoted_as_a_shell_reads_them(page: Page, name: str) -> None:
    assert shlex.split(page.evaluate("name => quoted(name)", name)) == [name]
