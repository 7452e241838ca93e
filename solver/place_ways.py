"""Whether a case can be carried to its place: doors, and square turns of a passage."""

from __future__ import annotations

from math import cos, pi, sin

from solver.case import Case, most_size
from solver.doorway import Doorway, WayIn
from solver.job import Job
from solver.settled import most_outside_depth
from solver.units import Ticks, with_unit

ROUNDS = 80
"""Halvings of the angle at a turn; the last are far below a tick [-]."""


def ways_checked(job: Job, case: Case, door: Doorway) -> tuple[str, ...]:
    """Say of each way in whether the case can be carried through it, once for each."""
    sides = most_size(case.width), most_size(case.height), most_outside_depth(job, case)
    return tuple(_one(job, way, sides) for way in door.ways_in)


def _one(job: Job, way: WayIn, sides: tuple[Ticks, Ticks, Ticks]) -> str:
    width, height, depth = sides
    small, middle, _ = sorted(sides)
    if small > min(way.width, way.height) or middle > max(way.width, way.height):
        size = f"{with_unit(middle, job.unit)} x {with_unit(small, job.unit)}"
        return (
            f"{way.name}: the case, {size} at its smallest, does NOT go through; make it in parts"
        )
    if way.turn_from is None or way.turn_into is None:
        return f"{way.name}: the case goes through"
    upright = height <= way.height and width <= longest_round(way.turn_from, way.turn_into, depth)
    flat = longest_round(way.turn_from, way.turn_into, min(width, depth)) >= height
    if upright or flat:
        how = "standing" if upright else "lying"
        return f"{way.name}: the case goes through and round the turn {how}"
    return f"{way.name}: the case does NOT go round the turn; make it in parts"


def longest_round(first: Ticks, second: Ticks, thick: Ticks) -> Ticks:
    """Longest box of a thickness that goes round a square turn, rounded down [tick].

    The least over all angles of (A cos t + B sin t - d) / (sin t cos t): a box of thickness d
    that touches both outer walls just clears the inner corner. 0 where it does not enter.
    """
    if thick >= min(first, second):
        return 0

    def length(t: float) -> float:
        return (first * cos(t) + second * sin(t) - thick) / (sin(t) * cos(t))

    low, high = 1e-6, pi / 2 - 1e-6
    for _ in range(ROUNDS):
        one, two = low + (high - low) / 3, high - (high - low) / 3
        low, high = (low, two) if length(one) < length(two) else (one, high)
    return int(length((low + high) / 2))
