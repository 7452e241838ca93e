"""Layouts by rule and bounds by arithmetic, which answer where models are too large.

On tiny jobs they are held against trying everything; on any small job, made to count as too
large, against the checker.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from solver.layout.arithmetic_bounds import least_left, least_rhythm
from solver.layout.constructive import by_construction

from solver.carcass.outline import depth_wanted
from solver.checking.check import check
from solver.checking.front import check_front
from solver.job.case import least_size
from solver.job.job import Job
from solver.layout import layout_problem
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Status
from solver.planning.plan_job import plan_job
from solver.tradeoff.trade_off import trade_off
from solver.units import TICKS_PER_INCH
from tests.brute_force import solve
from tests.builders import make_job
from tests.job_strategies import any_jobs
from tests.strategies import tiny_jobs

tiny = settings(deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)


def problem_of(job: Job) -> LayoutProblem:
    """Return the problem of a job's only shelf count."""
    (case,) = job.cases
    depth = least_size(depth_wanted(job, case))
    return build(job, {case.name: case.shelf_counts}, {case.name: depth})


@contextmanager
def without_models() -> Iterator[None]:
    """Let every layout count as too large for a model."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(layout_problem, "LARGE", 0)
        patch.setattr(layout_problem, "MOST", 0)
        yield


@settings(tiny, max_examples=100)
@given(tiny_jobs(stack=True, may_lie=True))
def test_trying_everything_finds_nothing_under_the_bounds_nor_worse_than_the_rule(job: Job) -> None:
    problem, best = problem_of(job), solve(job)
    stood = by_construction(problem, Limits())

    if best is None:
        assert stood is None
        return
    assert least_left(problem) <= best.left_out
    assert least_rhythm(problem, best.left_out) <= best.rhythm
    if stood is not None:
        assert stood.left >= best.left_out
        assert stood.left > best.left_out or stood.rhythm >= best.rhythm


@settings(tiny, max_examples=6)
@given(any_jobs())
def test_any_job_stood_up_by_rule_passes_the_checker(job: Job) -> None:
    with without_models():
        plan = plan_job(job, Limits(work=0.2), near=False, advice=False)

    assert check(plan) == ()
    for option in plan.options:
        assert option.status is not Status.OPTIMAL or option.stages[0].proven


@settings(tiny, max_examples=12)
@given(any_jobs())
def test_any_job_has_an_answer_where_there_is_no_time_at_all(job: Job) -> None:
    plan = plan_job(job, Limits(seconds=0))

    assert check(plan) == ()
    for option in plan.options:
        assert option.cases or option.why


def boxes(count: int, height: str, **look: str) -> Job:
    """Boxes 10 in wide in one bay, three to an opening, and two shelves.

    There are some 30 in of clear height.
    """
    thing = {"name": "box", "width": "10 in", "height": height, "depth": "4 in", "weight": "1 lb"}
    return make_job(
        unit="in",
        case={"width": "33 in", "height": "33 in", "depth": "6 in", "shelves": 2},
        items=[thing | {"count": count}],
        look={"gap": "0 in", "end_margin": "0 in", "headroom": "1 in", "clear_least": "3 in"}
        | look,
        job={"marking_step": "1/4 in"},
    )


@pytest.mark.parametrize(("count", "found"), [(9, 1), (10, 0)])
def test_a_front_has_the_layout_by_rule_where_everything_stands(count: int, found: int) -> None:
    with without_models():
        front = trade_off(boxes(count, "8 in"))

    assert len(front.points) == found
    assert front.complete is (count == 10)  # that one finds no place is proven by its width
    assert check_front(front) == ()


@pytest.mark.parametrize(
    ("count", "height", "left"),
    [
        (9, "8 in", 0),  # 3 x (8 + 1) in of some 30 in
        (9, "9 1/2 in", 3),  # only two openings so high, of three boxes each
        (10, "8 in", 1),  # one more than the width takes
    ],
)
def test_the_fewest_left_out_by_arithmetic(count: int, height: str, left: int) -> None:
    problem = problem_of(boxes(count, height))
    stood = by_construction(problem, Limits())

    assert least_left(problem) == left
    assert stood is not None
    assert stood.left == left


@pytest.mark.parametrize(
    ("count", "height", "openings"),
    [
        (3, 13, 1),
        (4, 12, 2),  # a fourth box has no room in the first
        (3, 8, 0),  # 8 + 1 in is under the mean
    ],
)
def test_the_least_unevenness_by_arithmetic(count: int, height: int, openings: int) -> None:
    problem = problem_of(boxes(count, f"{height} in", rhythm="even"))
    (bay,) = problem.bays
    mean = Fraction(bay.inside - 2 * bay.thickness, 3)
    stood = by_construction(problem, Limits())

    bound = least_rhythm(problem, 0)

    over = openings * ((height + 1) * TICKS_PER_INCH - mean)
    assert bound == 2 * over  # the others are under the mean by as much
    assert stood is not None
    assert bound <= stood.rhythm < bound + 3 * bay.step
