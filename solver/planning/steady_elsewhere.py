"""Another shelf count that has a steady fall, where the one asked for has none."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from solver.job.case import SHELVES_MOST
from solver.job.job import Job
from solver.layout.layout_engine import LayoutAnswer, solve_layout
from solver.layout.layout_problem import large
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Status
from solver.sizing.combinations import Counts
from solver.units import Ticks

AWAY = (1, -1, 2, -2)
"""How many shelves more are tried, in this order [-]."""
SHARE, WORK = 0.1, 0.25
"""Shares of the time that is left and of the work of the limits that each may take [-]."""


def steady_count(
    job: Job, counts: Counts, depths: Mapping[str, Ticks], answer: LayoutAnswer, limits: Limits
) -> int | None:
    """Return the nearest shelf count with a proven steady fall that takes everything.

    None where the layout has a steady fall or none was asked for, where bays differ in their
    count, and where none within two shelves is proven to have one. `job` has the sizes settled.
    """
    if job.look.rhythm != "steady" or "even" not in answer.stages or limits.over:
        return None
    if len(every := {count for bays in counts.values() for count in bays}) > 1:
        return None
    now = every.pop()
    for away in AWAY:
        if 2 <= now + away <= SHELVES_MOST and _falls(job, counts, depths, now + away, limits):
            return now + away
    return None


def _falls(
    job: Job, counts: Counts, depths: Mapping[str, Ticks], count: int, limits: Limits
) -> bool:
    """Whether so many shelves in every bay have a proven steady fall and leave nothing out."""
    others = {name: (count,) * len(bays) for name, bays in counts.items()}
    problem = build(job, others, depths)
    if large(problem):
        return False
    few = replace(limits.until(SHARE), work=limits.work * WORK)
    answer = solve_layout(problem, few, later=False)
    whole = answer.status is Status.OPTIMAL and not any(answer.left.values())
    return whole and "steady" in answer.stages and not answer.stages["rises"].value
