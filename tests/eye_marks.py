"""Every set of marks of a tiny job that shelf lines, limits of height and held marks allow."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from solver.layout.layout_problem import BayShape, LayoutProblem, MarkHeld, Spot
from tests.eye_layout import heights_allowed


def all_marks(problem: LayoutProblem) -> Iterator[dict[Spot, int]]:
    """All marks of all bays that lines, limits of height and held marks allow."""
    held = {
        (one.bay, one.shelf): one.mark for one in problem.holding.held if isinstance(one, MarkHeld)
    }
    for marks in _of_groups(problem, 0):
        if all(marks.get(spot) == mark for spot, mark in held.items()):
            yield marks


def _of_groups(problem: LayoutProblem, g: int) -> Iterator[dict[Spot, int]]:
    if g == len(problem.groups):
        yield {}
        return
    group = problem.groups[g]
    bays = [problem.bays[b] for b in group.bays]
    lines = sorted({m + bay.line for bay in bays for m in _all_marks_in(bay)})
    own = [
        marks
        for some in combinations(lines, group.most)
        for marks in _on_lines(problem, group.bays, some)
    ]
    for rest in _of_groups(problem, g + 1):
        for marks in own:
            yield {**marks, **rest}


def _all_marks_in(bay: BayShape) -> range:
    """Marks with underside above the bottom board and below the top."""
    first = max(0, (bay.floor - bay.offset) // bay.step)
    return range(first, (bay.floor + bay.inside - bay.offset) // bay.step + 1)


def _on_lines(
    problem: LayoutProblem, bays: Sequence[int], lines: Sequence[int]
) -> Iterator[dict[Spot, int]]:
    if not bays:
        yield {}
        return
    b, bay = bays[0], problem.bays[bays[0]]
    for some in combinations(lines, bay.shelves):
        marks = [line - bay.line for line in some]
        if heights_allowed(problem, bay, marks):
            for rest in _on_lines(problem, bays[1:], lines):
                yield {**{(b, k): m for k, m in enumerate(marks, 1)}, **rest}
