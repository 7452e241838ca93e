"""Large layouts: rows that grow with the kinds, and an answer by the limit whatever it is."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings

from solver import rhythm
from solver.case import least_size
from solver.job import Job, depth_wanted
from solver.layout import constraints, solve
from solver.layout.constructed import by_construction
from solver.layout.model import make
from solver.layout.problem import build
from solver.layout.shapes import LayoutProblem
from solver.layout.solve import settle_marks, solve_layout
from solver.layout.start import start_values
from solver.outcome import Limits, Status
from tests.brute_force import solve as brute
from tests.generators import generate_job
from tests.strategies import tiny_jobs


def problem_of(job: Job, bays: int = 1) -> LayoutProblem:
    counts = {case.name: case.shelf_counts * bays for case in job.cases}
    depths = {case.name: least_size(depth_wanted(job, case)) for case in job.cases}
    return build(job, counts, depths)


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(tiny_jobs(may_lie=True))
def test_level_by_level_the_best_layout_is_the_same(job: Job) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(constraints, "CHAINED", -1)
        answer = solve_layout(problem_of(job), Limits())
    best = brute(job)

    if best is None:
        assert answer.status is Status.INFEASIBLE
        return
    assert answer.stages["fit"].value == best.left_out
    assert answer.stages["rhythm"].value == best.rhythm


def two_cases() -> LayoutProblem:
    """Two cases of two bays that share no lines, 120 kinds."""
    return problem_of(generate_job(120, 200, cases=2, bays=2, beside=False), bays=2)


def test_several_groups_start_from_the_same_lines() -> None:
    v = make(two_cases(), merge=False)

    values = start_values(v)

    assert values is not None
    lines = {
        group: [value for name, value in values.items() if name.startswith(f"line[group={group},")]
        for group in (0, 1)
    }
    assert lines[0] == lines[1] != []


def test_what_was_stood_up_by_rule_is_the_answer_where_nothing_better_is_found(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(solve, "_marks_first", lambda *_: solve._First())
    monkeypatch.setattr(solve, "_relaxation", lambda *_: None)
    monkeypatch.setattr(solve, "_full", lambda *_: None)
    problem = two_cases()

    settled = settle_marks(problem, Limits())

    assert settled.status is Status.FEASIBLE
    assert settled.search is not None
    assert settled.stages["fit"].value == 0
    v = settled.search.v
    heights = [
        [settled.search.value(v.height(c, k)) for k in range(one.shape.openings)]
        for c, one in enumerate(v.classes)
    ]
    score = sum(
        (one.times * rhythm.even(heights[c]) for c, one in enumerate(v.classes)), Fraction(0)
    )
    assert settled.stages["rhythm"].value == score
    assert settled.stages["rhythm"].bound == 0


def test_small_models_are_not_stood_up_first() -> None:
    started = by_construction(problem_of(generate_job(5, 9)), Limits())

    assert started is None
