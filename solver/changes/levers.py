"""Lengths that may be changed when something does not fit or costs a little too much: levers.

A lever never goes beyond what the measured place takes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from solver.carcass.outline import back_counted, outside_height, outside_width
from solver.carcass.settled_job import most_of, most_outside_depth
from solver.changes.situation import Situation, altered, look_now
from solver.doorway.swing_of_job import doorway_of
from solver.intake.check_job import check_room
from solver.intake.sizes_from_place import sizes_from_place
from solver.job.case import Case, SizeRange
from solver.job.job import Job
from solver.plan.slack_and_advice import Alteration
from solver.units import TICKS_PER_MM, Ticks, with_unit

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
    """Return how much a case may grow, as far as its measured place takes it [tick]."""
    if case.doorway is None:
        return most
    if what == "depth":
        return min(most, _deeper(job, case, most))
    place = sizes_from_place(job, case)
    if what == "width":
        return min(most, place.width.size - outside_width(job, case))
    door = doorway_of(job, case)
    left = min(place.height.size, door.clear_height - case.above_floor)
    return min(most, left - outside_height(job, case))


def _deeper(job: Job, case: Case, most: Ticks) -> Ticks:
    """How much deeper a case may be in its alcove, or hung so that it still swings [tick]."""
    door = doorway_of(job, case)
    if case.kind == "built-in":
        deep = most_outside_depth(job, case)
        return most if door.jamb_depth is None else door.jamb_depth - deep
    if case.kind != "hung":
        return most
    low, high = 0, most // _step(job) + 1  # halving: a deeper case must be narrower to swing
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if _swings(job, case, middle * _step(job)) else (low, middle)
    return low * _step(job)


def _swings(job: Job, case: Case, more: Ticks) -> bool:
    deeper = case.model_copy(update={"depth": _deep(job, case) + more})
    return sizes_from_place(job, deeper).width.size >= outside_width(job, case)


def _deep(job: Job, case: Case) -> Ticks:
    """Depth of a case as it is ordered [tick]."""
    return most_of(job, case).depth + back_counted(job, case)


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
        if change.less:
            return f"leaves more to fill in {where}"
        door = doorway_of(asked, before)
        has = door.clear_width if change.what == "width" else door.clear_height
        return f"{where} has {with_unit(has, asked.unit)}, it still goes in"
    if before.kind in ("built-in", "hung"):
        word = "built in" if before.kind == "built-in" else "hung in its doorway"
        return f"{word}: measure the place first"
    return None
