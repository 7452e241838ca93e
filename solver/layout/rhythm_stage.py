"""The rhythm: openings that fall by one steady step, or what the client asks for instead."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from solver.layout import spacing_wishes
from solver.layout.constraints import scored_classes, scored_pairs
from solver.layout.goal import Goal
from solver.layout.stage_search import Search
from solver.layout.stages import Reached
from solver.layout.variables import Linear
from solver.layout.wishes import levels_are_used
from solver.outcome import Verdict
from solver.units import TICKS_PER_INCH, Ticks

LEAST_STEP = TICKS_PER_INCH // 2
"""Least step of a graduated rhythm [tick]."""
STEADY_STEPS = 2
"""A range of so many marking steps, or half the mean step, is still a steady fall [-]."""
MOST_WORK = 0.5
"""Deterministic work for what comes second in a rhythm [-]."""


@dataclass(frozen=True)
class Bounds:
    """What is known of the rhythm from relaxations [raw units].

    Attributes
    ----------
    floors
        Proven lower bounds by stage.
    evenest
        Gives the one of `even`, when it is asked for, and values for a layout that meets it.
    """

    floors: Mapping[str, int] = field(default_factory=dict)
    evenest: Callable[[], tuple[int, Mapping[str, int]]] = lambda: (0, {})

    def floor(self, name: str) -> int:
        """Lower bound of a stage [raw units]."""
        return self.floors.get(name, 0)


def settle_rhythm(search: Search, reached: Reached, bounds: Bounds) -> bool:
    """Settle the rhythm and hold it, steady ones to a marking step; False at the limit."""
    v, search.linear = search.v, 1
    wishes = v.problem.wishes
    if wishes.steepest is not None:
        _wanted(search, _not_steeper(search, wishes.steepest))
    if wishes.rhythm == "even":
        return _even(search, reached, bounds)
    if wishes.rhythm == "symmetric":
        goal = spacing_wishes.symmetric(v)
        if not _held(search, reached, "symmetric", goal, bounds.floor("symmetric")):
            return False
        met = reached.found["symmetric"].raw == bounds.floor("symmetric")
        floor = bounds.floor("even") if met else 0  # it is meant for openings as symmetric
        return _held(search, reached, "even", spacing_wishes.half_gini(v), floor)
    if wishes.rhythm == "to-fit":
        levels_are_used(v)
        return _held(search, reached, "to-fit", spacing_wishes.to_fit(v))
    if wishes.step is not None:
        goal = spacing_wishes.steps_off(v, wishes.step)
        return _held(search, reached, wishes.rhythm, goal, bounds.floor(wishes.rhythm))
    if wishes.rhythm == "graduated":
        _wanted(search, _least_steps(search))
    return _steady(search, reached, wishes.rhythm, bounds)


def _even(search: Search, reached: Reached, bounds: Bounds) -> bool:
    floor = bounds.floor("even")
    if not floor:
        floor, values = bounds.evenest()
        if values:
            search.suggest(values)
    return _held(search, reached, "even", spacing_wishes.gini(search.v), floor)


def _steady(search: Search, reached: Reached, name: str, bounds: Bounds) -> bool:
    """Steps alike; where the things allow no steady fall, openings as even as can be."""
    v = search.v
    goal = spacing_wishes.steps_range(v)
    step = max(one.shape.step for one in v.classes)
    if name == "steady" and _surely_none(search, goal, step):
        return _even(search, reached, bounds)
    found = search.minimise(goal, floor=bounds.floor(name), gap=step)
    if found.raw is None:
        return False
    if name == "steady" and _no_fall(search, found.raw, step):
        return _even(search, reached, bounds)
    reached.found[name] = found
    search.hold(goal, max(found.raw, int(found.bound or 0) + step))
    return True


def _surely_none(search: Search, goal: Goal, step: Ticks) -> bool:
    """Whether it is proven that no steps are alike enough for a steady fall.

    Mostly a quicker question than how alike they can be.
    """
    v, few = search.v, search.v.model.new_bool_var("few steps apart")
    fall: Linear = 0
    most = 0
    for c in scored_classes(v):
        shelves = v.shape(c).shelves
        if shelves > 1:
            fall += v.height(c, 0) - v.height(c, shelves)
            most += shelves
    if not most:
        return False
    sign = -1 if v.problem.wishes.tallest == "top" else 1
    with search.aside():
        v.model.add(goal.expression <= STEADY_STEPS * step).only_enforce_if(few)
        v.model.add(2 * most * goal.expression <= sign * fall).only_enforce_if(~few)
        return search.feasible() is Verdict.NO


def _no_fall(search: Search, spread: Ticks, step: Ticks) -> bool:
    """Whether the steps differ by more than two marking steps and half the mean step."""
    v, falls = search.v, []
    for c in scored_classes(v):
        shelves = v.shape(c).shelves
        if shelves > 1:
            ends = search.value(v.height(c, 0)) - search.value(v.height(c, shelves))
            falls.append(Fraction(abs(ends), shelves))
    mean = sum(falls) / len(falls) if falls else Fraction(0)
    return spread > STEADY_STEPS * step and 2 * spread > mean


def _held(search: Search, reached: Reached, name: str, goal: Goal, floor: int = 0) -> bool:
    found = search.minimise(goal, floor=floor)
    if found.raw is None:
        return False
    reached.found[name] = found
    search.hold(goal, found.raw)
    return True


def _wanted(search: Search, rows: list[tuple[Linear, int]]) -> None:
    """Keep every (expression, least) if they can be kept together."""
    kept = search.v.model.new_bool_var(f"kept[{len(search.v.all())}]")
    for expression, least in rows:
        search.v.model.add(expression >= least).only_enforce_if(kept)
    found = search.minimise(Goal(1 - kept), work=MOST_WORK)
    if found.raw == 0:
        search.hold(Goal(1 - kept), 0)


def _least_steps(search: Search) -> list[tuple[Linear, int]]:
    v = search.v
    sign = -1 if v.problem.wishes.tallest == "top" else 1
    return [
        (sign * (v.height(c, k) - v.height(c, above)), LEAST_STEP)
        for c, k, above in scored_pairs(v)
    ]


def _not_steeper(search: Search, most: float) -> list[tuple[Linear, int]]:
    """The tallest opening at most so many times as high as the lowest one."""
    v, hundredths = search.v, round(100 * most)
    low, high = (-1, 0) if v.problem.wishes.tallest == "top" else (0, -1)
    rows: list[tuple[Linear, int]] = []
    for c in scored_classes(v):
        openings = range(v.shape(c).openings)
        rows.append(
            (hundredths * v.height(c, openings[high]) - 100 * v.height(c, openings[low]), 0)
        )
    return rows
