"""Large layouts: rows that grow with the kinds, and an answer by the limit whatever it is."""

from __future__ import annotations

import time

import pytest
from hypothesis import HealthCheck, given, settings
from solver.layout.arithmetic_bounds import least_rhythm
from solver.layout.incumbent import NOTHING, Settled
from solver.layout.opening_order import clear_heights
from solver.layout.warm_start import start_values

from solver.carcass.outline import depth_wanted
from solver.checking.check import check
from solver.job.case import least_size
from solver.job.job import Job
from solver.layout import constraints, layout_engine, layout_problem, rhythm_scores
from solver.layout.layout_engine import settle_marks, solve_layout
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.layout.stage_search import make
from solver.outcome import Limits, Status
from solver.planning.plan_job import plan_job
from tests.brute_force import solve as brute
from tests.generators import from_large_sheets, generate_job
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


NOTHING_FOUND = Settled(Status.UNKNOWN, {"fit": NOTHING})


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
    monkeypatch.setattr(layout_engine, "_by_models", lambda *_: NOTHING_FOUND)
    problem = two_cases()

    settled = settle_marks(problem, Limits())

    assert settled.status is Status.FEASIBLE
    assert settled.layout is not None
    marks, _ = settled.layout
    heights = [clear_heights(shape, bay, marks) for bay, shape in enumerate(problem.bays)]
    assert settled.stages["fit"].value == 0
    assert settled.stages["rhythm"].value == sum(map(rhythm_scores.even, heights))
    assert settled.stages["rhythm"].bound == least_rhythm(problem, 0)


def four_cases() -> Job:
    """Four cases of two bays, 400 kinds: some heavy things find no shelf that bears them."""
    return from_large_sheets(generate_job(400, 600, cases=4, bays=2, beside=False))


@pytest.mark.parametrize("seconds", [5, 600])
def test_models_are_built_only_where_there_is_time_for_them(
    seconds: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[LayoutProblem] = []

    def noted(problem: LayoutProblem, _: Limits) -> Settled:
        asked.append(problem)
        return NOTHING_FOUND

    monkeypatch.setattr(layout_engine, "_by_models", noted)

    settled = settle_marks(problem_of(four_cases(), bays=2), Limits(seconds=seconds))

    assert bool(asked) is (seconds == 600)
    assert settled.by_rule is not None
    assert settled.stages["fit"].value == settled.by_rule.left > 0
    assert not settled.stages["fit"].proven


def test_four_hundred_kinds_come_by_the_limit_and_keep_every_rule() -> None:
    limits, job, started = Limits(seconds=5), four_cases(), time.process_time()

    plan = plan_job(job, limits)

    taken = time.process_time() - started
    (option,) = plan.options
    assert check(plan) == ()
    assert option.status is Status.FEASIBLE
    assert 0 < sum(one.count for one in option.left_out) < 600 // 4
    assert taken < 1.1 * limits.seconds + 3  # what follows is not searched


def test_the_same_at_any_size_where_there_is_no_time_at_all() -> None:
    plan = plan_job(four_cases(), Limits(seconds=0.5))

    assert check(plan) == ()
    assert plan.options[0].cases


@pytest.mark.parametrize(
    ("most", "larger", "seconds", "not_built"),
    [
        (1, 0, 1e9, False),
        (0, 0, 1e9, True),  # as many as the most that is built, whatever the time
        (1, 0, 0, True),
        (1, 1, 0, False),  # one short of a large one: its time is of no account
    ],
)
def test_a_model_is_too_large_by_its_size_and_a_large_one_for_its_time(
    most: int, larger: int, seconds: float, not_built: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    problem = two_cases()
    monkeypatch.setattr(layout_problem, "MOST", layout_problem.places(problem) + most)
    monkeypatch.setattr(layout_problem, "LARGE", layout_problem.places(problem) + larger)

    assert layout_problem.too_large(problem, Limits(seconds=seconds)) is not_built
