"""A job with every size and count decided, and what it is with a change made."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from solver.carcass.outline import depth_wanted
from solver.carcass.settled_job import settled_job
from solver.job.case import Case, Lip
from solver.job.job import Job
from solver.job.materials import MouldingStock, StickLength
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.plan.plan import Option
from solver.plan.slack_and_advice import Alteration
from solver.sizing.combinations import Counts
from solver.units import Ticks, inches


@dataclass(frozen=True)
class Situation:
    """A job whose sizes are all decided, with its shelf counts.

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


def planned(job: Job, option: Option, *, share: bool) -> Situation:
    """Hold every case of a job at the sizes of an option that has a layout."""
    return Situation(settled_job(job, option), option.shelf_counts, share)


def altered(situation: Situation, changes: Sequence[Alteration]) -> Situation:
    """Return the situation with the changes made, one after the other."""
    for change in changes:
        situation = _ALTER[change.what](situation, change)
    return situation


def _size(situation: Situation, change: Alteration) -> Situation:
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


_LOOK_KEYS = {"headroom": "headroom", "gap": "gap", "end margin": "end_margin"}
"""The key of [look] that each change of a look is about."""


def look_now(job: Job, change: Alteration) -> Ticks:
    """Return the length in [look] that a change is about [tick]."""
    now: Ticks = getattr(job.look, _LOOK_KEYS[change.what])
    return now


def _look(situation: Situation, change: Alteration) -> Situation:
    by = -(change.by or 0) if change.less else change.by or 0
    new = {_LOOK_KEYS[change.what]: max(0, look_now(situation.job, change) + by)}
    look = situation.job.look.model_copy(update=new)
    return replace(situation, job=situation.job.model_copy(update={"look": look}))


def _shelves(situation: Situation, change: Alteration) -> Situation:
    more = change.number or 0
    counts = {
        name: tuple(n + more for n in bays) if change.case in (None, name) else bays
        for name, bays in situation.counts.items()
    }
    return replace(situation, counts=counts)


_FORMS = {"lying": "may_lie", "stacking": "stack", "rows": "rows"}


def _form(situation: Situation, change: Alteration) -> Situation:
    value = True if change.what == "lying" else change.number
    items = tuple(
        item.model_copy(update={_FORMS[change.what]: value}) if item.name == change.item else item
        for item in situation.job.items
    )
    return replace(situation, job=situation.job.model_copy(update={"items": items}))


def _lip(situation: Situation, change: Alteration) -> Situation:
    """A lip so high in all, hung from the front edge: of the moulding there is, or 3/4 in thick."""
    mouldings = {one.name: one for one in situation.job.mouldings}

    def update(case: Case) -> dict[str, Any]:
        if case.lip is None:
            mouldings[LIP_STOCK.name] = LIP_STOCK.model_copy(update={"width": change.to})
            return {"lip": Lip(moulding=LIP_STOCK.name, above=0)}
        higher = mouldings[case.lip.moulding].model_copy(update={"width": change.to})
        mouldings[higher.name] = higher
        return {}

    after = _each_case(situation, change.case, update)
    job = after.job.model_copy(update={"mouldings": tuple(mouldings.values())})
    return replace(after, job=job)


LIP_STOCK = MouldingStock(
    name="lip of wood",
    thickness=inches("3/4"),
    width=inches("1-1/2"),
    lengths=(StickLength(length=inches("96")),),
)
"""What a lip is made of where the job has none yet; its kind of wood is not named."""


def _thickness(situation: Situation, change: Alteration) -> Situation:
    return replace(situation, job=situation.job.measured({change.item or "": change.to or 0}))


def _uprights(situation: Situation, change: Alteration) -> Situation:
    """One upright more: one bay more, with as many shelves as the last."""
    after = _each_case(situation, change.case, lambda case: {"uprights": case.bay_count})
    counts = {
        name: (*bays, bays[-1]) if change.case in (None, name) else bays
        for name, bays in situation.counts.items()
    }
    return replace(after, counts=counts)


_ALTER: dict[str, Callable[[Situation, Alteration], Situation]] = {
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
    "lip": _lip,
    "thickness": _thickness,
    "uprights": _uprights,
}
