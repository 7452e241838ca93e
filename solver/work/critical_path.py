"""The steps as a precedence network: the longest chain, and how far each step may slip.

A wait is clock time; on the working axis it is shorter where a night helps. `Clock` turns one
into the other, so that the longest chain here and the calendar speak of the same minutes.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from solver.plan.work import Step

CLOCK_DAY = 24 * 60
"""[min]"""


@dataclass(frozen=True)
class Clock:
    """Days of so much working time, from the same hour each morning.

    Attributes
    ----------
    day
        Working time of a day [min].
    """

    day: int

    def ready(self, end: int, wait: int) -> int:
        """Working time at which something is ready that waits clock time from `end` on [min].

        Days off are taken for none: a wait over a week-end counts as over one night, which is
        on the safe side.
        """
        if not wait:
            return end
        days, into = divmod(end, self.day)
        if into == 0 and end:
            days, into = days - 1, self.day  # it ended in the evening, not next morning
        nights, minute = divmod(into + wait, CLOCK_DAY)
        return (days + nights) * self.day + min(minute, self.day)


def in_calendar(steps: Sequence[Step]) -> tuple[Step, ...]:
    """Return the steps but for those that come after the job."""
    return tuple(step for step in steps if step.later is None)


def least_minutes(steps: Sequence[Step], people: int) -> dict[str, int]:
    """Least time each step takes so many people [min]."""
    return {step.key: step.minutes_for(people) for step in steps}


def earliest(steps: Sequence[Step], minutes: Mapping[str, int], clock: Clock) -> dict[str, int]:
    """Earliest start of each step where everybody is always free [min]; steps in order."""
    begin: dict[str, int] = {}
    for step in steps:
        ready = [clock.ready(begin[one.step] + minutes[one.step], one.wait) for one in step.after]
        begin[step.key] = fitted(max(ready, default=0), step, minutes[step.key], clock)
    return begin


def fitted(start: int, step: Step, minutes: int, clock: Clock) -> int:
    """Put a step that may not stand over a night to the next morning where it must be [min]."""
    into = start % clock.day
    if step.in_one_go and minutes <= clock.day and into + minutes > clock.day:
        return start - into + clock.day
    return start


def latest(
    steps: Sequence[Step], minutes: Mapping[str, int], clock: Clock, finish: int
) -> dict[str, int]:
    """Latest end of each step for a job that ends at `finish`, people aside [min]."""
    late = dict.fromkeys((step.key for step in steps), finish)
    for step in reversed(steps):
        begin = _begun(late[step.key], step, minutes[step.key], clock)
        late[step.key] = begin + minutes[step.key]
        for one in step.after:
            late[one.step] = min(late[one.step], _last_end(begin, one.wait, clock))
    return late


def _begun(end: int, step: Step, minutes: int, clock: Clock) -> int:
    """Return the latest start of a step that ends by `end`, within a day where it must be [min]."""
    begin = end - minutes
    if fitted(begin, step, minutes, clock) == begin:
        return begin
    return begin // clock.day * clock.day + clock.day - minutes


def _last_end(begin: int, wait: int, clock: Clock) -> int:
    """Return the latest end from which a wait is over by `begin` [min]; 0 where none is."""
    low, high = 0, max(0, begin)
    while low < high:
        middle = (low + high + 1) // 2
        if clock.ready(middle, wait) <= begin:
            low = middle
        else:
            high = middle - 1
    return low
