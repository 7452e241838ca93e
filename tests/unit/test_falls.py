"""The best graduated spacings are those that trying every set of marks finds."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest

from solver.layout import rhythm_scores
from solver.layout.graduated_spacings import Spacings, best_spacings
from solver.layout.layout_problem import BayShape
from solver.layout.problem_from_job import build
from solver.units import TICKS_PER_MM, Ticks
from tests.builders import make_job


def shape(shelves: int, height: str, step: str, *, unit: str = "mm") -> BayShape:
    """A bay of a case of that outside height, marks on whole steps."""
    job = make_job(
        unit=unit,
        case={"height": height, "shelves": shelves},
        look={"clear_least": "3"},
        job={"marking_step": step},
    )
    case = job.cases[0]
    problem = build(job, {case.name: case.shelf_counts}, {case.name: 200 * TICKS_PER_MM})
    return problem.bays[0]


def heights(bay: BayShape, marks: tuple[int, ...]) -> list[Ticks]:
    """Clear heights for these mark numbers [tick]."""
    under = [bay.offset + bay.step * mark for mark in marks]
    floors = [bay.floor, *(mark + bay.thickness for mark in under)]
    return [high - low for low, high in zip(floors, [*under, bay.floor + bay.inside], strict=True)]


def all_scores(bay: BayShape, least: Ticks, most: Ticks) -> dict[tuple[int, ...], Fraction]:
    """Score of every set of marks that leaves no opening without height."""
    numbers = range(1, (bay.floor + bay.inside - bay.offset) // bay.step + 1)
    scores = {}
    for marks in combinations(numbers, bay.shelves):
        high = heights(bay, marks)
        if min(high) > 0:
            scores[marks] = rhythm_scores.graduated(high, least, most)
    return scores


CASES = [
    (1, "900", "50", 12, 38),
    (2, "1200", "50", 12, 38),
    (3, "1000", "40", 12, 38),
    (3, "1215", "35", 0, 20),
    (4, "1130", "50", 25, 25),
    (4, "1387", "55", 12, 80),
]


def found(case: tuple[int, str, str, int, int]) -> tuple[BayShape, Ticks, Ticks, Spacings]:
    shelves, height, step, least, most = case
    bay, low, high = shape(shelves, height, step), least * TICKS_PER_MM, most * TICKS_PER_MM
    return bay, low, high, best_spacings(bay, low, high)


@pytest.mark.parametrize("case", CASES)
def test_no_marks_fall_more_steadily(case: tuple[int, str, str, int, int]) -> None:
    bay, low, high, falls = found(case)
    assert falls.score == min(all_scores(bay, low, high).values())


@pytest.mark.parametrize("case", CASES)
def test_the_listed_marks_have_the_score(case: tuple[int, str, str, int, int]) -> None:
    bay, low, high, falls = found(case)
    assert falls.marks
    for marks in falls.marks:
        assert rhythm_scores.graduated(heights(bay, marks), low, high) == falls.score


@pytest.mark.parametrize("case", CASES)
def test_proven_means_that_every_spacing_of_that_score_is_listed(
    case: tuple[int, str, str, int, int],
) -> None:
    bay, low, high, falls = found(case)
    best = {m for m, score in all_scores(bay, low, high).items() if score == falls.score}
    assert set(falls.marks) <= best
    assert not falls.proven or set(falls.marks) == best


@pytest.mark.parametrize("case", CASES)
def test_spacings_nearly_as_good_are_at_most_two_steps_worse(
    case: tuple[int, str, str, int, int],
) -> None:
    bay, low, high, falls = found(case)
    assert set(falls.marks) <= set(falls.near)
    for marks in falls.near:
        score = rhythm_scores.graduated(heights(bay, marks), low, high)
        assert score <= falls.score + 2 * bay.step
