"""Scores of the clear heights of a layout: rises, and each of the rhythms [tick]."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations, pairwise

from solver.layout.layout_problem import LayoutProblem, Spot
from tests.eye_layout import Layout, clear, heights, marks_of
from tests.eye_wishes import INCH

HALF_INCH = INCH // 2


def scored(problem: LayoutProblem, layout: Layout) -> list[tuple[tuple[int, ...], int]]:
    """(clear heights lowest first, marking step) of what is scored: each line group once."""
    found = []
    for group in problem.groups:
        full = [b for b in group.bays if problem.bays[b].shelves == group.most]
        own = {heights(problem.bays[b], marks_of(problem, layout, b)) for b in full}
        found += [(high, problem.bays[group.bays[0]].step) for high in sorted(own)]
    return found


def steps(high: Sequence[int]) -> list[int]:
    """How much lower each opening is than the one below it [tick]."""
    return [low - up for low, up in pairwise(high)]


def rises_of(high: Sequence[int], marking_step: int) -> int:
    """By how much openings are higher than those below, beyond a marking step each [tick]."""
    return sum(max(0, -step - marking_step) for step in steps(high))


def range_of_steps(high: Sequence[int]) -> int:
    """Largest less smallest step; 0 for fewer than three openings [tick]."""
    return max(steps(high)) - min(steps(high)) if len(high) >= 3 else 0


def off_step(high: Sequence[int], step: int) -> int:
    """How far all steps together are from the one asked for [tick]."""
    return sum(abs(d - step) for d in steps(high))


def gini(high: Sequence[int]) -> int:
    """Sum of the differences of all pairs [tick]."""
    return sum(abs(a - b) for a, b in combinations(high, 2))


def askew(high: Sequence[int], marking_step: int) -> int:
    """Differences of mirrored openings, beyond a marking step each [tick]."""
    pairs = [(high[k], high[-1 - k]) for k in range(len(high) // 2)]
    return sum(max(0, abs(a - b) - marking_step) for a, b in pairs)


def rises(problem: LayoutProblem, layout: Layout) -> int:
    """Rises, or falls where the tallest is wished on top; 0 where any opening may be [tick]."""
    if problem.wishes.tallest == "any":
        return 0
    return sum(rises_of(seen(problem, high), step) for high, step in scored(problem, layout))


def seen(problem: LayoutProblem, high: tuple[int, ...]) -> tuple[int, ...]:
    """Openings from the one that is wished tallest on."""
    return high[::-1] if problem.wishes.tallest == "top" else high


def steady(problem: LayoutProblem, layout: Layout) -> int:
    """Range of the steps, or how far they are from the step asked for [tick]."""
    step = problem.wishes.step
    return sum(
        range_of_steps(high) if step is None else off_step(seen(problem, high), step)
        for high, _ in scored(problem, layout)
    )


def falls_by_half_an_inch(problem: LayoutProblem, layout: Layout) -> bool:
    """Whether each opening is at least half an inch lower than the one below."""
    return all(
        step >= HALF_INCH
        for high, _ in scored(problem, layout)
        for step in steps(seen(problem, high))
    )


def is_not_steeper(problem: LayoutProblem, layout: Layout) -> bool:
    """Whether the tallest opening is no more times as high as the last one than wished."""
    most = problem.wishes.steepest
    ends = [seen(problem, high) for high, _ in scored(problem, layout)]
    return most is None or all(high[0] <= Fraction(str(most)) * high[-1] for high in ends)


def no_fall(heights_scored: Sequence[tuple[int, ...]], marking_step: int, least: int) -> set[bool]:
    """Whether a least range is over two marking steps and half the mean step.

    Both may be returned: where steps rise, or there are several sets of heights, a mean step may
    be read in more ways than one.
    """
    falls = [steps(high) for high in heights_scored if len(high) >= 3]
    if least <= 2 * marking_step or not falls:
        return {False}
    every = [step for some in falls for step in some]
    means = (
        Fraction(abs(sum(every)), len(every)),
        Fraction(sum(map(abs, every)), len(every)),
        sum(Fraction(abs(sum(some)), len(some)) for some in falls) / len(falls),
    )
    return {2 * least > mean for mean in means}


def even(problem: LayoutProblem, layout: Layout) -> int:
    """Gini's sum of the clear heights; under a symmetric rhythm of the lower half [tick]."""
    half = problem.wishes.rhythm == "symmetric"
    return sum(
        gini(high[: (len(high) + 1) // 2] if half else high) for high, _ in scored(problem, layout)
    )


def symmetric(problem: LayoutProblem, layout: Layout) -> int:
    """How far openings are from a mirror image about mid-height [tick]."""
    return sum(askew(high, step) for high, step in scored(problem, layout))


def to_fit(problem: LayoutProblem, layout: Layout) -> int:
    """Gini's sum of the rooms over the tallest things, line group by line group [tick]."""
    over = rooms(problem, layout)
    return sum(
        gini([room for (b, _), room in over.items() if b in group.bays]) for group in problem.groups
    )


def rooms(problem: LayoutProblem, layout: Layout) -> dict[Spot, int]:
    """Room over the tallest thing of each opening that is not empty [tick]."""
    high = clear(problem, layout)
    return {
        spot: high[spot] - max(form.height for form, _ in places)
        for spot, places in layout.places.items()
        if places
    }
