"""The page's own program counts as the planner does: lengths, rhythm, quoting."""

from __future__ import annotations

import itertools
import random
import shlex
from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from solver.layout import rhythm_scores
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


SCORES: list[tuple[str, str, Callable[[list[int]], Fraction]]] = [
    ("even", "evenScore(h)", rhythm_scores.even),
    ("symmetric", "symmetricScore(h)", rhythm_scores.symmetric),
    ("to-fit", "toFitScore(h)", rhythm_scores.to_fit),
    ("graduated", "graduatedScore(h, 1, 3)", lambda h: rhythm_scores.graduated(h, 1, 3)),
    ("one step", "graduatedScore(h, 2, 2)", lambda h: rhythm_scores.graduated(h, 2, 2)),
    (
        "usual steps",
        f"graduatedScore(h, {inches('1/2')}, {inches('1-1/2')})",
        lambda h: rhythm_scores.graduated(h, inches("1/2"), inches("1-1/2")),
    ),
]


@pytest.mark.parametrize(("call", "score"), [pytest.param(c, s, id=n) for n, c, s in SCORES])
def test_each_score_is_exactly_that_of_the_planner(
    page: Page, call: str, score: Callable[[list[int]], Fraction]
) -> None:
    heights = cases()

    found = page.evaluate(f"all => all.map(h => ({call}).map(String))", heights)

    assert [Fraction(int(over), int(under)) for over, under in found] == [score(h) for h in heights]


def test_scores_of_several_bays_are_added_before_they_are_rounded(page: Page) -> None:
    bays = [[4, 5, 9, 9], [5, 4, 4], [9, 4], [7, 5, 5, 4, 9, 8, 8]]
    exact = sum((rhythm_scores.even(bay) for bay in bays), Fraction(0))
    assert exact.denominator > 2

    found = page.evaluate(
        "bays => rhythmScore({kind: 'even'}, bays.map(heights => ({heights, rooms: []})))", bays
    )

    assert found == int(exact + Fraction(1, 2))


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
