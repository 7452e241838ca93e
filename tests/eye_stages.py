"""The stages from `rises` on: each one's least value, then only the layouts that hold it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from solver.layout.layout_problem import LayoutProblem
from tests.eye_contents import Array
from tests.eye_late import MM2
from tests.eye_late_arrays import air, beside, lone, roomy, to_fit, void
from tests.eye_layout import Layout
from tests.eye_pairs import FIRST, Pairs
from tests.eye_rhythm import (
    falls_by_half_an_inch,
    is_not_steeper,
    no_fall,
    rises,
    scored,
    steady,
)
from tests.eye_scores import SCORES

VOID_SLACK, ROOMY_SLACK = (8, 100), (4, 100)


@dataclass(frozen=True)
class Way:
    """Least values of the stages in their order, where the rhythm is scored in one of its ways.

    `hold` is the most that a layout may show in the end where that is over the value; `layout` is
    one of the best.
    """

    values: dict[str, int]
    hold: dict[str, int]
    layout: Layout


class Stages:
    """Takes one stage after the other: its least value, then only what holds it."""

    def __init__(self, problem: LayoutProblem, parts: list[Pairs]) -> None:
        self.problem, self.parts = problem, parts
        self.values = dict(zip(FIRST, parts[0].first, strict=True))
        self.hold: dict[str, int] = {}

    def take(self, name: str, of: Callable[[Pairs], Array], hold: Callable[[int], int]) -> None:
        """Add a stage; `hold` says how much is held for a least value."""
        scores = [of(part) for part in self.parts]
        least = min(int(one.min()) for one in scores if len(one))
        self.values[name], self.hold[name] = least, hold(least)
        self.keep([one <= hold(least) for one in scores])

    def keep(self, which: list[NDArray[np.bool_]]) -> None:
        """Go on with some pairs only."""
        kept = [part.kept(one) for part, one in zip(self.parts, which, strict=True)]
        self.parts = [part for part in kept if len(part.n)]

    def wish(self, kept: Callable[[LayoutProblem, Layout], bool]) -> None:
        """Keep only marks that are so, where there are any; else it is as if it were unsaid."""
        which = [part.of_marks(lambda p, m: int(kept(p, m))) == 1 for part in self.parts]
        if any(one.any() for one in which):
            self.keep(which)

    def unsaid(self, of: Callable[[Pairs], Array]) -> None:
        """Hold the least of a wish that is no stage of its own."""
        scores = [of(part) for part in self.parts]
        least = min(int(one.min()) for one in scores if len(one))
        self.keep([one <= least for one in scores])

    def way(self) -> Way:
        """What was found."""
        return Way(self.values, self.hold, self.parts[0].layout(0))


def _whole(value: int) -> int:
    return value


def later(problem: LayoutProblem, parts: list[Pairs]) -> list[Way]:
    """The stages from `rises` to `air`, for each way in which the rhythm is scored."""
    names = {
        "steady": ["steady"],
        "symmetric": ["symmetric", "even"],
        "graduated": ["graduated"],
    }.get(problem.wishes.rhythm, [problem.wishes.rhythm])
    begun = Stages(problem, parts)
    # openings that mirror each other do not fall: who asks for the one does not for the other
    if problem.wishes.tallest != "any" and problem.wishes.rhythm != "symmetric":
        begun.take("rises", lambda p: p.of_marks(rises), _whole)
    begun.wish(is_not_steeper)
    ways = [names]
    if names == ["steady"] and problem.wishes.step is None:
        ways = _steady_or_even(problem, begun)
    return [_scored(problem, begun, names) for names in ways]


def _steady_or_even(problem: LayoutProblem, begun: Stages) -> list[list[str]]:
    """Steady, but even where the least range is over two marking steps and half the mean step.

    Layouts of one range may differ in their mean step: then it may be either.
    """
    ranges = [part.of_marks(steady) for part in begun.parts]
    least = min(int(one.min()) for one in ranges)
    evens: set[bool] = set()
    for part, one in zip(begun.parts, ranges, strict=True):
        for m in np.unique(part.m[one == least]):
            groups = scored(problem, part.marks[m])
            step = max(step for _, step in groups)
            evens |= no_fall([high for high, _ in groups], step, least)
    return [["even" if one else "steady"] for one in sorted(evens)]


def _scored(problem: LayoutProblem, begun: Stages, names: list[str]) -> Way:
    stages = Stages(problem, begun.parts)
    stages.values, stages.hold = dict(begun.values), dict(begun.hold)
    for name in names:
        if name == "graduated" and problem.wishes.step is None:
            stages.wish(falls_by_half_an_inch)
        if name == "to-fit":
            stages.take(name, to_fit, _whole)
        elif name in ("steady", "graduated"):
            stages.take(
                name,
                lambda p: p.of_marks(steady),
                lambda least: steady_hold(problem, least),
            )
        else:
            value = SCORES[name]
            stages.take(name, lambda p, value=value: p.of_marks(value), _whole)  # type: ignore[misc]
    stages.unsaid(lone)
    stages.take("void", void, lambda least: void_hold(problem, least))
    stages.take("roomy", roomy, lambda least: roomy_hold(problem, least))
    stages.take("beside", beside, _whole)
    stages.take("air", air, _whole)
    return stages.way()


def steady_hold(problem: LayoutProblem, least: int) -> int:
    """Range that may be shown for a least one: a marking step more [tick].

    Where the client gave the step, nothing is given back.
    """
    if problem.wishes.step is not None:
        return least
    return least + max(bay.step for bay in problem.bays)


def void_hold(problem: LayoutProblem, least: int) -> int:
    """Void that may be shown for a least one: 8 % of the mean opening more [mm2]."""
    fronts = [bay.width * (bay.inside - bay.shelves * bay.thickness) for bay in problem.bays]
    mean = sum(fronts) // sum(bay.openings for bay in problem.bays)
    return least + mean * VOID_SLACK[0] // (VOID_SLACK[1] * MM2)


def roomy_hold(problem: LayoutProblem, least: int) -> int:
    """Width of a row that may be shown for a least one: 4 % of the bay's more [tick]."""
    return least + max(bay.width for bay in problem.bays) * ROOMY_SLACK[0] // ROOMY_SLACK[1]
