"""The order of all cuts: sheets broken down one by one, then equal settings together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from solver.cuts import Direction
from solver.sequence.saws import Way
from solver.sequence.steps import Step
from solver.units import Ticks

Key: TypeAlias = tuple[Way, Direction, Ticks]


@dataclass(frozen=True)
class Job:
    """A step with its saw and setting, waiting to be made."""

    step: Step
    at: tuple[int, int]
    """Index of the sheet, and of the step in it."""
    key: Key

    @property
    def before(self) -> tuple[int, int] | None:
        """The step that must be made before."""
        return None if self.step.before is None else (self.at[0], self.step.before)

    @property
    def whole(self) -> bool:
        """Whether the sheet itself is cut where it lies: one sheet after the other."""
        return self.key[0].saw in ("panel saw", "guided saw", None)


def in_order(jobs: Sequence[Job]) -> list[Job]:
    """Return the order with the fewest settings that the rules of choice give."""
    tried = [_ordered(jobs, longest_first=first) for first in (True, False)]
    return min(tried, key=lambda order: len(runs(order)))


def runs(order: Sequence[Job]) -> list[list[Job]]:
    """Divide an order into runs of cuts that are made without touching any setting."""
    found: list[list[Job]] = []
    for job in order:
        if found and found[-1][-1].key == job.key:
            found[-1].append(job)
        else:
            found.append([job])
    return found


def _ordered(jobs: Sequence[Job], *, longest_first: bool) -> list[Job]:
    left = {job.at: job for job in jobs}
    order: list[Job] = []
    while left:
        ready = [job for job in left.values() if job.before not in left]
        chosen = _next(ready, left, order[-1] if order else None, longest_first=longest_first)
        for job in chosen:
            order.append(left.pop(job.at))
    return order


def _next(
    ready: Sequence[Job],
    left: dict[tuple[int, int], Job],
    last: Job | None,
    *,
    longest_first: bool,
) -> list[Job]:
    """Choose the next cut, or all cuts that are ready at one setting of a bench saw."""
    whole = [job for job in ready if job.whole]
    if whole:
        same = [job for job in whole if last and job.at[0] == last.at[0]] or whole
        return [min(same, key=lambda job: job.at)]
    if last is not None and (more := [job for job in ready if job.key == last.key]):
        return more
    open_keys = {job.key for job in left.values() if job.before in left}
    key = min(
        {job.key for job in ready},
        key=lambda k: (k in open_keys, k[0].saw or "", -k[2] if longest_first else k[2], k[1]),
    )
    return [job for job in ready if job.key == key]
