"""Generated jobs: every near miss and every change that would do, planned again, does."""

from __future__ import annotations

from decimal import Decimal

import pytest

from solver.changes.situation import Situation, altered, planned
from solver.checking.check import check
from solver.job.job import Job
from solver.plan.plan import Plan
from solver.plan.slack_and_advice import NearMiss
from solver.planning.plan_job import plan_job
from tests.generators import generate_job
from tests.near_jobs import limits

SEEDS = range(1, 6)


def job_of(seed: int, *, tighter: int = 0) -> Job:
    """A job of one case with prices; `tighter` takes so many per cent off its height."""
    job = generate_job(6, 14, seed=seed, tight=0.8)
    sheets = tuple(s.model_copy(update={"price": Decimal(90)}) for s in job.sheets)
    cases = tuple(
        case.model_copy(update={"height": int(str(case.height)) * (100 - tighter) // 100})
        for case in job.cases
    )
    return job.model_copy(update={"sheets": sheets, "cases": cases})


def as_job(after: Situation) -> Job:
    """The job of a situation, with its shelves as those asked for."""
    cases = tuple(
        case.model_copy(update={"shelves": after.counts[case.name][0]}) for case in after.job.cases
    )
    return after.job.model_copy(update={"cases": cases})


def start_of(plan: Plan, one: NearMiss) -> Situation:
    """What a near miss starts from: the option of its shelves, else the recommended one."""
    alike = [o for o in plan.options if o.cases and o.shelf_counts == one.shelf_counts]
    return planned(plan.job, (alike or [plan.options[0]])[0], share=True)


@pytest.mark.parametrize("seed", SEEDS)
def test_every_near_miss_does_what_it_says(seed: int) -> None:
    plan = plan_job(job_of(seed), limits(1.0))
    assert check(plan) == ()
    assert plan.near or plan.near_note

    for one in plan.near:
        after = altered(start_of(plan, one), one.alters)
        (option,) = plan_job(as_job(after), limits(1.0), near=False).options
        assert after.counts == one.shelf_counts
        assert option.fits_all, one.text
        assert option.cost is not None
        assert one.total is not None
        assert option.cost.total <= one.total, one.text


@pytest.mark.parametrize("seed", SEEDS)
def test_every_change_that_would_do_does(seed: int) -> None:
    plan = plan_job(job_of(seed, tighter=18), limits(1.0), near=False)
    assert check(plan) == ()
    (option,) = plan.options
    assert option.left_out

    for one in option.changes:
        if one.alters:
            after = altered(planned(plan.job, option, share=True), one.alters)
            assert plan_job(as_job(after), limits(1.0), near=False).options[0].fits_all, one.text
