"""Planned again where the limit has come: everything stays, what is new finds a place."""

from __future__ import annotations

import time
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from solver.checking.check import check
from solver.job.holds import Hold
from solver.job.job import Job
from solver.outcome import Limits, Status
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from solver.replan.plan_again import plan_again
from solver.units import TICKS_PER_INCH
from tests.builders import make_job
from tests.strategies import tiny_jobs


def again_at_the_limit(job: Job, last: Plan) -> Plan:
    """Planned again with no time left; checked."""
    new = plan_again(job, last, Limits(seconds=0))
    assert [str(finding) for finding in check(new)] == []
    return new


@settings(deadline=None, derandomize=True, max_examples=12, suppress_health_check=list(HealthCheck))
@given(tiny_jobs(stack=True, may_lie=True))
def test_nothing_moves_where_nothing_is_asked(job: Job) -> None:
    plan = plan_job(job, Limits(work=0.2), near=False, advice=False)
    if not plan.options[0].fits_all:  # it is not planned again then
        return

    new = again_at_the_limit(job, plan)

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

    new = again_at_the_limit(asked(3), plan)

    assert new.options[0].fits_all
    assert new.comparison is not None
    assert new.comparison.marks == ()
    assert {one.item for one in new.comparison.things} <= {"cup"}


@pytest.mark.parametrize(("away", "fits"), [(0, True), (-1, True), (-2, False)])
def test_a_shelf_held_is_answered_where_all_things_stay(away: int, fits: bool) -> None:
    """Three boards of 18 mm leave 33-7/8 in: openings of 14, 13 and 6-7/8 in stand at the least."""
    plan = plan_job(asked(2), near=False, advice=False)
    (bay,) = plan.options[0].cases[0].bays
    job, least = asked(2), bay.openings[0].height - max(t.headroom for t in bay.openings[0].items)
    down = bay.openings[0].height - least - TICKS_PER_INCH  # room beyond the headroom of 1 in
    step = TICKS_PER_INCH // 16
    way = away * (down // step * step) if away > -2 else -(down // step * step + step)
    hold = Hold(case=job.cases[0].name, shelf=1, mark=bay.shelves[0].underside + way)

    new = again_at_the_limit(job.model_copy(update={"holds": (hold,)}), plan)

    assert new.options[0].fits_all is fits
    assert new.options[0].status in (
        (Status.OPTIMAL, Status.FEASIBLE) if fits else (Status.UNKNOWN,)
    )


@pytest.mark.parametrize(
    ("limits", "status"), [(Limits(seconds=0), Status.UNKNOWN), (Limits(), Status.INFEASIBLE)]
)
def test_it_is_said_that_there_is_no_place_only_where_that_is_sure(
    limits: Limits, status: Status
) -> None:
    """23 things of 6 in, 138 in and the gaps, in three openings of 31-1/2 in."""
    plan = plan_job(asked(2), near=False, advice=False)

    new = plan_again(asked(20), plan, replace(limits, started=time.monotonic()))

    assert new.options[0].status is status
    assert ("by the limit" in str(new.options[0].why)) is (status is Status.UNKNOWN)
