"""Marks chosen before things: as good as trying everything, and as the model of all at once."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from hypothesis import HealthCheck, assume, given, settings

from solver.carcass.outline import depth_wanted
from solver.job.job import Job
from solver.layout import objective
from solver.layout.even_headroom import evenest
from solver.layout.evenness import Evenness
from solver.layout.fit import fewest_left
from solver.layout.later_stages import ORDERLESS
from solver.layout.layout_problem import LayoutProblem
from solver.layout.master_problem import best_rhythm
from solver.layout.problem_from_job import build
from solver.layout.stage_search import Search, make
from solver.outcome import Limits, Status
from tests.brute_front import looks
from tests.builders import make_job
from tests.strategies import tiny_jobs

tiny = settings(
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
    derandomize=True,
)


def problem_of(job: Job) -> LayoutProblem:
    """The only shelf count of a job of one case and a fixed depth."""
    case = job.cases[0]
    depth = depth_wanted(job, case)
    assert isinstance(depth, int)
    return build(job, {case.name: case.shelf_counts}, {case.name: depth})


@settings(tiny, max_examples=25)
@given(tiny_jobs(may_lie=True))
def test_the_most_even_headroom_is_that_of_trying_everything(job: Job) -> None:
    assume(job.look.rhythm != "to-fit")
    all_looks, problem = looks(job), problem_of(job)
    assume(all_looks)
    rhythm, orderless = min(look[0] for look in all_looks), job.look.rhythm in ORDERLESS
    best = min(Evenness(empty, spread) for r, empty, spread in all_looks if r <= rhythm)
    found = evenest(problem, Limits(), 0, rhythm, orderless=orderless)
    assert found.bound <= best
    grouped = any(item.group for item in job.items)
    assert grouped or found.search is not None
    assert found.search is None or found.bound == best


def bays(seed: int, rhythm: str) -> LayoutProblem:
    """Two or three bays that share lines, with fewer shelves in all but one; some things tall."""
    random = Random(seed)
    counts = random.choice([(2, 1), (1, 2), (3, 1), (3, 2), (2, 1, 1), (2, 2, 1)])
    items = [
        {
            "name": f"thing {n}",
            "width": str(random.randint(60, 220)),
            "height": str(random.randint(50, 330)),
            "depth": "80",
            "weight": random.choice(["1 kg", "9 kg"]),
            "gap": random.choice(["0", "20"]),
            "count": random.randint(1, 3),
        }
        for n in range(random.randint(2, 4))
    ]
    case = {
        "width": str(260 * len(counts) + random.randint(0, 200)),
        "height": str(random.randint(500, 900)),
        "depth": "200",
        "uprights": len(counts) - 1,
    }
    look = {"rhythm": rhythm, "headroom": "20", "clear_least": "60", "shelf_load": "15 kg"}
    job = make_job(unit="mm", case=case, items=items, look=look, job={"marking_step": "10"})
    depth = depth_wanted(job, job.cases[0])
    assert isinstance(depth, int)
    return build(job, {"case": counts}, {"case": depth})


def at_once(problem: LayoutProblem) -> tuple[int | None, Fraction | None]:
    """Fewest things left out and the best rhythm by one model of every bay and every thing."""
    v = make(problem, merge=False)
    search, left = Search(v, Limits()), objective.left_out(v)
    fewest = search.minimise(left)
    if fewest.raw is None:
        return None, None
    assert fewest.proven
    v.model.add(left.expression <= fewest.raw)
    rhythm = search.minimise(objective.rhythm(v))
    assert rhythm.proven
    return fewest.raw, rhythm.value


@pytest.mark.parametrize("seed", range(24))
def test_marks_first_find_what_one_model_of_everything_finds(seed: int) -> None:
    rhythm = ("even", "symmetric")[seed % 2]
    problem = bays(seed, rhythm)
    count, best = at_once(problem)
    left = fewest_left(problem, Limits())
    assert left.count == count
    if count is None:
        assert left.status is Status.INFEASIBLE
        return
    assert left.bound == count
    found = best_rhythm(problem, Limits(), count, orderless=rhythm == "even")
    assert found.status is Status.OPTIMAL
    assert found.rhythm is not None
    assert found.rhythm.value == found.bound == best
    if count:
        fewer = best_rhythm(problem, Limits(), count - 1, orderless=rhythm == "even")
        assert fewer.status is Status.INFEASIBLE
