"""The critical path method on the steps: earliest starts, latest ends, and so the slack.

A wait is clock time. In working time it is shorter where a night falls into it; `Clock` turns the
one into the other, so that the longest chain here and the calendar speak of the same minutes.
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

        No days off are assumed: a wait over a week-end counts as one over a night, which is on
        the safe side.
        """
        if not wait:
            return end
        days, into = divmod(end, self.day)
        if into == 0 and end:
            days, into = days - 1, self.day  # it ended in the evening, not next morning
        nights, minute = divmod(into + wait, CLOCK_DAY)
        return (days + nights) * self.day + min(minute, self.day)


def calendar_steps(steps: Sequence[Step]) -> tuple[Step, ...]:
    """Return the steps without those that come after the job, such as a call-back."""
    return tuple(step for step in steps if step.later is None)


def shortest_durations(steps: Sequence[Step], people: int) -> dict[str, int]:
    """Return the least time that each step takes with so many people [min]."""
    return {step.key: step.minutes_for(people) for step in steps}


def earliest_starts(
    steps: Sequence[Step], minutes: Mapping[str, int], clock: Clock
) -> dict[str, int]:
    """Return the earliest start of each step, people aside: the forward pass [min].

    The steps are in order, each after what it waits for.
    """
    starts: dict[str, int] = {}
    for step in steps:
        ready = [
            clock.ready(starts[after.step] + minutes[after.step], after.wait)
            for after in step.after
        ]
        starts[step.key] = within_a_day(max(ready, default=0), step, minutes[step.key], clock)
    return starts


def within_a_day(start: int, step: Step, minutes: int, clock: Clock) -> int:
    """Return a start, the next morning for a step that would else stand over a night [min]."""
    into = start % clock.day
    if step.in_one_go and minutes <= clock.day and into + minutes > clock.day:
        return start - into + clock.day
    return start


def latest_ends(
    steps: Sequence[Step], minutes: Mapping[str, int], clock: Clock, finish: int
) -> dict[str, int]:
    """Return the latest end of each step for a job that ends at `finish`: backward pass [min]."""
    ends = dict.fromkeys((step.key for step in steps), finish)
    for step in reversed(steps):
        begin = _latest_start(ends[step.key], step, minutes[step.key], clock)
        ends[step.key] = begin + minutes[step.key]
        for after in step.after:
            ends[after.step] = min(ends[after.step], _latest_end_before(begin, after.wait, clock))
    return ends


def _latest_start(end: int, step: Step, minutes: int, clock: Clock) -> int:
    """Return the latest start of a step that ends by `end`, in one day where it has to [min]."""
    begin = end - minutes
    if within_a_day(begin, step, minutes, clock) == begin:
        return begin
    return begin // clock.day * clock.day + clock.day - minutes


def _latest_end_before(begin: int, wait: int, clock: Clock) -> int:
    """Return the latest end from which a wait is over by `begin` [min]; 0 where none is."""
    low, high = 0, max(0, begin)
    while low < high:
        middle = (low + high + 1) // 2
        if clock.ready(middle, wait) <= begin:
            low = middle
        else:
            high = middle - 1
    return low
