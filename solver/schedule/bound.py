"""What no schedule can beat: the longest chain, and the work that must fall between two times."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from solver.steps.network import Clock, earliest, latest, least_minutes
from solver.work import Step


def least_finish(steps: Sequence[Step], people: int, clock: Clock, most: int) -> int:
    """Return a proven least end of the last step, at most `most`, by which it is known to go [min].

    For an end that is asked for, each step has an earliest start and a latest end. Where the
    steps that must be done between two times are more work than people have minutes, that end
    cannot be; a later end only gives more time, so the least that is not refuted is found by
    halving.
    """
    least = least_minutes(steps, people)
    begun = earliest(steps, least, clock)
    low = max((begun[step.key] + least[step.key] for step in steps), default=0)
    work = {step.key: step.minutes * min(step.people, people) for step in steps}
    high = max(low, most)
    while low < high:
        middle = (low + high) // 2
        ends = latest(steps, least, clock, middle)
        if _too_much(begun, ends, work, people):
            low = middle + 1
        else:
            high = middle
    return low


def _too_much(
    begun: Mapping[str, int], ends: Mapping[str, int], work: Mapping[str, int], people: int
) -> bool:
    """Whether some span of time has more work that must fall into it than it has minutes."""
    by_end = sorted(ends, key=lambda key: ends[key])
    for first in sorted(set(begun.values())):
        together = 0
        for key in by_end:
            if begun[key] >= first:
                together += work[key]
                if together > people * (ends[key] - first):
                    return True
    return False
