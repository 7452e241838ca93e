"""Solving one layout: which wish comes when, and what is carried from one to the next."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import floor

from solver.layout.constraints import new_model, openings_fall
from solver.layout.goal import Goal
from solver.layout.layout_problem import LayoutProblem, Place, Spot
from solver.layout.look_scores import LookScores, floors_of
from solver.layout.relaxation import Relaxed, all_placed, relaxed
from solver.layout.rhythm_stage import Rhythm, settle_rhythm
from solver.layout.stage_search import Found, Search
from solver.layout.stages import FIT, Reached, asked_for, goal_of, run
from solver.layout.wishes import heavy, levels_are_used, sight
from solver.outcome import Limits, Status, Verdict
from solver.units import Ticks

LATER_WORK = 0.5
"""Deterministic work for each wish after the rhythm [-]."""
AT_ONCE_WORK = 1.0
"""The same for a look whether a layout meets all bounds of the relaxation at once [-]."""
VOID_SLACK, ROOMY_SLACK = Fraction(8, 100), Fraction(4, 100)
"""Shares that later wishes may give back: of the mean opening's area, of the width [-]."""


@dataclass(frozen=True)
class LayoutAnswer:
    """Where the shelves go and what stands in which opening.

    Attributes
    ----------
    status
        OPTIMAL: proven up to the rhythm. INFEASIBLE: no shelf positions at all are
        allowed. UNKNOWN: nothing found by the limit.
    marks
        Mark number by (bay, shelf from 1); the underside is offset + step x this.
    places
        Places by (bay, opening).
    left
        How many of each kind are left out, by kind index.
    stages
        What was found, by stage name, in the order of wishes.
    """

    status: Status
    marks: Mapping[Spot, int] = field(default_factory=dict)
    places: Mapping[Spot, tuple[Place, ...]] = field(default_factory=dict)
    left: Mapping[int, int] = field(default_factory=dict)
    stages: Mapping[str, Found] = field(default_factory=dict)

    @property
    def marks_known(self) -> bool:
        """True where there is a layout."""
        return bool(self.places)

    def underside(self, problem: LayoutProblem, bay: int, shelf: int) -> Ticks:
        """Underside of a shelf from the bottom end of the side [tick]."""
        shape = problem.bays[bay]
        return shape.offset + shape.step * self.marks[bay, shelf]


def solve_layout(problem: LayoutProblem, limits: Limits) -> LayoutAnswer:
    """Decide shelf positions and what stands where, in the order of wishes."""
    bounds = relaxed(problem, limits)
    placed = _placed(problem, bounds, limits)
    if placed.search.solution is None:
        status = Status.INFEASIBLE if placed.infeasible else Status.UNKNOWN
        return LayoutAnswer(status)
    return finished(problem, placed, limits)


@dataclass
class Placed:
    """A model of every opening in its place, solved as far as `alone` and `rises`."""

    search: Search
    reached: Reached
    falls: bool
    infeasible: bool = False


def _placed(problem: LayoutProblem, bounds: Relaxed, limits: Limits) -> Placed:
    """Settle what stands together, with the tallest opening lowest where that costs nothing."""
    fall = problem.wishes.tallest != "any" and problem.wishes.rhythm != "symmetric"
    if bounds.fits is not Verdict.NO:
        at_once = _at_once(problem, bounds, limits, fall=fall)
        if at_once is not None:
            return at_once
    hints = bounds.values
    if fall:
        falling = _stage_by_stage(problem, bounds, limits, hints, fall=True)
        if falling.search.solution is not None:
            if _meets(falling.reached, bounds.reached):
                return falling
            hints = falling.search.values()
    free = _stage_by_stage(problem, bounds, limits, hints, fall=False)
    if free.search.solution is None and fall and falling.search.solution is not None:
        return falling
    return free


def _meets(reached: Reached, bounds: Reached) -> bool:
    """Whether every stage is as good as no layout can better."""
    return all(one.proven and (
        one.raw == 0 or (name in bounds.found and one.raw == bounds.floor(name))
    ) for name, one in reached.found.items())


def _at_once(
    problem: LayoutProblem, bounds: Relaxed, limits: Limits, *, fall: bool
) -> Placed | None:
    """A layout that leaves nothing out and meets all bounds of the relaxation, if there is one."""
    if not bounds.values:
        return None
    search = Search(new_model(problem), limits)
    all_placed(search.v)
    if fall:
        openings_fall(search.v, top=problem.wishes.tallest == "top")
    reached = Reached()
    for name in asked_for(problem):
        goal = goal_of(search.v, name)
        one = bounds.reached.found.get(name, Found(Status.OPTIMAL, Fraction(0), Fraction(0), 0))
        if one.raw is None:
            return None
        search.hold(goal, one.raw)
        reached.found[name] = one
    search.suggest(bounds.values)
    if search.feasible(work=AT_ONCE_WORK) is not Verdict.YES:
        return None
    return Placed(search, reached, fall)


