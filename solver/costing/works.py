"""All the work of a plan, task by task: for the price and for the order of the work.

What estimates leave out, where it applies to a case, and why not where it does not.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from solver.costing.labour_count import CaseWork, Counted
from solver.costing.making_works import finishing, in_the_shop, on_site
from solver.job.case import Case
from solver.job.job import Job
from solver.plan.plan import Option
from solver.plan.work import Work
from solver.strength.cautions import LEAD_YEAR


def works(job: Job, option: Option) -> tuple[Work, ...]:
    """Return everything that is to be done, each task of each case once.

    What counts nothing is left out. Extras whose amount the job gives are left out too: the
    amount stands for the hours.
    """
    found = [_work(job, None, one) for one in _whole_job(job, option)]
    for planned in option.cases:
        case = CaseWork(job, option, planned)
        counted = (*in_the_shop(case), *finishing(case), *on_site(case), *forgotten(case))
        found += [_work(job, planned.name, one) for one in counted]
    given = job.terms.extras
    return tuple(work for work in found if work.count and work.task not in given)


def _work(job: Job, case: str | None, one: Counted) -> Work:
    count = Decimal(one.count)
    return Work(
        task=one.task,
        case=case,
        count=count,
        minutes=count * job.terms.minutes(one.task),
        people=one.people,
        of=one.of,
    )


def _whole_job(job: Job, option: Option) -> Iterator[Counted]:
    """Yield what is done once for all cases."""
    pieces, sticks = option.pieces
    yield Counted("survey trip", 1)
    yield Counted("drawing and proposal", 1)
    yield Counted("fetching materials", 1)
    yield Counted("setting a saw", sum(not one.as_it_stands for one in option.settings))
    yield Counted("sheet cut", sum(len(sheet.cuts) for sheet in option.sheets), pieces)
    yield Counted("stick cut", sum(len(stick.cuts) for stick in option.mouldings), sticks)
    yield Counted("labelling", len(pieces), pieces)
    yield Counted("labelling", len(sticks), sticks)
    yield Counted("delivery", 1)
    yield Counted("hand-over", 1)
    yield Counted("call-back", 1)


def may_be_lead(job: Job) -> bool:
    """Whether old paint is to be treated as lead."""
    built = job.head.house_built
    return built == "unknown" or built < LEAD_YEAR


def forgotten(work: CaseWork) -> Iterator[Counted]:
    """Yield the forgotten tasks that apply to one case."""
    yield Counted("protection", 1)
    for task in ("disposal", "patching", "lead-safe work"):
        if work.opens and not why_none(task, work.job, (work.case,)):
            yield Counted(task, 1)


def why_none(task: str, job: Job, cases: tuple[Case, ...]) -> str | None:
    """Why a forgotten task does not apply to any of these cases; None where it applies."""
    kinds = {case.kind for case in cases}
    if task in ("disposal", "patching"):
        return None if kinds & {"hung", "built-in"} else "nothing is taken out or cut open"
    if task == "lead-safe work":
        if not kinds & {"hung", "built-in"}:
            return "no old paint is cut or sanded"
        if not may_be_lead(job):
            return f"the house was built in {job.head.house_built}, not before {LEAD_YEAR}"
    return None
