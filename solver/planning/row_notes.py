"""What the client said of a row and could not be kept, as notes of an option."""

from __future__ import annotations

from collections.abc import Sequence

from solver.layout.layout_problem import LayoutProblem
from solver.plan.built import CasePlan
from solver.planning.composed_rows import Rows
from solver.planning.shelf_words import ShelfNames


def row_notes(problem: LayoutProblem, cases: Sequence[CasePlan], rows: Rows) -> tuple[str, ...]:
    """Return a note for each of the client's words on a row that does not hold there."""
    names = ShelfNames(tuple(cases))
    return tuple(
        f"on {names.shelf((cases[shape.case].name, shape.number + 1, opening))} {sentence}"
        for (bay, opening), row in rows.items()
        for shape in [problem.bays[bay]]
        for sentence in row.broken
    )