def _stage_by_stage(
    problem: LayoutProblem,
    bounds: Relaxed,
    limits: Limits,
    hints: Mapping[str, int],
    *,
    fall: bool,
) -> Placed:
    """Settle stage after stage; a tall opening above a lower one only where `fall` is False."""
    names = asked_for(problem)
    reached = Reached()
    search = _started(problem, limits, hints, fall=fall, leave=False)
    verdict = Verdict.NO if bounds.fits is Verdict.NO else search.feasible()
    if verdict is not Verdict.YES:
        search = _started(problem, limits, hints, fall=fall, leave=True)
        names = (*FIT, *names)
    run(search, names, bounds.reached, reached, None)
    infeasible = search.solution is None and not reached.found and not limits.over
    placed = Placed(search, reached, fall, infeasible)
    if not fall and search.solution is not None and problem.wishes.tallest != "any":
        run(search, ("rises",), Reached(), reached, None)
    return placed


def _started(
    problem: LayoutProblem, limits: Limits, hints: Mapping[str, int], *, fall: bool, leave: bool
) -> Search:
    search = Search(new_model(problem), limits)
    if not leave:
        all_placed(search.v)
    if fall:
        openings_fall(search.v, top=problem.wishes.tallest == "top")
    search.suggest(hints)
    return search


def finished(problem: LayoutProblem, placed: Placed, limits: Limits) -> LayoutAnswer:
    """Settle the rhythm and all later wishes from a layout that is settled as far as `rises`."""
    search, reached = placed.search, placed.reached
    if placed.falls:
        reached.found["rises"] = Found(Status.OPTIMAL, Fraction(0), Fraction(0), 0)
    rhythm = settle_rhythm(search, reached)
    if rhythm is not None:
        _later(problem, search, reached, rhythm)
    return answer_of(problem, search, reached)


def _later(problem: LayoutProblem, search: Search, reached: Reached, rhythm: Rhythm) -> None:
    """Voids, rows, and air with the marks free within the rhythm; then the rest."""
    v = search.v
    for name in ("void", "roomy", "beside", "air"):
        if name == "beside":
            levels_are_used(v)
        goal = goal_of(v, name)
        one = search.minimise(goal, work=LATER_WORK)
        if one.raw is None:
            return
        reached.found[name] = one
        search.hold(goal, one.raw + _slack(problem, name, goal))
    again = search.minimise(rhythm.goal, floor=rhythm.floor, work=LATER_WORK)
    if again.raw is None:
        return
    marks = search.marks()
    for (bay, shelf), mark in marks.items():
        v.model.add(v.mark(v.home[bay], shelf) == mark)
    floors = floors_of(problem, marks)
    for name, goal in (("sight", sight(v, floors)), ("heavy", heavy(v, floors))):
        one = search.minimise(goal, work=LATER_WORK)
        if one.raw is None:
            return
        reached.found[name] = one
        search.hold(goal, one.raw)


def _slack(problem: LayoutProblem, name: str, goal: Goal) -> int:
    """What later wishes may give back of a stage [raw units]."""
    if name == "roomy":
        return int(ROOMY_SLACK * min(shape.width for shape in problem.bays))
    if name != "void":
        return 0
    areas = [Fraction(s.width * s.inside, s.openings * 320**2) for s in problem.bays]
    return int(VOID_SLACK * min(areas) / goal.unit)


LATER = ("void", "roomy", "beside", "air", "sight", "heavy")


def answer_of(problem: LayoutProblem, search: Search, reached: Reached) -> LayoutAnswer:
    """The layout of the last solution, with what every stage has come to in it."""
    marks, places = search.marks(), search.places()
    scores = LookScores(problem, marks, places)
    stages = {"fit": _fit(scores, reached)}
    for name in (*asked_for(problem), *(n for n in reached.found if n in RHYTHMS), *LATER):
        stages[name] = _stated(scores, name, reached.found.get(name))
    early = [one for name, one in stages.items() if name not in LATER]
    status = Status.OPTIMAL if all(one.proven for one in early) else Status.FEASIBLE
    return LayoutAnswer(status, marks, places, scores.left(), stages)


RHYTHMS = ("rises", "steady", "even", "symmetric", "to-fit", "graduated", "marks moved",
           "things moved")


def _fit(scores: LookScores, reached: Reached) -> Found:
    value = scores.fit()
    bounds = [reached.floor(name) for name in FIT]
    proven = all(reached.found[name].proven for name in FIT if name in reached.found)
    bound = value if proven else min(value, sum(bounds))
    return Found(Status.OPTIMAL if proven else Status.FEASIBLE, Fraction(value), Fraction(bound), value)


def _stated(scores: LookScores, name: str, found: Found | None) -> Found:
    """A stage as the finished layout has it, with the bound that was proven."""
    if found is not None and name.endswith("moved"):
        return found
    value = Fraction(scores.value(name))
    if found is None or found.bound is None:
        return Found(Status.FEASIBLE, value, None)
    bound = min(value, Fraction(floor(found.bound)))
    return Found(Status.OPTIMAL if value <= bound else Status.FEASIBLE, value, bound)
