"""A first layout by construction, for a large model to start from.

Tallest first, things are stood row by row: a row is the openings of one height in all bays
that share shelf lines, and as high as its first thing asks. What height is left raises the
lowest rows. Groups are not looked at; a start only has to be mostly right.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field

from solver.layout.shapes import BayShape, Form, LayoutProblem
from solver.layout.variables import LayoutVariables
from solver.units import Grams, Ticks

SMALLEST = 2_000
"""Variables from which on a model gets a constructed start; smaller ones find their own."""


@dataclass
class _Row:
    """One opening in every bay, filling up; `taken`, `load` and `held` run over the bays."""

    index: int
    steps: int
    taken: list[Ticks]
    load: list[Grams]
    kinds: list[set[int]]
    held: list[list[Form]] = field(default_factory=list)


def start_values(
    v: LayoutVariables, marks: Mapping[tuple[int, int], int] | None = None
) -> Mapping[str, int] | None:
    """Values of shelf lines and places by variable name; None where no such start is found.

    Only for bays that all have as many shelves as there are lines, one group of bays or
    several that are divided alike; all of them then get the same lines. With `marks` (by bay,
    shelf) the rows have those heights.
    """
    problem = v.problem
    if len(v.all()) < SMALLEST or not _alike(problem):
        return None
    rows = _on_marks(problem, marks) if marks else _rows(problem)
    return None if rows is None else _values(v, rows)


def _alike(problem: LayoutProblem) -> bool:
    """Whether the same lines do for every group of bays."""
    first, most = problem.bays[0], problem.groups[0].most
    if most < 1 or any(shape.shelves != most for shape in problem.bays):
        return False
    return len(problem.groups) == 1 or all(
        (shape.step, shape.offset) == (first.step, first.offset)
        and all(shape.constant(k) == first.constant(k) for k in range(first.openings))
        for shape in problem.bays
    )


def _things(problem: LayoutProblem) -> list[Form]:
    """Every thing in its plain form, tallest first."""
    return sorted(
        (kind.forms[0] for kind in problem.kinds for _ in range(kind.count)),
        key=lambda form: (-form.height, -form.width, form.kind),
    )


def _rows(problem: LayoutProblem) -> list[_Row] | None:
    """Stand every thing; None where the rows or their height do not suffice."""
    rows: list[_Row] = []
    for form in _things(problem):
        if not any(_stand(problem, row, form) for row in rows):
            if len(rows) == problem.bays[0].openings:
                return None
            rows.append(_row(problem, len(rows), form))
            if not _stand(problem, rows[-1], form):
                return None
    while len(rows) < problem.bays[0].openings:
        rows.append(_row(problem, len(rows), None))
    return rows if _spread(problem, rows) else None


def _on_marks(problem: LayoutProblem, marks: Mapping[tuple[int, int], int]) -> list[_Row] | None:
    """Stand every thing in the lowest row that is high enough; None where one finds no place."""
    count = problem.bays[0].openings
    ends = [0, *(marks[0, k] for k in range(1, count)), 0]
    rows = [_row(problem, k, None) for k in range(count)]
    for row in rows:
        row.steps = ends[row.index + 1] - ends[row.index]
    shape = problem.bays[0]
    low = sorted(rows, key=lambda r: shape.constant(r.index) + shape.step * r.steps)
    for form in _things(problem):
        if not any(_stand(problem, row, form) for row in low):
            return None
    return rows


def _row(problem: LayoutProblem, index: int, form: Form | None) -> _Row:
    """An empty row, high enough for a thing in every bay [marking steps]."""
    count = len(problem.bays)
    steps = max(_steps(problem, shape, index, form) for shape in problem.bays)
    return _Row(
        index,
        steps,
        [0] * count,
        [0] * count,
        [set() for _ in range(count)],
        [[] for _ in range(count)],
    )


def _steps(problem: LayoutProblem, shape: BayShape, index: int, form: Form | None) -> int:
    need = problem.wishes.clear_least
    if form is not None:
        need = max(need, problem.needed(form, shape, index))
    return -((shape.constant(index) - need) // shape.step)


def _stand(problem: LayoutProblem, row: _Row, form: Form) -> bool:
    """Stand a thing in the first bay of a row that has the room and the load for it."""
    kind, gap = problem.kinds[form.kind], problem.wishes.gap
    for bay, shape in enumerate(problem.bays):
        first = 0 if form.kind in row.kinds[bay] else gap - kind.gap
        width = row.taken[bay] + form.width + kind.gap + first
        load = row.load[bay] + kind.mass * form.things
        fits = form.depth <= shape.deep and width <= shape.run + gap
        fits = fits and load <= shape.load_at(row.index)
        if fits and _steps(problem, shape, row.index, form) <= row.steps:
            row.taken[bay], row.load[bay] = width, load
            row.kinds[bay].add(form.kind)
            row.held[bay].append(form)
            return True
    return False


def _spread(problem: LayoutProblem, rows: list[_Row]) -> bool:
    """Give the steps that are left to the lowest rows; False where there are too few."""
    shape = problem.bays[0]
    left = -sum(row.steps for row in rows)
    if left < 0:
        return False
    for _ in range(left):
        lowest = min(rows, key=lambda r: (shape.constant(r.index) + shape.step * r.steps, r.index))
        lowest.steps += 1
    return True


def _values(v: LayoutVariables, rows: list[_Row]) -> dict[str, int]:
    """Lines, and places of each class: the things of all its bays."""
    values: dict[str, int] = {}
    mark = 0
    for row in rows[:-1]:
        mark += row.steps
        for g, group in enumerate(v.problem.groups):
            line = v.problem.bays[group.bays[0]].line
            values[f"line[group={g},line={row.index + 1}]"] = mark + line
    for c, one in enumerate(v.classes):
        for row in rows:
            counted = Counter(form for bay in one.bays for form in row.held[bay])
            for form, variable in v.places(c, row.index).items():
                values[variable.name] = counted.get(form, 0)
    return values
