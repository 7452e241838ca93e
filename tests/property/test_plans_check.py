"""Whatever a small job asks for, its plan keeps every rule and the published format.

``PLANS_EXAMPLES=5000 python -m pytest tests/property/test_plans_check.py`` tries that many jobs,
other ones each time; without it a few are tried, the same ones each time.
"""

from __future__ import annotations

import json
import os

import pytest
from hypothesis import HealthCheck, given, settings

from solver.checking.check import check
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from tests.job_strategies import any_jobs
from tests.plan_format import assert_plan_format, load

EXAMPLES = int(os.environ.get("PLANS_EXAMPLES", "0"))
some = settings(
    max_examples=EXAMPLES or 15,
    derandomize=not EXAMPLES,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
SMALL = 0.2
"""Work allowed for one stage: little, so that unproven plans are tried too."""


def as_text(job: Job) -> str:
    """The job as it stands in a plan, to repeat a failure with."""
    return json.dumps(job.model_dump(mode="json", by_alias=True), ensure_ascii=False)


@pytest.mark.slow
@some
@given(any_jobs())
def test_any_plan_keeps_every_rule_and_the_format(job: Job) -> None:
    plan = plan_job(job, Limits(work=SMALL))
    findings = [str(finding) for finding in check(plan)]
    assert not findings, "\n".join([*findings, as_text(job)])
    assert_plan_format(load(plan.to_json()))
    assert Plan.model_validate_json(plan.to_json()) == plan
