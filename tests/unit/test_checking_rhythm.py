"""The rhythm scores of the checker, against sums by hand and a general LP solver."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from scipy.optimize import linprog

from solver.checking.check import check
from solver.checking.scores import graduated, score
from solver.checking.structure import view
from solver.job.job import Rhythm
from solver.units import inches
from tests.edits import both, in_job, in_option
from tests.mutations import EMPTY
from tests.sample_plans import good_plan
from tests.two_bays_job import mm


def lp_graduated(heights: list[int], least: int, most: int) -> float:
    """Least sum of e with e >= |h - (a - s i)|, variables a, s and one e for each opening."""
    n = len(heights)
    rows, limits = [], []
    for i, h in enumerate(heights):
        for sign in (1, -1):
            row = [-sign, sign * i] + [0] * n
            row[2 + i] = -1
            rows.append(row)
            limits.append(-sign * h)
    bounds = [(None, None), (least, most), *[(0, None)] * n]
    answer = linprog([0, 0] + [1] * n, A_ub=rows, b_ub=limits, bounds=bounds)
    assert answer.status == 0
    return float(answer.fun)


@pytest.mark.parametrize(
    "heights",
    [
        [300],
        [300, 290],
        [300, 270, 240, 210],
        [300, 299, 150, 140],
        [100, 200, 300],
        [310, 250, 262, 180, 181, 120],
        [250, 250, 250, 250],
    ],
)
def test_graduated_is_the_least_that_an_lp_finds(heights: list[int]) -> None:
    assert float(graduated(heights, 12, 38)) == pytest.approx(lp_graduated(heights, 12, 38))


def test_an_even_descent_within_the_steps_scores_nothing() -> None:
    assert graduated([300 - 25 * i for i in range(6)], 12, 38) == 0


def test_the_step_is_held_within_its_bounds() -> None:
    # Descent by 50 where 38 is the most: 12 too much each time, round the middle one.
    assert graduated([200, 150, 100], 12, 38) == 12 + 12


def test_a_step_that_is_given_is_used() -> None:
    assert graduated([200, 190, 180], 30, 30) == 20 + 20


def rhythm_of(rhythm: Rhythm, heights: tuple[int, int, int]) -> int:
    """Score [tick] of the good plan with other heights [mm] in its first bay, equal ones beside."""
    changes = [in_job("look.rhythm", rhythm)]
    for bay, row in ((0, heights), (1, (289, 289, 289))):
        changes += [
            in_option(f"cases.0.bays.{bay}.openings.{k}.height", mm(h)) for k, h in enumerate(row)
        ]
    plan = both(*changes)(good_plan())
    return score(view(plan, plan.options[0]))


def test_even_is_the_sum_of_distances_from_the_mean() -> None:
    # Mean 289 + 1/3 mm: distances 2/3, 1/3 and 1/3 mm, in ticks, half up.
    assert rhythm_of("even", (290, 289, 289)) == round(Fraction(4, 3) * 320)


def test_symmetric_compares_the_openings_that_mirror_each_other_once() -> None:
    assert rhythm_of("symmetric", (300, 250, 270)) == mm(300 - 270)


def test_graduated_is_found_for_each_bay_by_itself() -> None:
    # Bay 1 descends by 30; bay 2 is level and cannot descend by less than 1/2 in.
    assert rhythm_of("graduated", (320, 290, 260)) == 2 * inches("1/2")


def test_to_fit_leaves_empty_openings_out() -> None:
    plan = in_option(f"{EMPTY}.height", mm(300))(good_plan())
    assert score(view(plan, plan.options[0])) == mm(272)


def test_the_plan_of_another_rhythm_is_refused_with_that_score_only() -> None:
    plan = in_job("look.rhythm", "symmetric")(good_plan())
    # 290 against 289 in each of two bays.
    found = check(plan)
    assert [f.code.value for f in found] == ["scores.rhythm"]
    assert found[0].needs == "2 mm"


def test_lp_oracle_agrees_with_a_sum_by_hand() -> None:
    heights = [300, 270, 250]
    # One step: 30 then 20; any step between fits two openings and misses one by 10 / 2 or less.
    misses = [abs((a - b) - 25) for a, b in pairwise(heights)]
    assert lp_graduated(heights, 25, 25) == pytest.approx(max(misses))
