"""A job with every size and count decided, what it is with a change made, and the levers.

A lever is a length that may be changed when something does not fit or costs a little too much.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal, TypeAlias

from solver.carcass.boards_of_case import box
from solver.carcass.outline import depth_wanted
from solver.carcass.settled_job import settled_job
from solver.intake.check_job import check_room
from solver.job.case import Case, SizeRange
from solver.job.job import Job
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.plan.plan import Option
from solver.plan.slack_and_advice import Alteration
from solver.sizing.combinations import Counts
from solver.units import TICKS_PER_MM, Ticks, with_unit


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
}


MOST_ADDED = 600 * TICKS_PER_MM
"""Sizes grow by no more than this: a larger case is a different one [tick]."""
CASES_MOST = 4
"""With more cases than this, sizes are changed in all of them together only [-]."""

SizeWhat: TypeAlias = Literal["depth", "width", "height"]
LookWhat: TypeAlias = Literal["headroom", "gap", "end margin"]
SIZES: tuple[SizeWhat, ...] = ("depth", "width", "height")
LOOKS: tuple[LookWhat, ...] = ("headroom", "gap", "end margin")


@dataclass(frozen=True)
class Lever:
    """One length that may be changed, by whole steps.

    Attributes
    ----------
    what, case, less
        Fields of the change that it makes.
    step
        What it moves by [tick].
    most
        By how many steps at most [-].
    """

    what: SizeWhat | LookWhat
    case: str | None
    less: bool
    step: Ticks
    most: int

    def change(self, steps: int) -> Alteration:
        """Return the change by so many steps; :func:`described` adds the words."""
        return Alteration(what=self.what, case=self.case, by=steps * self.step, less=self.less)

    def at(self, situation: Situation, steps: int) -> Situation:
        """Return the situation with the change made."""
        return altered(situation, [self.change(steps)])


def looks(job: Job, share: int = 1) -> list[Lever]:
    """Return levers of headroom, gap and end margin, each lessened by a `share`-th at most [-]."""
    step = job.head.marking_step
    now = {
        "headroom": job.look.headroom,
        "gap": job.look.gap if len(job.items) > 1 or job.items[0].gap is None else 0,
        "end margin": job.look.end_margin,
    }
    return [
        Lever(what, None, less=True, step=step, most=now[what] // share // step)
        for what in LOOKS
        if now[what] // share >= step
    ]


def growths(job: Job, most: Ticks = MOST_ADDED) -> list[Lever]:
    """Return levers that enlarge sizes, by `most` [tick] or as far as the place allows.

    Each size of all cases together, then of each case.
    """
    return [
        Lever(what, name, less=False, step=job.shop.cutting_step, most=steps)
        for name in _names(job)
        for what in SIZES
        if (steps := min(_room(job, c, what, most) for c in _cases(job, name)) // _step(job)) > 0
    ]


def reductions(job: Job, most: Ticks) -> list[Lever]:
    """Return levers that reduce sizes in the same way, by `most` [tick] at most."""
    return [
        Lever(what, name, less=True, step=_step(job), most=steps)
        for name in _names(job)
        for what in SIZES
        if (steps := _down(job, name, what, most)) > 0
    ]


def _step(job: Job) -> Ticks:
    return job.shop.cutting_step


def _names(job: Job) -> list[str | None]:
    """Return None, for all cases together, then the name of each case."""
    if len(job.cases) == 1:
        return [None]
    each = [case.name for case in job.cases]
    return [None, *(each if len(each) <= CASES_MOST else [])]


def _cases(job: Job, name: str | None) -> list[Case]:
    return [case for case in job.cases if name in (None, case.name)]


def _room(job: Job, case: Case, what: SizeWhat, most: Ticks) -> Ticks:
    """Return how much a case may grow, within its measured doorway if it has one [tick]."""
    if case.doorway is None or what == "depth":
        return most
    place = {door.name: door for door in job.doorways}[case.doorway]
    sizes = box(job, case, depth=1)
    if what == "width":
        return min(most, place.clear_width - sizes.outside_width)
    return min(most, place.clear_height - case.above_floor - sizes.outside_height)


def _down(job: Job, name: str | None, what: SizeWhat, most: Ticks) -> int:
    """Return by how many steps a size may shrink so that the boards leave room inside."""
    steps = most // _step(job)
    while steps > 0 and not _has_room(job, name, what, steps):
        steps //= 2
    return steps


def _has_room(job: Job, name: str | None, what: SizeWhat, steps: int) -> bool:
    for case in _cases(job, name):
        size = getattr(case, what) - steps * _step(job)
        if size < 20 * TICKS_PER_MM:
            return False
        try:
            check_room(job, case.model_copy(update={what: size}))
        except ValueError:
            return False
    return True


def described(
    asked: Job, after: Situation, changes: Sequence[Alteration]
) -> tuple[Alteration, ...]:
    """Return the changes with the resulting sizes, and what the job as asked says against them."""
    return tuple(_described(asked, after, change) for change in changes)


def _described(asked: Job, after: Situation, change: Alteration) -> Alteration:
    if change.what in LOOKS:
        return change.model_copy(update={"to": look_now(after.job, change)})
    if change.what not in SIZES:
        return change
    cases = _cases(after.job, change.case)
    sizes = {getattr(case, change.what) for case in cases}
    notes = [n for case in cases if (n := _objection(asked, asked.case(case.name), case, change))]
    return change.model_copy(
        update={
            "to": sizes.pop() if len(sizes) == 1 else None,
            "note": "; ".join(dict.fromkeys(notes)) or None,
        }
    )


def _objection(asked: Job, before: Case, after: Case, change: Alteration) -> str | None:
    """Return what the job says against a size: an allowed range, or the place it is made for."""
    wanted, size = getattr(before, change.what), getattr(after, change.what)
    if isinstance(wanted, SizeRange):
        if size < wanted.least:
            return f"less than the {with_unit(wanted.least, asked.unit)} asked for"
        if size > wanted.most:
            return f"more than the {with_unit(wanted.most, asked.unit)} asked for"
    if change.what == "depth":
        return None
    if before.doorway is not None:
        where = f"doorway {before.doorway!r}" if before.kind == "hung" else repr(before.doorway)
        return f"leaves more to fill in {where}" if change.less else f"still goes into {where}"
    if before.kind in ("built-in", "hung"):
        word = "built in" if before.kind == "built-in" else "hung in its doorway"
        return f"{word}: measure the place first"
    return None
