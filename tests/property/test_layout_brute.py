"""On tiny jobs as much fits as trying everything finds, and no more than that is claimed."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import HealthCheck, given, settings

from solver.carcass.outline import depth_wanted
from solver.job.job import Job
from solver.layout.fit import NOTHING, fits_within, least_loss
from solver.layout.layout_engine import solve_layout
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Status, Verdict
from solver.plan.plan import Stage
from solver.planning.plan_job import plan_job
from solver.units import TICKS_PER_MM, inches
from tests.brute_force import Best, solve
from tests.builders import make_job
from tests.strategies import tiny_jobs

tiny = settings(deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)


def problem_of(job: Job) -> LayoutProblem:
    """The only shelf count of a job of one case and a fixed depth."""
    case = job.cases[0]
    depth = depth_wanted(job, case)
    assert isinstance(depth, int)
    return build(job, {case.name: case.shelf_counts}, {case.name: depth})


@settings(tiny, max_examples=60)
@given(tiny_jobs(stack=True, may_lie=True))
def test_no_layout_leaves_less_out(job: Job) -> None:
    answer, best = solve_layout(problem_of(job), Limits()), solve(job)
    if best is None:
        assert answer.status is Status.INFEASIBLE
        return
    fit = answer.stages["fit"]
    assert fit.value == fit.bound == best.left_out
    assert fit.proven


@settings(tiny, max_examples=40)
@given(tiny_jobs(stack=True, may_lie=True))
def test_the_question_alone_has_the_same_answer(job: Job) -> None:
    problem, best = problem_of(job), solve(job)
    found = least_loss(problem, Limits())
    if best is None:
        assert found.status is Status.INFEASIBLE
        assert fits_within(problem, NOTHING, Limits()) is Verdict.NO
        return
    assert (found.loss, found.bound) == ((0, best.left_out, 0), (0, best.left_out, 0))
    assert fits_within(problem, (0, best.left_out, 0), Limits()) is Verdict.YES
    if best.left_out:
        assert fits_within(problem, (0, best.left_out - 1, 0), Limits()) is Verdict.NO


@settings(tiny, max_examples=15)
@given(tiny_jobs(may_lie=True))
def test_the_plan_states_the_best_there_is(job: Job) -> None:
    (option,) = plan_job(job, near=False).options
    best = solve(job)
    if best is None:
        assert option.status is Status.INFEASIBLE
        assert option.cases == ()
        return
    stages = {stage.name: stage for stage in option.stages}
    assert stages["fit"].value == best.left_out
    assert bool(option.left_out) is bool(best.left_out)
    assert option.status is Status.INFEASIBLE or not best.left_out


def in_ticks(stage: Stage) -> Fraction:
    """A stage's value, printed in millimetres to the nearest tick."""
    assert isinstance(stage.value, float | int)
    return Fraction(str(stage.value)) * TICKS_PER_MM


# --- The exhaustive solver itself, against sums by hand -----------------------------------


def two_openings(**look: str) -> Job:
    """Boards of 1 in, 20 in inside: one shelf leaves 19 in in two openings, marks on inches."""
    sheet = {"name": "s", "material": "ply", "length": "96", "width": "48", "thickness": "1"}
    thing = {"name": "urn", "width": "10", "height": "11", "depth": "5", "weight": "1 lb"}
    case = {"width": "22", "height": "22", "depth": "9", "shelves": 1, "back": "none"}
    plain = {"headroom": "1", "gap": "0", "end_margin": "0", "clear_least": "4"}
    return make_job(
        case=case,
        sheet=[sheet],
        items=[{**thing, "count": 2}, {**thing, "name": "cup", "height": "6"}],
        look={**plain, **look},
        job={"marking_step": "1 in"},
    )


def front(width: int, height: int) -> int:
    """Front of one thing in inches, in whole square millimetres, rounded up."""
    return ceil(width * height * Fraction("645.16"))


@pytest.mark.parametrize(
    ("look", "left_out"),
    [
        # 11 + 1 and 6 + 1 fill 19 in: two urns side by side, and the cup
        ({}, 0),
        # 11 + 2 leave 6 in, less than 6 + 2: the cup stays out, the lesser of the two
        ({"headroom": "2"}, front(10, 6)),
        # 11 + 10 are more than 19 - 4: both urns stay out
        ({"headroom": "5"}, 2 * front(10, 11)),
    ],
)
def test_what_stays_out_by_hand(look: dict[str, str], left_out: int) -> None:
    assert solve(two_openings(**look)) == Best(left_out)


def test_no_marks_keep_an_opening_below_nine_inches_when_two_share_nineteen() -> None:
    assert solve(two_openings(clear_most="9")) is None


# --- Found by trying everything ------------------------------------------------------------


def test_a_pile_is_never_taken_for_higher_than_the_things_in_it() -> None:
    """One box in each opening, though two might be piled: the headroom is over one box.

    14-1/2 in. outside with three boards of 23/32 leaves 12-11/32; the bottom opening is whole
    inches less 23/32, so the nearest to equal are 6-9/32 and 6-1/16.
    """
    box = {"name": "box", "width": "3", "height": "2-1/4", "depth": "2", "count": 2}
    job = make_job(
        case={"width": "14", "height": "14-1/2", "depth": "6", "shelves": 1},
        items=[{**box, "stack": 2, "weight": "1 kg"}],
        look={"rhythm": "to-fit", "headroom": "0", "clear_least": "2", "shelf_load": "1 kg"},
        job={"marking_step": "1 in"},
    )
    (option,) = plan_job(job, near=False).options
    stages = {stage.name: stage for stage in option.stages}
    assert in_ticks(stages["to-fit"]) == inches("6-9/32") - inches("6-1/16")
