"""Large layouts: an answer by the limit whatever it is, what is proven of it, every rule kept."""

from __future__ import annotations

import time

import pytest

from solver.carcass.outline import depth_wanted
from solver.checking.check import check
from solver.job.case import least_size
from solver.job.job import Job
from solver.layout import fit, layout_engine, layout_problem
from solver.layout.by_rule import by_rule, wished
from solver.layout.constraints import new_model
from solver.layout.layout_engine import solve_layout
from solver.layout.layout_problem import LayoutProblem
from solver.layout.look_scores import LookScores
from solver.layout.placed_layout import place
from solver.layout.problem_from_job import build
from solver.layout.refilling import Refilling
from solver.layout.rules_kept import all_kept
from solver.layout.stage_search import Search
from solver.layout.start_values import start_values
from solver.outcome import Limits, Status, Verdict
from solver.planning.plan_job import plan_job
from tests.generators import from_large_sheets, generate_job


def problem_of(job: Job, bays: int = 1) -> LayoutProblem:
    counts = {case.name: case.shelf_counts * bays for case in job.cases}
    depths = {case.name: least_size(depth_wanted(job, case)) for case in job.cases}
    return build(job, counts, depths)


def two_cases() -> LayoutProblem:
    """Two cases of two bays that share no lines, 120 kinds: large."""
    return problem_of(generate_job(120, 200, cases=2, bays=2, beside=False), bays=2)


@pytest.mark.parametrize("ranked", [False, True])
def test_a_layout_by_rule_is_a_solution_of_the_models(ranked: bool) -> None:
    problem = problem_of(generate_job(20, 60))
    layout = by_rule(problem)
    assert layout is not None
    assert not LookScores(problem, *layout).left()
    search = Search(new_model(problem, merge=ranked, ranked=ranked), Limits())
    for name, value in start_values(search.v, *layout).items():
        found = [variable for variable in search.v.all() if variable.name == name]
        for variable in found:
            search.v.model.add(variable == value)

    assert search.feasible() is Verdict.YES


def test_what_was_stood_up_by_rule_is_the_answer_where_no_model_gives_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(Search, "_run", lambda *_: Status.UNKNOWN)
    problem = two_cases()
    layout = by_rule(problem)

    answer = solve_layout(problem, Limits())

    assert layout is not None
    assert answer.status is Status.FEASIBLE
    assert (answer.marks, answer.places) == layout
    scores = LookScores(problem, *layout)
    assert answer.stages["fit"].value == scores.fit()
    assert answer.stages["mirrored"].value == scores.mirrored()
    odd = sum(kind.count % 2 for kind in problem.kinds)  # each opening has one middle for one
    assert answer.stages["mirrored"].bound == odd - sum(bay.openings for bay in problem.bays)
    assert answer.stages["steady"].value == scores.steady()
    assert answer.stages["steady"].bound is None


def test_refilling_some_openings_at_a_time_is_no_worse_and_keeps_every_rule() -> None:
    problem = two_cases()
    layout = by_rule(problem)
    assert layout is not None
    before = wished(problem, layout)

    better = Refilling(problem, layout, Limits(work=16.0, seconds=600)).better()

    assert wished(problem, better) <= before
    assert all_kept(problem, *better)
    assert better[0] == layout[0]


def four_cases() -> Job:
    """Four cases of two bays, 400 kinds: some heavy things find no shelf that bears them."""
    return from_large_sheets(generate_job(400, 600, cases=4, bays=2, beside=False))


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


def test_whether_as_much_fits_is_not_asked_of_a_model_that_cannot_be_built() -> None:
    problem = problem_of(four_cases(), bays=2)

    assert fit.fits_within(problem, fit.NOTHING, Limits(seconds=0.5)) is Verdict.UNSETTLED


def test_as_much_fits_where_a_large_layout_by_rule_leaves_nothing_out() -> None:
    job = from_large_sheets(generate_job(200, 600, cases=5, bays=2))

    verdict = fit.fits_within(problem_of(job, bays=2), fit.NOTHING, Limits(work=0.0, seconds=600))

    assert verdict is Verdict.YES


@pytest.mark.parametrize("whole", [0, 1 << 60])
def test_of_a_very_large_problem_no_model_of_every_opening_in_its_place_is_made(
    whole: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[LayoutProblem] = []

    def noted(problem: LayoutProblem, *more: object) -> object:
        asked.append(problem)
        return place(problem, *more)  # type: ignore[arg-type]

    monkeypatch.setattr(layout_problem, "WHOLE", whole)
    monkeypatch.setattr(layout_engine, "place", noted)

    answer = solve_layout(two_cases(), Limits(work=0.01))

    assert bool(asked) is (whole > 0)
    assert answer.marks_known


@pytest.mark.parametrize(
    ("most", "larger", "seconds", "not_built"),
    [
        (1, 0, 1e9, False),
        (0, 0, 1e9, True),  # as many as the most that is built, whatever the time
        (1, 0, 0, True),
        (1, 1, 0, False),  # one short of a large one: its time is of no account
    ],
)
@pytest.mark.parametrize(("merged", "name"), [(False, "WHOLE"), (True, "MOST")])
def test_a_model_is_too_large_by_its_size_and_a_large_one_for_its_time(
    most: int,
    larger: int,
    seconds: float,
    not_built: bool,
    merged: bool,
    name: str,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    problem = two_cases()
    count = layout_problem.places(problem, merged=merged)
    monkeypatch.setattr(layout_problem, name, count + most)
    monkeypatch.setattr(layout_problem, "LARGE", count + larger)

    built = not layout_problem.too_large(problem, Limits(seconds=seconds), merged=merged)

    assert built is not not_built
