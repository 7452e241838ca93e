"""Rules on the plan as a whole and on how its options stand in it."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checking.compare import same
from solver.checking.findings import Code, Finding, finding
from solver.checking.structure import option_where
from solver.plan import Plan


def unit(plan: Plan) -> Iterator[Finding]:
    """The plan is in the job's unit."""
    yield from same(Code.PLAN_UNIT, "plan", "unit", plan.job.unit, plan.unit)


def job_hash(plan: Plan) -> Iterator[Finding]:
    """The hash is that of the job as understood."""
    yield from same(Code.PLAN_JOB_HASH, "plan", "job_hash", plan.job.hash, plan.job_hash)


def no_options(plan: Plan) -> Iterator[Finding]:
    """There is at least one option, and no fewer than none is left out."""
    if not plan.options or plan.not_shown < 0:
        yield finding(
            Code.PLAN_NO_OPTIONS,
            "plan",
            "options shown and not shown",
            "at least 1 and at least 0",
            f"{len(plan.options)} and {plan.not_shown}",
        )


def repeated(plan: Plan) -> Iterator[Finding]:
    """Each combination of shelf counts, and each name, stands for one option."""
    seen: list[object] = []
    for option in plan.options:
        for key in (option.shelf_counts, option.name):
            if key in seen:
                yield finding(
                    Code.PLAN_REPEATED,
                    option_where(option),
                    "shelf counts and name",
                    "those of no other option",
                    str(key),
                )
            seen.append(key)


def recommended_first(plan: Plan) -> Iterator[Finding]:
    """The option that is recommended comes first; there is only one."""
    for place, option in enumerate(plan.options, start=1):
        if "recommended" in option.tags and place > 1:
            yield finding(
                Code.PLAN_RECOMMENDED_FIRST,
                option_where(option),
                "place of the recommended option",
                "1",
                str(place),
            )


RULES = (unit, job_hash, no_options, repeated, recommended_first)
"""All rules on the plan as a whole."""
