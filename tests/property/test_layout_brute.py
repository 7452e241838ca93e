"""On tiny jobs the planner finds what trying everything finds, and claims no more than that."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import HealthCheck, given, settings

from solver.carcass.outline import depth_wanted
from solver.job.job import Job
from solver.layout.layout_engine import LayoutAnswer, solve_layout
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Status
from solver.plan.plan import Stage
from solver.planning.plan_job import plan_job
from solver.units import TICKS_PER_MM, inches
from tests.brute_force import Best, graduated, solve, spread
from tests.builders import make_job
from tests.strategies import tiny_jobs

tiny = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True)


def layout(job: Job) -> LayoutAnswer:
    """Solve the only shelf count of a job of one case and a fixed depth."""
    case = job.cases[0]
    depth = depth_wanted(job, case)
    assert isinstance(depth, int)
    return solve_layout(build(job, {case.name: case.shelf_counts}, {case.name: depth}), Limits())


def assert_between(answer: LayoutAnswer, best: Best | None) -> None:
    """Nothing found is better than possible, nothing bounded is worse, and proven means best."""
    if best is None:
        assert answer.status is Status.INFEASIBLE
        return
    fit, rhythm = answer.stages["fit"], answer.stages["rhythm"]
    assert fit.value is not None
    assert fit.bound <= best.left_out <= fit.value
    assert fit.proven
    assert rhythm.value is not None
    assert rhythm.bound <= best.rhythm <= rhythm.value
    assert not rhythm.proven or rhythm.value == best.rhythm


@settings(tiny, max_examples=60)
@given(tiny_jobs(may_lie=True))
def test_the_layout_is_the_best_there_is(job: Job) -> None:
    answer, best = layout(job), solve(job)
    assert answer.status in (Status.OPTIMAL, Status.INFEASIBLE)
    assert_between(answer, best)


@settings(tiny, max_examples=25)
@given(tiny_jobs(stack=True, may_lie=True))
def test_stacked_things_are_never_scored_better_than_possible(job: Job) -> None:
    assert_between(layout(job), solve(job))


@settings(tiny, max_examples=15)
@given(tiny_jobs(may_lie=True))
def test_the_plan_states_the_best_there_is(job: Job) -> None:
    (option,) = plan_job(job).options
    best = solve(job)
    if best is None:
        assert option.status is Status.INFEASIBLE
        assert option.cases == ()
        return
    stages = {stage.name: stage for stage in option.stages}
    assert stages["fit"].value == sum(one.count for one in option.left_out) == best.left_out
    assert option.status is (Status.INFEASIBLE if best.left_out else Status.OPTIMAL)
    assert abs(in_ticks(stages["rhythm"]) - best.rhythm) <= Fraction(1, 2)


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


def test_two_urns_side_by_side_leave_the_cup_the_other_opening() -> None:
    # 11 + 1 and 6 + 1 fill 19 in; both are 2-1/2 from the mean of 9-1/2.
    assert solve(two_openings()) == Best(0, Fraction(2 * inches("2-1/2")))


def test_an_inch_more_headroom_leaves_the_cup_out() -> None:
    # 11 + 2 leave 6 in, less than 6 + 2; the urns stand in 13 in, 3-1/2 from the mean.
    assert solve(two_openings(headroom="2")) == Best(1, Fraction(2 * inches("3-1/2")))


def test_equal_headroom_over_both_is_a_perfect_fit() -> None:
    assert solve(two_openings(rhythm="to-fit")) == Best(0, Fraction(0))


def test_no_marks_keep_an_opening_below_nine_inches_when_two_share_nineteen() -> None:
    assert solve(two_openings(clear_most="9")) is None


def test_the_spread_of_three_heights_by_hand() -> None:
    # Mean 12: 3 + 0 + 3.
    assert spread((15, 12, 9)) == 6


def test_an_even_fall_scores_nothing_and_one_opening_out_scores_its_distance() -> None:
    assert graduated((15, 13, 11, 9), 1, 3) == 0
    assert graduated((15, 13, 12, 9), 2, 2) == 1


def test_a_step_is_held_within_its_bounds() -> None:
    # The best line of step 1 through (9, 5) misses one of them by 3.
    assert graduated((9, 5), 0, 1) == 3


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
    (option,) = plan_job(job).options
    stages = {stage.name: stage for stage in option.stages}
    assert in_ticks(stages["rhythm"]) == inches("6-9/32") - inches("6-1/16")
    assert option.scores is not None
    assert option.scores.rhythm == inches("6-9/32") - inches("6-1/16")
