"""The rhythm scores, by their definition, in exact fractions.

With clear heights h from the lowest opening up, and headrooms r over each non-empty
opening's tallest thing, of one bay: `even` is the sum of the distances of h from its
mean, `symmetric` of the differences between openings that mirror each other, `graduated`
of the least distances of h from an even descent, `to-fit` of the distances of r from its mean.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from fractions import Fraction
from statistics import median_low

from solver.checking.views import BayView, OpeningView, OptionView
from solver.job import Look
from solver.units import Ticks


def score(view: OptionView) -> Ticks:
    """Score of the job's rhythm over all bays, rounded half up to a tick [tick]."""
    return math.floor(exact(view) + Fraction(1, 2))


def exact(view: OptionView) -> Fraction:
    """Score of the job's rhythm over all bays [tick]."""
    return sum((_of_bay(bay, view.job.look) for bay in view.bays), Fraction(0))


def _of_bay(bay: BayView, look: Look) -> Fraction:
    heights = [opening.height for opening in bay.bay.openings]
    match look.rhythm:
        case "even":
            return _from_mean(heights)
        case "symmetric":
            pairs = zip(heights, reversed(heights), strict=True)
            return Fraction(sum(abs(a - b) for a, b in pairs), 2)
        case "graduated":
            steps = (look.step_least, look.step_most)
            return graduated(heights, *(steps if look.step is None else (look.step, look.step)))
        case "to-fit":
            return _from_mean(headrooms(bay.openings))


def _from_mean(values: Sequence[Ticks]) -> Fraction:
    if not values:
        return Fraction(0)
    mean = Fraction(sum(values), len(values))
    return sum((abs(value - mean) for value in values), Fraction(0))


def graduated(heights: Sequence[Ticks], least: Ticks, most: Ticks) -> Fraction:
    """Least sum of distances from a descent with a step between `least` and `most` [tick].

    The sum is convex and piecewise linear in the step, so its least lies at an end of the
    range or where two openings lie on one descent; for a step the best start is a median.
    """
    count = len(heights)
    slopes = {
        Fraction(heights[i] - heights[j], j - i) for i in range(count) for j in range(i + 1, count)
    }
    within = {slope for slope in slopes if least < slope < most}
    return min(_fit(heights, step) for step in within | {Fraction(least), Fraction(most)})


def _fit(heights: Sequence[Ticks], step: Fraction) -> Fraction:
    starts = [height + step * i for i, height in enumerate(heights)]
    start = median_low(starts)
    return sum((abs(value - start) for value in starts), Fraction(0))


def headrooms(openings: Iterable[OpeningView]) -> list[Ticks]:
    """Headroom over the tallest thing of each opening that holds any [tick]."""
    return [
        view.opening.height - max(thing.y + thing.height for thing in view.opening.items)
        for view in openings
        if view.opening.items
    ]
