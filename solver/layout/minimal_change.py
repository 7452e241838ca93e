"""Minimal change: a layout around what is held that moves as little as possible of the one before.

The order of wishes is the usual one, with two more after fit: how far shelves move, then
how many things change their opening. The shelf marks come first, since boards are marked
and fixed before anything stands on them.

Mostly no shelf moves but those that are held elsewhere. That is looked at first, on a model with
these marks, which is small; how far the held shelves are from where they were is then the least
that shelves can move. Only where it cannot be are the marks searched. Things that stay in their
opening stand there as they did, lying or stacked, as far as may be.

Where the limit comes first, the layout before is the answer as it is, if it is still allowed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from solver.layout.constraints import new_model
from solver.layout.hold_rules import marks_moved, places_turned, things_moved
from solver.layout.kept_marks import forced_way, marks_before, things_away, way_moved
from solver.layout.layout_engine import (
    LATER,
    LayoutAnswer,
    answer_by_rule,
    answer_of,
    finished,
    solve_layout,
)
from solver.layout.layout_problem import Before, LayoutProblem, too_large
from solver.layout.look_scores import LookScores, Marks
from solver.layout.placed_layout import Placed, falls
from solver.layout.relaxation import Relaxed, all_placed
from solver.layout.rhythm_stage import Bounds, settle_rhythm
from solver.layout.rules_kept import all_kept
from solver.layout.stage_search import Found, Search
from solver.layout.stages import FIT, Reached, asked_for, run
from solver.layout.standing import Standing
from solver.layout.variables import LayoutVariables
from solver.outcome import Limits, Status, Verdict

LOOK_WORK = 1.0
"""Deterministic work for a look whether everything fits, and for how things stand [-]."""
MOVED_LINEAR = 1
"""Linear relaxation for what moves: of three bays eight things are proven, without it none [-]."""
NOTHING_KNOWN = Found(Status.UNKNOWN, None, None)


def lay_out(problem: LayoutProblem, limits: Limits) -> LayoutAnswer:
    """Decide shelf positions and what stands where, from the layout before where there is one."""
    before = problem.holding.before
    if before is None:
        return solve_layout(problem, limits)
    marks = marks_before(problem, before)
    answer = LayoutAnswer(Status.UNKNOWN)
    if not too_large(problem, limits):
        answer = _least_moved(problem, before, marks, limits)
    if answer.status is Status.UNKNOWN and marks is not None:
        answer = _as_it_was(problem, before, marks)
    return _with_moved(problem, before, answer) if answer.marks_known else answer


def _least_moved(
    problem: LayoutProblem, before: Before, marks: Marks | None, limits: Limits
) -> LayoutAnswer:
    """Settle what moves, then how it looks; unknown where the limit comes before any layout."""
    reached = Reached()
    search = None if marks is None else _with_marks(problem, before, marks, limits, reached)
    search = search or _anywhere(problem, before, limits, reached)
    if search.solution is not None:
        return _looked_after(problem, before, search, reached)
    nowhere = search.feasible(work=LOOK_WORK) is Verdict.NO
    return LayoutAnswer(Status.INFEASIBLE if nowhere else Status.UNKNOWN)


def _with_marks(
    problem: LayoutProblem,
    before: Before,
    marks: Marks,
    limits: Limits,
    reached: Reached,
) -> Search | None:
    """Everything stands with no shelf moved but those held elsewhere; None where it cannot."""
    search = Search(new_model(problem, marks=dict(marks)), limits)
    all_placed(search.v)
    search.suggest(before_values(search.v, before))
    moved, search.linear = things_moved(search.v), MOVED_LINEAR
    found, search.linear = search.minimise(moved), 0
    if found.raw is None:
        return None
    way = Fraction(forced_way(problem, before))
    reached.found["marks moved"] = Found(Status.OPTIMAL, way, way)
    search.hold(moved, found.raw)
    reached.found["things moved"] = found
    _stand_as_before(search)
    return search


def _anywhere(problem: LayoutProblem, before: Before, limits: Limits, reached: Reached) -> Search:
    """Settle what is left out, how far shelves move, and how many things do."""
    search = Search(new_model(problem), limits)
    all_placed(search.v)
    search.suggest(before_values(search.v, before))
    if search.feasible(work=LOOK_WORK) is not Verdict.YES:
        search = Search(new_model(problem), limits)
        search.suggest(before_values(search.v, before))
        run(search, FIT, Reached(), reached, None)
    if search.solution is None:
        return search
    way, search.linear = marks_moved(search.v), MOVED_LINEAR
    least = int(forced_way(problem, before) / way.unit)
    for name, goal, floor in (
        ("marks moved", way, least),
        ("things moved", things_moved(search.v), 0),
    ):
        found = search.minimise(goal, floor=floor)
        reached.found[name] = found
        if found.raw is not None:
            search.hold(goal, found.raw)
    search.linear = 0
    _stand_as_before(search)
    return search


def _as_it_was(problem: LayoutProblem, before: Before, marks: Marks) -> LayoutAnswer:
    """The layout before as it is, what is new beside it by rule; unknown where that cannot be."""
    staying = replace(problem, holding=replace(problem.holding, stay=True))
    rows = {at: row.places for at, row in before.rows}
    as_before = {
        (bay, k): rows.get((bay, k), ())
        for bay, shape in enumerate(problem.bays)
        for k in range(shape.openings)
    }
    by_rule = Standing(staying, marks).filled(dearest_first=False)
    for places in (as_before, as_before | by_rule):
        left = LookScores(problem, marks, places).left()
        if all_kept(staying, marks, places) and not any(left.values()):
            return answer_by_rule(problem, (dict(marks), places), Relaxed())
    return LayoutAnswer(Status.UNKNOWN)


def _stand_as_before(search: Search) -> None:
    """Let what stays in its opening stand there as it did, as far as may be."""
    turned = places_turned(search.v)
    one = search.minimise(turned, work=LOOK_WORK)
    if one.raw is not None:
        search.hold(turned, one.raw)


def _looked_after(
    problem: LayoutProblem, before: Before, search: Search, reached: Reached
) -> LayoutAnswer:
    """Settle the wishes about how it looks, with no more moved than that."""
    names = (*asked_for(problem), "rises") if falls(problem) else asked_for(problem)
    if _nothing_left_to_choose(problem, before, search):
        return _scored(problem, search, reached, names)
    run(search, names, Reached(), reached, None)
    return finished(problem, Placed(search, reached))


def _with_moved(problem: LayoutProblem, before: Before, answer: LayoutAnswer) -> LayoutAnswer:
    """The answer with what has moved in it, and what has to."""
    moved = {
        "marks moved": way_moved(problem, before, answer.marks),
        "things moved": things_away(problem, before, answer.places),
    }
    least = {"marks moved": forced_way(problem, before), "things moved": 0}
    stages = dict(answer.stages)
    for name, number in moved.items():
        known, value = stages.get(name, NOTHING_KNOWN).bound, Fraction(number)
        bound = min(value, Fraction(least[name]) if known is None else known)
        stages[name] = Found(Status.OPTIMAL if bound == value else Status.FEASIBLE, value, bound)
    return replace(answer, stages=stages)


def _nothing_left_to_choose(problem: LayoutProblem, before: Before, search: Search) -> bool:
    """Whether all marks are decided, and the same things stand in every opening as before."""
    rows, places = dict(before.rows), search.places()
    return (
        not search.v.lines()
        and all(
            Counter(some) == Counter(rows[at].places if at in rows else ())
            for at, some in places.items()
        )
        and not any(search.value(left) for left in search.v.left.values())
    )


def _scored(
    problem: LayoutProblem, search: Search, reached: Reached, names: Sequence[str]
) -> LayoutAnswer:
    """What the wishes come to in the only layout that moves no more."""
    settle_rhythm(search, reached, Bounds())
    scores = LookScores(problem, search.marks(), search.places())
    for name in (*names, *LATER):
        value = Fraction(scores.value(name))
        reached.found[name] = Found(Status.OPTIMAL, value, value)
    return answer_of(problem, search, reached)


def before_values(v: LayoutVariables, before: Before) -> dict[str, int]:
    """The layout before as values of variables by name, as far as it still has a place."""
    values: dict[str, int] = {}
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
    for (bay, opening), row in before.rows:
        count = Counter(form for form, _ in row.places)
        places = v.places(v.home[bay], opening)
        values |= {x.name: count[form] for form, x in places.items()}
    return values
