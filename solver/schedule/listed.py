"""A schedule made step by step from a list: each as soon as its people are free.

Moving a step forward never delays another, since what waits is ready no later for it; so of
all schedules one made like this from some list ends soonest.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from solver.steps.network import Clock, fitted
from solver.work import Step


@dataclass
class Listed:
    """Starts and ends of the steps that are placed, and who is taken when [min]."""

    start: dict[str, int] = field(default_factory=dict)
    end: dict[str, int] = field(default_factory=dict)
    taken: list[tuple[int, int, int]] = field(default_factory=list)

    @property
    def finish(self) -> int:
        """End of the last step [min]."""
        return max(self.end.values(), default=0)


def by_list(
    order: Sequence[Step], people: int, clock: Clock, minutes: Mapping[str, int] | None = None
) -> Listed:
    """Place the steps in the order given, each after what it waits for.

    Parameters
    ----------
    minutes
        How long each step takes; a shared step in less than one person's time takes everybody.
        Left out, a step that can be shared is, where it is done sooner by that [min].
    """
    made = Listed()
    for step in order:
        ready = max((clock.ready(made.end[one.step], one.wait) for one in step.after), default=0)
        ways = {step.minutes, step.minutes_for(people)} if minutes is None else {minutes[step.key]}
        found = [_soonest(made, step, way, ready, people, clock) for way in sorted(ways)]
        begin, end = min(found, key=lambda one: (one[1], -one[0]))
        made.start[step.key], made.end[step.key] = begin, end
        made.taken.append((begin, end, needed(step, end - begin, people)))
    return made


def needed(step: Step, minutes: int, people: int) -> int:
    """Return how many a step takes that lasts so long [-]."""
    return people if minutes < step.minutes else min(step.people, people)


def _soonest(
    made: Listed, step: Step, minutes: int, ready: int, people: int, clock: Clock
) -> tuple[int, int]:
    """Return the earliest start, and the end, at which enough people are free throughout [min]."""
    free = people - needed(step, minutes, people)
    begin = fitted(ready, step, minutes, clock)
    while True:
        busy = _until(made, begin, begin + minutes, free)
        if busy is None:
            return begin, begin + minutes
        begin = fitted(busy, step, minutes, clock)


def _until(made: Listed, begin: int, end: int, free: int) -> int | None:
    """Return until when too many are busy in a span of time; None where they never are [min]."""
    moments = [begin, *(one for one, _, _ in made.taken if begin < one < end)]
    for moment in sorted(moments):
        now = [(last, count) for first, last, count in made.taken if first <= moment < last]
        if sum(count for _, count in now) > free:
            return min(last for last, _ in now)
    return None
