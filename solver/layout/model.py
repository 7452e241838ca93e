"""Making the model of a layout, and its marks by bay and by class."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from solver.cp_sat import cp_model
from solver.layout.constraints import RULES, Rule
from solver.layout.search import Search
from solver.layout.shapes import LayoutProblem
from solver.layout.variables import LayoutVariables, classes_of


def make(
    problem: LayoutProblem,
    *,
    merge: bool,
    marks: Mapping[tuple[int, int], int] | None = None,
    rules: Sequence[Rule] = RULES,
) -> LayoutVariables:
    """Build the model of a layout with every rule."""
    v = LayoutVariables(cp_model.CpModel(), problem, merge=merge, marks=marks)
    for rule in rules:
        rule(v)
    return v


def marks_by_bay(search: Search) -> dict[tuple[int, int], int]:
    """Return the mark of every shelf by (bay, shelf), in marking steps."""
    v = search.v
    return {
        (bay, shelf): search.value(v.mark(c, shelf))
        for c, one in enumerate(v.classes)
        for bay in one.bays
        for shelf in range(1, one.shape.shelves + 1)
    }


def marks_by_class(
    problem: LayoutProblem, marks: Mapping[tuple[int, int], int] | None
) -> dict[tuple[int, int], int] | None:
    """Marks by bay as marks by class of a model that takes each bay by itself."""
    if marks is None:
        return None
    home = {one.bays[0]: c for c, one in enumerate(classes_of(problem, merge=False))}
    return {(home[bay], shelf): mark for (bay, shelf), mark in marks.items()}
