"""The rhythm scores: how even, graduated, symmetric or fitting a set of openings is.

All in exact fractions of ticks; 0 is perfect.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations

from solver.units import Ticks


def even(heights: Sequence[Ticks]) -> Fraction:
    """Sum of the differences from the mean of the clear heights [tick]."""
    mean = Fraction(sum(heights), len(heights))
    return sum((abs(h - mean) for h in heights), Fraction(0))


def symmetric(heights: Sequence[Ticks]) -> Fraction:
    """Sum of the differences between the openings of each pair, lowest with highest [tick]."""
    pairs = list(zip(heights, reversed(heights), strict=True))[: len(heights) // 2]
    return Fraction(sum(abs(low - high) for low, high in pairs))


def graduated(heights: Sequence[Ticks], step_least: Ticks, step_most: Ticks) -> Fraction:
    """Least sum of the differences from a steady fall, its step within the bounds [tick]."""
    return best_fall(heights, step_least, step_most)[0]


def best_fall(
    heights: Sequence[Ticks], step_least: Ticks, step_most: Ticks
) -> tuple[Fraction, Fraction, Fraction]:
    """Return (score, step, start) of the fall nearest to the heights, lowest first [tick].

    The best fall passes through two of the heights or has a bound as its step, and for
    its step starts at a median.
    """
    slopes = {Fraction(step_least), Fraction(step_most)}
    for (i, low), (j, high) in combinations(enumerate(heights), 2):
        slope = Fraction(low - high, j - i)
        if step_least < slope < step_most:
            slopes.add(slope)
    return min(_fall(heights, slope) for slope in slopes)


def _fall(heights: Sequence[Ticks], slope: Fraction) -> tuple[Fraction, Fraction, Fraction]:
    starts = sorted(h + slope * i for i, h in enumerate(heights))
    start = starts[len(starts) // 2]
    return sum((abs(s - start) for s in starts), Fraction(0)), slope, start


def to_fit(rooms: Sequence[Ticks]) -> Fraction:
    """Sum of the differences from the mean of the room over each opening's tallest thing [tick]."""
    return even(rooms) if rooms else Fraction(0)
