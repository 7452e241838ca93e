"""Minimal change: a layout around what is held that moves as little as possible of the one before.

The order of wishes is the usual one, with two more after fit: how far shelves move, then
how many things change their opening. The shelf marks come first, since boards are marked
and fixed before anything stands on them. The layout before is the hint, so that only what must
move is searched.
"""

from __future__ import annotations

from solver.layout.constraints import new_model
from solver.layout.hold_rules import marks_moved, things_moved
from solver.layout.layout_engine import LayoutAnswer, finished, solve_layout
from solver.layout.layout_problem import Before, LayoutProblem, MarkHeld
from solver.layout.placed_layout import Placed, falls
from solver.layout.relaxation import all_placed
from solver.layout.stage_search import Search
from solver.layout.stages import FIT, Reached, asked_for, run
from solver.layout.variables import LayoutVariables
from solver.outcome import Limits, Status, Verdict

LOOK_WORK = 1.0
"""Deterministic work for a look whether everything fits."""


def lay_out(problem: LayoutProblem, limits: Limits) -> LayoutAnswer:
    """Decide shelf positions and what stands where, from the layout before where there is one."""
    before = problem.holding.before
    if before is None:
        return solve_layout(problem, limits)
    search, reached = _started(problem, before, limits)
    if search.solution is None:
        nowhere = search.feasible() is Verdict.NO
        return LayoutAnswer(Status.INFEASIBLE if nowhere else Status.UNKNOWN)
    moved = marks_moved(search.v)
    floor = int(_forced(problem, before) / moved.unit)
    for name, goal, least in (
        ("marks moved", moved, floor),
        ("things moved", things_moved(search.v), 0),
    ):
        found = search.minimise(goal, floor=least)
        if found.raw is not None:
            reached.found[name] = found
            search.hold(goal, found.raw)
    names = asked_for(problem)
    run(search, (*names, "rises") if falls(problem) else names, Reached(), reached, None)
    return finished(problem, Placed(search, reached))


def _started(problem: LayoutProblem, before: Before, limits: Limits) -> tuple[Search, Reached]:
    """Settle what is left out, from the layout before."""
    search, reached = Search(new_model(problem), limits), Reached()
    all_placed(search.v)
    search.suggest(before_values(search.v, before))
    if search.feasible(work=LOOK_WORK) is not Verdict.YES:
        search = Search(new_model(problem), limits)
        search.suggest(before_values(search.v, before))
        run(search, FIT, Reached(), reached, None)
    return search, reached


def _forced(problem: LayoutProblem, before: Before) -> int:
    """How far the held marks alone are from where they were [tick].

    In bays that share all their shelf lines the same shelf of each moves along.
    """
    marks, way = dict(before.marks), 0
    for one in problem.holding.held:
        if isinstance(one, MarkHeld) and one.bay >= 0:
            line = one.mark + problem.bays[one.bay].line
            for bay in _alongside(problem, one.bay):
                shape = problem.bays[bay]
                mark = line - shape.line
                way += shape.step * abs(mark - marks.get((bay, one.shelf), mark))
    return way


def _alongside(problem: LayoutProblem, bay: int) -> list[int]:
    """The bays that share all shelf lines with a bay, itself first."""
    bays = problem.bays
    group = next(group for group in problem.groups if bay in group.bays)
    if bays[bay].shelves != group.most:
        return [bay]
    return [other for other in group.bays if bays[other].shelves == group.most]


def before_values(v: LayoutVariables, before: Before) -> dict[str, int]:
    """The layout before as values of variables by name, as far as it still has a place."""
    values = {}
    marks = dict(before.marks)
    for one in v.classes:
        for shelf in range(1, one.shape.shelves + 1):
            mark = marks.get((one.bays[0], shelf))
            if mark is not None and one.shape.shelves == v.problem.groups[one.group].most:
                values[f"line[group={one.group},line={shelf}]"] = mark + one.shape.line
    for (kind, bay, opening), things in before.things:
        single = [x for f, x in v.places(v.home[bay], opening).items() if f.kind == kind]
        if single and len(v.problem.kinds[kind].forms) == 1:
            values[single[0].name] = things
    return values

