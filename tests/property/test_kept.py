"""Planned again where models are too large: everything stays, what is new finds a place."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from solver.checking.check import check
from solver.job.holds import Hold
from solver.job.job import Job
from solver.layout import layout_problem
from solver.outcome import Limits, Status
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from solver.replan.plan_again import plan_again
from solver.units import TICKS_PER_INCH
from tests.builders import make_job
from tests.strategies import tiny_jobs


def again_without_models(job: Job, last: Plan) -> Plan:
    """Planned again as if its models were too large; checked."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(layout_problem, "LARGE", 0)
        patch.setattr(layout_problem, "MOST", 0)
        new = plan_again(job, last, Limits(work=0.2))
    assert [str(finding) for finding in check(new)] == []
    return new


@settings(deadline=None, derandomize=True, max_examples=12, suppress_health_check=list(HealthCheck))
@given(tiny_jobs(stack=True, may_lie=True))
def test_nothing_moves_where_nothing_is_asked(job: Job) -> None:
    plan = plan_job(job, Limits(work=0.2), near=False, advice=False)
    if not plan.options[0].fits_all:  # it is not planned again then
        return

    new = again_without_models(job, plan)

    assert new.comparison is not None
    assert new.comparison.marks == ()
    assert new.comparison.things == ()


def asked(cups: int, **more: Any) -> Job:
    """Boxes 12 in high and cups 5 in high in openings of a case with two shelves."""
    thing = {"width": "6 in", "depth": "4 in", "weight": "1 lb"}
    return make_job(
        unit="in",
        case={"width": "33 in", "height": "36 in", "depth": "8 in", "shelves": 2},
        items=[
            thing | {"name": "box", "height": "12 in", "count": 3},
            thing | {"name": "cup", "height": "5 in", "count": cups},
        ],
        look={"headroom": "1 in"},
        **more,
    )


def test_what_is_new_finds_a_place_and_the_rest_stays() -> None:
    plan = plan_job(asked(2), near=False, advice=False)

    new = again_without_models(asked(3), plan)

    assert new.options[0].fits_all
    assert new.comparison is not None
    assert new.comparison.marks == ()
    assert {one.item for one in new.comparison.things} <= {"cup"}


@pytest.mark.parametrize("away", [0, 1])
def test_a_shelf_held_where_it_is_stays_and_one_held_elsewhere_is_not_answered(away: int) -> None:
    plan = plan_job(asked(2), near=False, advice=False)
    mark = plan.options[0].cases[0].bays[0].shelves[0].underside + away * TICKS_PER_INCH
    job = asked(2)
    hold = Hold(case=job.cases[0].name, shelf=1, mark=mark)

    new = again_without_models(job.model_copy(update={"holds": (hold,)}), plan)

    assert new.options[0].fits_all is (away == 0)
    assert new.options[0].status is (Status.FEASIBLE if away == 0 else Status.UNKNOWN)


@pytest.mark.parametrize(
    ("cups", "status"),
    [
        (10, Status.UNKNOWN),  # 13 things of 6 in, four to an opening: one too many, by 78 in only
        (20, Status.INFEASIBLE),  # 23 things, 138 in and the gaps, in three openings of 31-1/2 in
    ],
)
def test_it_is_said_that_there_is_no_place_only_where_that_is_sure(
    cups: int, status: Status
) -> None:
    plan = plan_job(asked(2), near=False, advice=False)

    new = again_without_models(asked(cups), plan)

    assert new.options[0].status is status
    assert ("by the limit" in str(new.options[0].why)) is (status is Status.UNKNOWN)
