"""On tiny jobs every stage that the engine calls proven is the best of all layouts, in order."""

from __future__ import annotations

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from solver.carcass.outline import depth_wanted
from solver.job.job import Job
from solver.layout import layout_engine
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.outcome import Limits
from tests.eye_brute import best
from tests.eye_compare import judge, misstated
from tests.eye_contents import TooLargeError
from tests.eye_jobs import problem_of
from tests.job_strategies import any_jobs
from tests.strategies import tiny_jobs

tiny = settings(deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)


def assert_best(problem: LayoutProblem) -> None:
    """The engine's answer is nowhere better or worse than it says."""
    try:
        least = best(problem)
    except TooLargeError:
        assume(False)
    judged = judge(problem, layout_engine.solve_layout(problem, Limits()), least)
    assert [*judged.wrong, *judged.later] == []


def first_problem(job: Job) -> LayoutProblem:
    """The problem of the fewest shelves, open depths at their most."""
    counts = {case.name: list(case.shelf_counts[:1]) * case.bay_count for case in job.cases}
    depths = {}
    for case in job.cases:
        wanted = depth_wanted(job, case)
        depths[case.name] = wanted if isinstance(wanted, int) else wanted.most
    return build(job, counts, depths)


@settings(tiny, max_examples=60)
@given(st.integers(0, 1_000_000))
def test_jobs_with_every_wish(seed: int) -> None:
    assert_best(problem_of(seed))


@settings(tiny, max_examples=40)
@given(tiny_jobs(stack=True, may_lie=True))
def test_tight_jobs_of_one_bay(job: Job) -> None:
    assert_best(first_problem(job))


@settings(tiny, max_examples=20)
@given(any_jobs())
def test_any_layout_obeys_the_rules_and_has_the_scores_that_it_states(job: Job) -> None:
    problem = first_problem(job)
    assert misstated(problem, layout_engine.solve_layout(problem, Limits(seconds=10))) == []
