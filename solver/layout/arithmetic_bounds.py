"""Bounds of a layout by arithmetic alone, for where the models are too large to be searched.

They rest on the same counting as :mod:`solver.layout.counting_cuts`: all things of a height or more
stand in openings that reach it, so these have the width and the load of those things together.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from math import ceil

from solver.layout.counting_cuts import Tall, lowest
from solver.layout.graduated_spacings import best_spacings
from solver.layout.layout_problem import BayShape, LayoutProblem
from solver.units import Ticks


def least_left(problem: LayoutProblem) -> int:
    """Return a number of things [-]: no layout leaves out fewer.

    A bay has only so many openings of a height, the others being at least as high as they must
    be. What width and load these lack, things must give up, the widest and heaviest first.
    """
    gap, best = problem.wishes.gap, 0
    for height, tall in _by_height(problem, None):
        width = load = 0
        for shape in problem.bays:
            count = _most_openings(problem, shape, height)
            width += count * (shape.run + gap)
            load += count * max(shape.load_at(k) for k in range(shape.openings))
        lack = ((tall.need - width, tall.gone_widths), (tall.mass - load, tall.gone_masses))
        best = max(best, *(_fewest(problem, short, gone) for short, gone in lack))
    return best


def least_rhythm(problem: LayoutProblem, left: int) -> Fraction:
    """Return a rhythm [tick]: no layout that leaves out at most `left` things has a lower one."""
    if problem.wishes.rhythm == "even":
        return _least_even(problem, left)
    if problem.wishes.rhythm == "graduated":
        return _least_graduated(problem)
    return Fraction(0)


def _least_even(problem: LayoutProblem, left: int) -> Fraction:
    """What openings are over the mean at least, twice: the others are under it by as much.

    So many openings reach each height at least, and no bay has a greater mean than the greatest.
    """
    gap = problem.wishes.gap
    room = max(shape.run for shape in problem.bays) + gap
    load = max(shape.load_at(k) for shape in problem.bays for k in range(shape.openings))
    mean = max(Fraction(_clear(shape), shape.openings) for shape in problem.bays)
    over, counted = Fraction(0), 0
    for height, tall in _by_height(problem, left):
        high = height + problem.wishes.headroom - mean
        if high <= 0:
            break
        count = max(counted, tall.fewest(room, load, left))
        over += (count - counted) * high
        counted = count
    return 2 * over


def _least_graduated(problem: LayoutProblem) -> Fraction:
    """The best falls of the marks alone, whatever stands there."""
    wishes = problem.wishes
    shapes = Counter(replace(shape, case=0, number=0) for shape in problem.bays)
    falls = {shape: best_spacings(shape, wishes.step_least, wishes.step_most) for shape in shapes}
    return sum(
        (n * falls[shape].score for shape, n in shapes.items() if falls[shape].proven), Fraction(0)
    )


def _by_height(problem: LayoutProblem, left: int | None) -> Iterator[tuple[Ticks, Tall]]:
    """Every height that some kind needs at least, tallest first, with all kinds that do."""
    kinds: dict[Ticks, list[int]] = defaultdict(list)
    for k, kind in enumerate(problem.kinds):
        kinds[lowest(kind)].append(k)
    tall = Tall(problem, left)
    for height in sorted(kinds, reverse=True):
        for k in kinds[height]:
            tall.add(k)
        yield height, tall


def _clear(shape: BayShape) -> Ticks:
    """Clear height of all openings of a bay together [tick]."""
    return shape.inside - shape.shelves * shape.thickness


def _most_openings(problem: LayoutProblem, shape: BayShape, height: Ticks) -> int:
    """How many openings of a bay can be high enough at once for things of a height [-]."""
    least = problem.wishes.clear_least
    more = max(height + problem.wishes.headroom, least) - least
    spare = _clear(shape) - shape.openings * least
    if spare < 0:
        return 0
    return shape.openings if more == 0 else min(shape.openings, spare // more)


def _fewest(problem: LayoutProblem, short: int, gone: dict[int, int]) -> int:
    """How many things must go at least for what is short, those that count most first [-]."""
    count = 0
    for each, k in sorted(((each, k) for k, each in gone.items() if each), reverse=True):
        if short <= 0:
            return count
        some = min(problem.kinds[k].count, ceil(Fraction(short, each)))
        count += some
        short -= some * each
    return count
