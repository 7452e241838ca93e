"""A first layout by construction, for a large model to start from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from solver.layout import objective
from solver.layout.layout_problem import LayoutProblem, plainly
from solver.layout.rows_by_rule import Rows
from solver.layout.stage_search import Search
from solver.layout.variables import LayoutVariables

SMALLEST = 2_000
"""Variables from which on a model gets a constructed start; smaller ones find their own."""


def start_values(
    v: LayoutVariables, marks: Mapping[tuple[int, int], int] | None = None
) -> Mapping[str, int] | None:
    """Values of shelf lines and places by variable name; None where no such start is found.

    Only for bays that all have as many shelves as there are lines, one group of bays or
    several that are divided alike; all of them then get the same lines. With `marks` (by bay,
    shelf) the rows have those heights.
    """
    problem = v.problem
    if len(v.all()) < SMALLEST or not alike(problem):
        return None
    rows = Rows(problem, [tuple(range(len(problem.bays)))])
    if marks:
        rows.on_marks(marks)
    elif not rows.fill(plainly(problem)):
        return None
    return None if rows.left else _values(v, rows)


def alike(problem: LayoutProblem) -> bool:
    """Whether the same lines do for every group of bays."""
    first, most = problem.bays[0], problem.groups[0].most
    if most < 1 or any(shape.shelves != most for shape in problem.bays):
        return False
    return len(problem.groups) == 1 or all(
        (shape.step, shape.offset) == (first.step, first.offset)
        and all(shape.constant(k) == first.constant(k) for k in range(first.openings))
        for shape in problem.bays
    )


def _values(v: LayoutVariables, rows: Rows) -> dict[str, int]:
    """Lines, and places of each class: the things of all its bays."""
    values: dict[str, int] = {}
    marks = rows.stands[0].marks()
    for group, lines in zip(v.problem.groups, v.lines(), strict=True):
        bay = group.bays[0]
        for shelf, line in enumerate(lines, start=1):
            values[line.name] = marks[bay, shelf] + v.problem.bays[bay].line
    for c, one in enumerate(v.classes):
        for row in rows.stands[0].rows:
            openings = [opening for opening in row.openings if opening.bay in one.bays]
            counted = Counter(form for opening in openings for form in opening.held)
            for form, variable in v.places(c, row.index).items():
                values[variable.name] = counted.get(form, 0)
    return values


def start(search: Search, marks: Mapping[tuple[int, int], int] | None = None) -> None:
    """Let a large model start from a layout by construction, if there is one."""
    values = start_values(search.v, marks)
    if values is not None:
        search.take(objective.left_out(search.v), values)
