"""Placement subproblem: whether things can stand on given marks.

It is asked in two parts. First plainly: bays alike taken together, groups and held decisions
disregarded, so that it depends on nothing but how high a thing each opening admits. Then with
every rule, bay by bay.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from solver.layout import objective
from solver.layout.constraints import RULES, groups_together
from solver.layout.layout_problem import LayoutProblem, too_large
from solver.layout.stage_search import Search, make, marks_by_class
from solver.layout.variables import LayoutVariables, classes_of
from solver.layout.warm_start import start_values
from solver.outcome import Limits, Verdict

STAND_WORK = 0.25
"""Share of the work of a stage that one question may take [-]."""

MarksByBay = Mapping[tuple[int, int], int]
"""Mark numbers by (bay, shelf from 1)."""


@dataclass(frozen=True)
class Stood:
    """Whether things can stand on the marks, with the search that found how.

    `plain` says of NO that it is so whatever the order of the openings.
    """

    verdict: Verdict
    search: Search | None = None
    plain: bool = True


def stood_on(problem: LayoutProblem, marks: MarksByBay, left: int, limits: Limits) -> Stood:
    """Say whether all things but `left` can stand on the marks."""
    simple = plain(problem)
    if not simple or any(one.times > 1 for one in classes_of(problem, merge=True)):
        merged = {
            (c, shelf): marks[one.bays[0], shelf]
            for c, one in enumerate(classes_of(problem, merge=True))
            for shelf in range(1, one.shape.shelves + 1)
        }
        rules = [rule for rule in RULES if rule is not groups_together]
        verdict, _ = _asked(make(problem, merge=True, marks=merged, rules=rules), left, limits)
        if verdict is Verdict.NO:
            return Stood(verdict)
    if too_large(problem, limits):
        return Stood(Verdict.UNSETTLED, plain=simple)
    v = make(problem, merge=False, marks=marks_by_class(problem, marks))
    verdict, search = _asked(v, left, limits, marks)
    return Stood(verdict, search, plain=simple)


def plain(problem: LayoutProblem) -> bool:
    """Whether nothing depends on which opening is where: no groups, nothing held."""
    holding = problem.holding
    grouped = any(kind.group is not None for kind in problem.kinds)
    return not grouped and not (holding.held or holding.fixed or holding.stay)


def _asked(
    v: LayoutVariables, left: int, limits: Limits, marks: MarksByBay | None = None
) -> tuple[Verdict, Search]:
    goal, search = objective.left_out(v), Search(v, limits)
    values = start_values(v, marks) if marks is not None else None
    if values is not None and search.take(goal, values) and search.value(goal.expression) <= left:
        return Verdict.YES, search
    v.model.add(goal.expression <= left)
    return search.feasible(work=limits.work * STAND_WORK), search
