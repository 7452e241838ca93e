"""The marks of a layout before with no shelf moved but those held elsewhere, and what has moved."""

from __future__ import annotations

from collections import Counter

from solver.layout.layout_problem import Before, LayoutProblem, MarkHeld, Spot
from solver.layout.look_scores import Marks, Places
from solver.layout.rules_kept import marks_kept
from solver.units import Ticks


def marks_before(problem: LayoutProblem, before: Before) -> dict[Spot, int] | None:
    """The marks before, held shelves at theirs; None where one has none, or may not be there."""
    marks = dict(before.marks) | _held(problem)
    shelves = {(b, k) for b, bay in enumerate(problem.bays) for k in range(1, bay.openings)}
    return marks if marks.keys() == shelves and marks_kept(problem, marks) else None


def forced_way(problem: LayoutProblem, before: Before) -> Ticks:
    """How far the held shelves alone are from where they were, all together [tick]."""
    return way_moved(problem, before, _held(problem))


def way_moved(problem: LayoutProblem, before: Before, marks: Marks) -> Ticks:
    """How far these shelves are from where they were, all together [tick]."""
    ways = (
        problem.bays[bay].step * abs(marks[bay, shelf] - mark)
        for (bay, shelf), mark in before.marks
        if (bay, shelf) in marks
    )
    return sum(ways)


def things_away(problem: LayoutProblem, before: Before, places: Places) -> int:
    """How many things stand in another opening than before.

    Of a kind that has become fewer, those that are no more have not moved.
    """
    now = Counter[tuple[int, int, int]]()
    for (bay, opening), some in places.items():
        for form, things in some:
            now[form.kind, bay, opening] += things
    gone, had = Counter[int](), Counter[int]()
    for spot, count in before.things:
        gone[spot[0]] += max(0, count - now[spot])
        had[spot[0]] += count
    fewer = {kind: max(0, count - problem.kinds[kind].count) for kind, count in had.items()}
    return sum(gone[kind] - fewer[kind] for kind in had)


def _held(problem: LayoutProblem) -> dict[Spot, int]:
    """Marks of the held shelves.

    In bays that share all their shelf lines the same shelf of each moves along.
    """
    marks: dict[Spot, int] = {}
    for one in problem.holding.held:
        if isinstance(one, MarkHeld) and one.bay >= 0:
            line = one.mark + problem.bays[one.bay].line
            for bay in _alongside(problem, one.bay):
                marks[bay, one.shelf] = line - problem.bays[bay].line
    return marks


def _alongside(problem: LayoutProblem, bay: int) -> list[int]:
    """The bays that share all shelf lines with a bay, itself first."""
    bays = problem.bays
    group = next(group for group in problem.groups if bay in group.bays)
    if bays[bay].shelves != group.most:
        return [bay]
    return [other for other in group.bays if bays[other].shelves == group.most]
