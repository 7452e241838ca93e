"""The wishes about the clear heights of the openings: tallest lowest, and the rhythm."""

from __future__ import annotations

from itertools import combinations

from solver.layout.constraints import scored_classes, scored_pairs
from solver.layout.goal import Goal
from solver.layout.variables import LayoutVariables, Linear
from solver.layout.wishes import tallest
from solver.units import Ticks


def rises(v: LayoutVariables) -> Goal:
    """Height by which openings are higher than the one below, beyond a marking step [tick].

    With `tallest` = "top" the other way round.
    """
    terms: list[Linear] = []
    sign = -1 if v.problem.wishes.tallest == "top" else 1
    for c, k, above in scored_pairs(v):
        shape = v.shape(c)
        over = v.model.new_int_var(0, shape.inside, f"rise[class={c},opening={above}]")
        v.model.add(over >= sign * (v.height(c, above) - v.height(c, k)) - shape.step)
        terms.append(over)
    return Goal(sum(terms))


def steps_range(v: LayoutVariables) -> Goal:
    """Largest less smallest step from an opening to the next, for each set of heights [tick]."""
    terms: list[Linear] = []
    for c in scored_classes(v):
        shape = v.shape(c)
        if shape.shelves < 2:
            continue
        high = v.model.new_int_var(-shape.inside, shape.inside, f"largest step[class={c}]")
        low = v.model.new_int_var(-shape.inside, shape.inside, f"smallest step[class={c}]")
        for k in range(shape.shelves):
            step = v.height(c, k) - v.height(c, k + 1)
            v.model.add(high >= step)
            v.model.add(low <= step)
        _each_height(v, c, low, high)
        terms.append(high - low)
    return Goal(sum(terms))


def _each_height(v: LayoutVariables, c: int, low: Linear, high: Linear) -> None:
    """What the least and the largest step say of each height; it follows, but is soon seen."""
    count = v.shape(c).openings
    whole = v.shape(c).inside - v.shape(c).shelves * v.shape(c).thickness
    for k in range(count):
        above, below = sum(range(1, count - k)), sum(range(1, k + 1))
        v.model.add(count * v.height(c, k) <= whole + above * high - below * low)
        v.model.add(count * v.height(c, k) >= whole + above * low - below * high)


def steps_off(v: LayoutVariables, step: Ticks) -> Goal:
    """How far the steps are from the one that the client wants, together [tick]."""
    terms: list[Linear] = []
    sign = -1 if v.problem.wishes.tallest == "top" else 1
    for c, k, above in scored_pairs(v):
        fall = sign * (v.height(c, k) - v.height(c, above)) - step
        terms.append(_size(v, fall, 2 * v.shape(c).inside, f"off[class={c},opening={k}]"))
    return Goal(sum(terms))


def gini(v: LayoutVariables) -> Goal:
    """Differences of all pairs of openings, for each set of heights [tick]."""
    return Goal(sum(_pairs(v, c, range(v.shape(c).openings)) for c in scored_classes(v)))


def ranked_gini(v: LayoutVariables) -> Goal:
    """The same in a ranked model, where the highest come first."""
    terms: list[Linear] = []
    for c in scored_classes(v):
        last = v.shape(c).shelves
        terms += [(last - 2 * k) * v.height(c, k) for k in range(last + 1)]
    return Goal(sum(terms))


def symmetric(v: LayoutVariables) -> Goal:
    """Differences of openings as far from the bottom as from the top, beyond a step [tick]."""
    terms: list[Linear] = []
    for c in scored_classes(v):
        shape = v.shape(c)
        for k in range(shape.openings // 2):
            apart = v.height(c, k) - v.height(c, shape.shelves - k)
            over = v.model.new_int_var(0, shape.inside, f"mirror[class={c},opening={k}]")
            v.model.add(over >= apart - shape.step)
            v.model.add(over >= -apart - shape.step)
            terms.append(over)
    return Goal(sum(terms))


def half_gini(v: LayoutVariables) -> Goal:
    """Differences of all pairs of the lower half, the middle included [tick]."""
    terms = [_pairs(v, c, range((v.shape(c).openings + 1) // 2)) for c in scored_classes(v)]
    return Goal(sum(terms))


def to_fit(v: LayoutVariables) -> Goal:
    """Differences of the room over the tallest things, all pairs of filled openings [tick]."""
    terms: list[Linear] = []
    for g in range(len(v.problem.groups)):
        spots = [(c, k) for c, k in v.openings() if v.classes[c].group == g and v.levels[c, k]]
        for (c, k), (d, j) in combinations(spots, 2):
            most = max(v.shape(c).inside, v.shape(d).inside)
            apart = v.height(c, k) - tallest(v, c, k) - v.height(d, j) + tallest(v, d, j)
            off = v.model.new_int_var(0, most, f"uneven[{c},{k},{d},{j}]")
            both = [v.levels[c, k][0].reached, v.levels[d, j][0].reached]
            v.model.add(off >= apart).only_enforce_if(both)
            v.model.add(off >= -apart).only_enforce_if(both)
            terms.append(off)
    return Goal(sum(terms))


def _pairs(v: LayoutVariables, c: int, openings: range) -> Linear:
    most = v.shape(c).inside
    return sum(
        _size(v, v.height(c, i) - v.height(c, j), most, f"differ[class={c},{i},{j}]")
        for i, j in combinations(openings, 2)
    )


def _size(v: LayoutVariables, way: Linear, most: Ticks, name: str) -> Linear:
    size = v.model.new_int_var(0, most, name)
    v.model.add(size >= way)
    v.model.add(size >= -way)
    return size
