"""What is proven on bays taken together and openings by rank holds for one model of everything."""

from __future__ import annotations

from random import Random

import pytest

from solver.carcass.outline import depth_wanted
from solver.layout.constraints import new_model, parted_places
from solver.layout.fit import NOTHING, fits_within, least_loss, least_parted
from solver.layout.layout_engine import solve_layout
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.layout.relaxation import relaxed
from solver.layout.stage_search import Search
from solver.layout.stages import FIT, Reached, asked_for, run
from solver.layout.wishes import left_out
from solver.outcome import Limits, Status, Verdict
from tests.builders import make_job

COUNTS = [(1, 1), (2, 2), (2, 1), (1, 2), (3, 1), (1, 1, 1), (2, 1, 1)]
"""Shelves of two or three bays that share lines; with fewer in some, no openings have ranks."""


def bays(seed: int) -> LayoutProblem:
    """Bays that share lines; some things tall, some with a heading."""
    random = Random(seed)
    counts = random.choice(COUNTS)
    items = [
        {
            "name": f"thing {n}",
            "width": str(random.randint(60, 220)),
            "height": str(random.randint(50, 330)),
            "depth": "80",
            "weight": random.choice(["1 kg", "9 kg"]),
            "gap": random.choice(["0", "20"]),
            "count": random.randint(1, 3),
            **({"heading": "red"} if random.random() < 0.3 else {}),
            **({"keep": "optional"} if random.random() < 0.3 else {}),
        }
        for n in range(random.randint(2, 4))
    ]
    case = {
        "width": str(260 * len(counts) + random.randint(0, 200)),
        "height": str(random.randint(500, 900)),
        "depth": "200",
        "uprights": len(counts) - 1,
    }
    look = {"headroom": "20", "clear_least": "60", "shelf_load": "15 kg"}
    job = make_job(unit="mm", case=case, items=items, look=look, job={"marking_step": "10"})
    depth = depth_wanted(job, job.cases[0])
    assert isinstance(depth, int)
    return build(job, {"case": counts}, {"case": depth})


def at_once(problem: LayoutProblem) -> Reached | None:
    """Every stage up to `alone` by one model of every bay and everything, from nothing."""
    search, found = Search(new_model(problem), Limits()), Reached()
    if search.feasible() is Verdict.NO:
        return None
    assert run(search, (*FIT, *asked_for(problem)), Reached(), found, None)
    assert all(one.proven for one in found.found.values())
    return found


@pytest.mark.parametrize("seed", range(30))
def test_the_engine_finds_what_one_model_of_everything_finds(seed: int) -> None:
    problem = bays(seed)
    best, answer = at_once(problem), solve_layout(problem, Limits(), later=False)
    if best is None:
        assert answer.status is Status.INFEASIBLE
        assert relaxed(problem, Limits()).fits is not Verdict.YES
        return
    stages = {name: answer.stages[name] for name in asked_for(problem)}
    assert {name: one.value for name, one in stages.items()} == {
        name: best.found[name].value for name in stages
    }
    assert answer.stages["fit"].value == sum(best.most(name) or 0 for name in FIT)
    assert answer.status is Status.OPTIMAL


@pytest.mark.parametrize("seed", range(30))
def test_the_relaxation_is_never_over_it(seed: int) -> None:
    problem = bays(seed)
    best, bounds = at_once(problem), relaxed(problem, Limits())
    if best is None:
        return
    fits = not any(best.most(name) for name in FIT)
    assert bounds.fits is not Verdict.NO or not fits
    if bounds.fits is Verdict.YES and not fits:
        return  # its bounds are for layouts that leave nothing out
    for name in (*FIT, *asked_for(problem)):
        if name not in bounds.reached.found:
            continue
        low, most = bounds.reached.floor(name), best.most(name)
        assert most is not None
        assert low <= most
        if low < most:  # later bounds are for layouts as good as the relaxation in this one
            return


@pytest.mark.parametrize("seed", range(0, 30, 2))
def test_fit_and_places_parted_alone_are_the_same(seed: int) -> None:
    problem = bays(seed)
    best, found = at_once(problem), least_loss(problem, Limits())
    if best is None:
        assert found.status is Status.INFEASIBLE
        return
    loss = tuple(best.most(name) for name in FIT)
    assert found.loss == found.bound == loss
    assert fits_within(problem, found.bound, Limits()) is Verdict.YES
    if found.bound != NOTHING:
        assert fits_within(problem, NOTHING, Limits()) is Verdict.NO
    search = Search(new_model(problem), Limits())
    for keep, most in enumerate(found.bound):
        search.hold(left_out(search.v, keep), most)
    parted = search.minimise(parted_places(search.v)).raw
    assert least_parted(problem, Limits(), found.bound) == (parted, parted)
