"""On tiny jobs: planning again moves the least there is, and collisions are what they are said."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from solver.carcass.outline import depth_wanted
from solver.job.job import Job
from solver.layout.conflicts import Held, conflict, fits, nearest_marks
from solver.layout.layout_engine import LayoutAnswer, solve_layout
from solver.layout.layout_problem import (
    Before,
    EmptyHeld,
    Holding,
    LayoutProblem,
    MarkHeld,
    ThingsHeld,
)
from solver.layout.minimal_change import lay_out
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Verdict
from tests.brute_held import Counts, Marks, Wish, counts_of, goes, least_moved, marks_that_work
from tests.strategies import tiny_jobs

some = settings(
    deadline=None,
    derandomize=True,
    max_examples=40,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)


def problem_of(job: Job) -> LayoutProblem:
    """The layout problem of a tiny job."""
    case = job.cases[0]
    depth = depth_wanted(job, case)
    assert isinstance(depth, int)
    return build(job, {case.name: case.shelf_counts}, {case.name: depth})


def before_of(
    job: Job, problem: LayoutProblem, answer: LayoutAnswer
) -> tuple[Before, Marks, Counts]:
    """A layout as what is started from: in the program's numbers, and in those of brute force."""
    counts = counts_of(job, answer.places)
    before = Before(
        tuple(answer.marks.items()),
        tuple(
            ((kind, 0, opening), number)
            for kind, split in enumerate(counts)
            for opening, number in enumerate(split)
            if number
        ),
    )
    shelves = range(1, problem.bays[0].shelves + 1)
    return before, tuple(answer.underside(problem, 0, k) for k in shelves), counts


@st.composite
def wishes(draw: st.DrawFn, job: Job, problem: LayoutProblem) -> tuple[Held, Wish]:
    """One decision: any mark for any shelf, some of a kind in any opening, or nothing in it."""
    shape = problem.bays[0]
    if draw(st.integers(0, 4)) == 0:
        opening = draw(st.integers(0, shape.shelves))
        return EmptyHeld(0, opening), Wish(opening=opening)
    if draw(st.booleans()):
        shelf = draw(st.integers(1, shape.shelves))
        most = (shape.floor + shape.inside) // shape.step
        mark = draw(st.integers(1, most))
        return MarkHeld(0, shelf, mark), Wish(shelf=shelf, mark=shape.offset + shape.step * mark)
    kind = draw(st.integers(0, len(job.items) - 1))
    opening = draw(st.integers(0, shape.shelves))
    count = draw(st.integers(1, job.items[kind].count))
    wish = Wish(kind=kind, opening=opening, count=count)
    return ThingsHeld(kind, ((0, opening),), count), wish


@pytest.mark.slow
@some
@given(st.data(), tiny_jobs(group=False))
def test_planning_again_moves_shelves_then_things_the_least_there_is(
    data: st.DataObject, job: Job
) -> None:
    problem = problem_of(job)
    first = solve_layout(problem, Limits())
    assume(first.marks_known and not any(first.left.values()))
    before, marks, counts = before_of(job, problem, first)
    held, wish = data.draw(wishes(job, problem))
    best = least_moved(job, [wish], (marks, counts))
    again = lay_out(replace(problem, holding=Holding((held,), before)), Limits())
    if best is None:
        assert not again.marks_known or any(again.left.values())
        return
    assert not any(again.left.values())
    way, things = again.stages["marks moved"], again.stages["things moved"]
    assert way.proven
    assert things.proven
    assert way.value == best[0]
    assert things.value == best[1]


@pytest.mark.slow
@some
@given(st.data(), tiny_jobs(group=False))
def test_the_nearest_marks_are_the_nearest_that_work(data: st.DataObject, job: Job) -> None:
    problem = problem_of(job)
    assume(problem.bays[0].shelves > 0)
    shape = problem.bays[0]
    shelf = data.draw(st.integers(1, shape.shelves))
    mark = data.draw(st.integers(1, (shape.floor + shape.inside) // shape.step))
    at = shape.offset + shape.step * mark
    working = marks_that_work(job, shelf, [])
    below, above, proven = nearest_marks(problem, MarkHeld(0, shelf, mark), [], Limits())
    assert proven
    found = [None if m is None else shape.offset + shape.step * m for m in (below, above)]
    assert found == [
        max((m for m in working if m <= at), default=None),
        min((m for m in working if m >= at), default=None),
    ]


@pytest.mark.slow
@some
@given(st.data(), tiny_jobs(group=False))
def test_without_any_one_thing_it_collides_with_a_decision_can_be_held(
    data: st.DataObject, job: Job
) -> None:
    problem = problem_of(job)
    held, wish = data.draw(wishes(job, problem))
    assume(fits(problem, [held], Limits()) is Verdict.NO)
    found = conflict(problem, held, [], Limits())
    kinds = [claim for claim in found.claims if isinstance(claim, int)]
    assert found.least
    assert not goes(job, [wish], kinds)
    for kind in kinds:
        assert goes(job, [wish], [one for one in kinds if one != kind])
