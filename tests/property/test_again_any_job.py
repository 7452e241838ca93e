"""Whatever a small job asks for: planned again it keeps every rule, and moves no more than said."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from cli.files.hold_option import validated_job
from solver.checking.check import check
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Option, Plan
from solver.planning.plan_job import plan_job
from solver.replan.plan_again import plan_again
from tests.job_strategies import any_jobs

some = settings(
    deadline=None,
    derandomize=True,
    max_examples=4,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
SMALL = 0.2
"""Work allowed for one stage."""


def planned(job: Job) -> tuple[Plan, Option]:
    """The job's plan, and its first option, in which everything fits."""
    plan = plan_job(job, Limits(work=SMALL))
    assume(plan.options[0].fits_all)
    return plan, plan.options[0]


def again(job: Job, last: Plan) -> Plan:
    """Planned again, checked, and as its file says it."""
    new = plan_again(job, last, Limits(work=SMALL))
    findings = [str(finding) for finding in check(new)]
    assert not findings, "\n".join(findings)
    assert Plan.model_validate_json(new.to_json()) == new
    return new


@pytest.mark.slow
@some
@given(any_jobs())
def test_nothing_moves_where_nothing_is_asked(job: Job) -> None:
    plan, option = planned(job)
    new = again(job, plan)
    assert new.comparison is not None
    assert new.comparison.marks == ()
    assert new.comparison.things == ()
    assert new.comparison.parts == ()
    assert new.options[0].sheets == option.sheets
    assert new.options[0].cost == option.cost


@st.composite
def decisions(draw: st.DrawFn, option: Option) -> dict[str, Any]:
    """A shelf a few steps from where it is, or a thing in another opening."""
    bays = [(case.name, bay) for case in option.cases for bay in case.bays]
    name, bay = draw(st.sampled_from(bays))
    things = [thing.item for _, b in bays for o in b.openings for thing in o.items]
    of_shelf: bool = draw(st.booleans())
    if bay.shelves and of_shelf:
        shelf = draw(st.sampled_from(bay.shelves))
        return {"case": name, "bay": bay.number, "shelf": shelf.index, "mark": shelf.underside}
    opening = draw(st.sampled_from(bay.openings)).index
    item = draw(st.sampled_from(things))
    return {"case": name, "bay": bay.number, "item": item, "opening": opening, "count": 1}


@pytest.mark.slow
@some
@given(st.data(), any_jobs())
def test_any_decision_is_held_or_said_to_collide(data: st.DataObject, job: Job) -> None:
    plan, option = planned(job)
    hold = data.draw(decisions(option))
    if "mark" in hold:
        case = job.case(hold["case"])
        step = case.pin_pitch if case.fixing == "pins" else job.head.marking_step
        hold["mark"] = hold["mark"] + step * data.draw(st.integers(-8, 8))
        assume(hold["mark"] >= 320)
    new = again(validated_job({**job.model_dump(by_alias=True), "hold": [hold]}, "--hold"), plan)
    (now,) = new.options
    if not now.cases:
        assert now.why
        return
    stages = {stage.name: stage for stage in now.stages}
    compared = new.comparison
    assert compared is not None
    way = sum(abs(one.after - one.before) for one in compared.marks)
    assert stages["marks moved"].value == way / 320
    moved = sum(one.count for one in compared.things if one.from_ and one.to)
    assert stages["things moved"].value == moved


@pytest.mark.slow
@some
@given(any_jobs(kinds=2))
def test_what_is_held_where_it_is_moves_nothing(job: Job) -> None:
    plan, option = planned(job)
    holds = [
        {"case": case.name, "bay": bay.number, "shelf": shelf.index, "mark": shelf.underside}
        for case in option.cases
        for bay in case.bays
        for shelf in bay.shelves
    ]
    assume(all(low["mark"] != high["mark"] for low, high in pairwise(holds)))
    new = again(validated_job({**job.model_dump(by_alias=True), "hold": holds}, "--hold"), plan)
    assert new.comparison is not None
    assert new.comparison.marks == ()
    assert new.comparison.things == ()
