"""What estimates leave out, where it applies to a case, and why not where it does not."""

from __future__ import annotations

from collections.abc import Iterator

from solver.case import Case
from solver.job import Job
from solver.labour.count import CaseWork, Counted
from solver.strength.cautions import LEAD_YEAR


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
