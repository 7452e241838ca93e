"""A job with every size and count decided, and what it is with something changed."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from solver.case import Case
from solver.job import Job, depth_wanted
from solver.layout.problem import LayoutProblem, build
from solver.plan import Option
from solver.planning.combinations import Counts
from solver.remarks import Altered
from solver.units import Ticks


@dataclass(frozen=True)
class Situation:
    """A job whose sizes are all whole numbers, with its shelves.

    Attributes
    ----------
    job
        The job; no size of a case is open.
    counts
        Shelves of each bay, by case name [-].
    share
        False where the shelf lines are not shared although the job asks for it.
    """

    job: Job
    counts: Counts
    share: bool = True

    @property
    def depths(self) -> dict[str, Ticks]:
        """Inside depth of each case, by name [tick]."""
        return {case.name: _whole(depth_wanted(self.job, case)) for case in self.job.cases}

    def problem(self) -> LayoutProblem:
        """Return its layout problem."""
        return build(self.job, self.counts, self.depths, share=self.share)


def _whole(depth: object) -> Ticks:
    assert isinstance(depth, int)
    return depth


def pinned(job: Job, counts: Counts, depths: Mapping[str, Ticks], *, share: bool) -> Situation:
    """Hold every case of a job at its inside depth [tick]."""
    cases = tuple(_at_depth(job, case, depths[case.name]) for case in job.cases)
    return Situation(job.model_copy(update={"cases": cases}), counts, share)


def planned(job: Job, option: Option, *, share: bool) -> Situation:
    """Hold every case of a job at the sizes of an option that has a layout."""
    cases = []
    for case, plan in zip(job.cases, option.cases, strict=True):
        outside = plan.outside
        back = 0 if case.back == "none" else job.thickness(case.back)
        t, inside = job.thickness(case.material), case.sizes == "inside"
        sizes: dict[str, Any] = {
            "width": outside.width - 2 * t * inside,
            "height": outside.height - (2 * t + case.raised_bottom) * inside,
            "depth": outside.depth - back * inside,
            "uprights": len(plan.bays) - 1,
        }
        cases.append(case.model_copy(update=sizes))
    return Situation(job.model_copy(update={"cases": tuple(cases)}), option.shelf_counts, share)


def _at_depth(job: Job, case: Case, depth: Ticks) -> Case:
    with_back = case.sizes == "outside" and case.back != "none"
    return case.model_copy(update={"depth": depth + (job.thickness(case.back) if with_back else 0)})


def altered(situation: Situation, changes: Sequence[Altered]) -> Situation:
    """Return the situation with things changed, one after the other."""
    for change in changes:
        situation = _ALTER[change.what](situation, change)
    return situation


def _size(situation: Situation, change: Altered) -> Situation:
    by = -(change.by or 0) if change.less else change.by or 0
    return _each_case(
        situation, change.case, lambda case: {change.what: getattr(case, change.what) + by}
    )


def _each_case(
    situation: Situation, name: str | None, update: Callable[[Case], dict[str, Any]]
) -> Situation:
    cases = tuple(
        case.model_copy(update=update(case)) if name in (None, case.name) else case
        for case in situation.job.cases
    )
    return replace(situation, job=situation.job.model_copy(update={"cases": cases}))


def _look(situation: Situation, change: Altered) -> Situation:
    field = change.what.replace(" ", "_")
    now = getattr(situation.job.look, field)
    by = -(change.by or 0) if change.less else change.by or 0
    look = situation.job.look.model_copy(update={field: max(0, now + by)})
    return replace(situation, job=situation.job.model_copy(update={"look": look}))


def _shelves(situation: Situation, change: Altered) -> Situation:
    more = change.number or 0
    counts = {
        name: tuple(n + more for n in bays) if change.case in (None, name) else bays
        for name, bays in situation.counts.items()
    }
    return replace(situation, counts=counts)


_FORMS = {"lying": "may_lie", "stacking": "stack", "rows": "rows"}


def _form(situation: Situation, change: Altered) -> Situation:
    value = True if change.what == "lying" else change.number
    items = tuple(
        item.model_copy(update={_FORMS[change.what]: value}) if item.name == change.item else item
        for item in situation.job.items
    )
    return replace(situation, job=situation.job.model_copy(update={"items": items}))


_ALTER: dict[str, Callable[[Situation, Altered], Situation]] = {
    "depth": _size,
    "width": _size,
    "height": _size,
    "headroom": _look,
    "gap": _look,
    "end margin": _look,
    "shelves": _shelves,
    "lying": _form,
    "stacking": _form,
    "rows": _form,
}
