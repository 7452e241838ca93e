"""Layouts by rule, which answer where models are too large.

On tiny jobs they are held against the engine; on any small job, made to count as too large,
against the checker.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from hypothesis import HealthCheck, given, settings

from solver.carcass.outline import depth_wanted
from solver.checking.check import check
from solver.job.case import least_size
from solver.job.job import Job
from solver.layout import layout_problem
from solver.layout.by_rule import by_rule, wished
from solver.layout.layout_engine import solve_layout
from solver.layout.layout_problem import LayoutProblem
from solver.layout.look_scores import LookScores
from solver.layout.problem_from_job import build
from solver.layout.rules_kept import all_kept
from solver.outcome import Limits, Status
from solver.planning.plan_job import plan_job
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
        patch.setattr(layout_problem, "WHOLE", 0)
        yield


@settings(tiny, max_examples=60)
@given(tiny_jobs(stack=True, may_lie=True))
def test_the_rule_keeps_all_rules_and_is_no_better_than_what_is_proven_best(job: Job) -> None:
    problem = problem_of(job)
    layout, answer = by_rule(problem), solve_layout(problem, Limits())

    if answer.status is Status.INFEASIBLE:
        assert layout is None
    if layout is None:
        return
    assert all_kept(problem, *layout)
    assert all_kept(problem, answer.marks, answer.places)
    if answer.status is Status.OPTIMAL:
        assert wished(problem, layout) >= wished(problem, (dict(answer.marks), dict(answer.places)))


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


@pytest.mark.parametrize(
    ("count", "height", "left"),
    [
        (9, "8 in", 0),  # 3 x (8 + 1) in of some 30 in
        (10, "8 in", 1),  # one more than the width takes
    ],
)
def test_what_is_left_out_by_rule(count: int, height: str, left: int) -> None:
    problem = problem_of(boxes(count, height))
    layout = by_rule(problem)

    assert layout is not None
    assert LookScores(problem, *layout).left().total() == left


def test_shelves_by_rule_fall_by_one_step_where_they_may() -> None:
    """Boxes 9-1/2, 8 and 7 in high, one to an opening, with 1 in over each, of some 30 in.

    They need 10-1/2, 9 and 8 in: from a mean of some 10 in a fall of 1/2 to 2 in does.
    """
    items = [
        {"name": name, "width": "20 in", "height": height, "depth": "4 in", "weight": "1 lb"}
        for name, height in (("tall", "9 1/2 in"), ("middle", "8 in"), ("low", "7 in"))
    ]
    job = boxes(1, "8 in").model_copy(update={"items": make_job(unit="in", items=items).items})
    problem = problem_of(job)
    layout = by_rule(problem)

    assert layout is not None
    scores = LookScores(problem, *layout)
    (heights,) = scores.heights.values()
    assert heights == sorted(heights, reverse=True)
    assert scores.steady() <= problem.bays[0].step
