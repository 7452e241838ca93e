"""Solving one layout: which wish comes when, and what is carried from one to the next."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import floor

from solver.layout.by_rule import Layout, by_rule, steadier, wished
from solver.layout.goal import Goal
from solver.layout.layout_problem import LayoutProblem, Place, Spot, large, too_large
from solver.layout.look_scores import AREA, LookScores, floors_of
from solver.layout.placed_layout import Placed, falls, place
from solver.layout.refilling import Refilling
from solver.layout.relaxation import Relaxed, relaxed
from solver.layout.rhythm_stage import settle_rhythm
from solver.layout.stage_search import Found, Search
from solver.layout.stages import FIT, UNSAID, Reached, asked_for, goal_of
from solver.layout.wishes import heavy, levels_are_used, lone, sight
from solver.outcome import Limits, Status
from solver.units import Ticks

LATER_WORK = 0.12
"""Deterministic work for each wish after the rhythm [-]."""
LATER_MOST = 5_000
"""Variables of a model up to which these wishes are searched for: larger ones find nothing in that
work, and keep what they have [-]."""
VOID_SLACK, ROOMY_SLACK = Fraction(8, 100), Fraction(4, 100)
"""Shares that later wishes may give back: of the mean opening's area, of the width [-]."""


BOUNDS_SHARE, REFILLING_SHARE = 0.4, 0.8
"""Shares of the time left for the bounds of a large problem, and then for its layout [-]."""


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


def solve_layout(problem: LayoutProblem, limits: Limits, *, later: bool = True) -> LayoutAnswer:
    """Decide shelf positions and what stands where, in the order of wishes.

    With `later` False only as far as the rhythm.
    """
    limits = limits.after_the_stop()
    start, bounds = by_rule(problem) if large(problem) else None, Relaxed()
    if start is not None and too_large(problem, limits):
        return _some_at_a_time(problem, start, limits)
    if not too_large(problem, limits, merged=True):
        bounds = relaxed(problem, limits, start)
    if too_large(problem, limits):
        return answer_by_rule(problem, start, bounds)
    placed = place(problem, bounds, limits, start)
    if placed.search.solution is None:
        if placed.infeasible:
            return LayoutAnswer(Status.INFEASIBLE)
        return answer_by_rule(problem, start or by_rule(problem), bounds)
    found = finished(problem, placed, later=later)
    if start is not None and found.status is not Status.OPTIMAL:
        ruled = answer_by_rule(problem, start, bounds)
        return min(
            found, ruled, key=lambda one: wished(problem, (dict(one.marks), dict(one.places)))
        )
    return found


def _some_at_a_time(problem: LayoutProblem, start: Layout, limits: Limits) -> LayoutAnswer:
    """Bounds of the relaxation where it may be built, and a layout by rule made better."""
    bounds = Relaxed()
    if not too_large(problem, limits, merged=True):
        bounds = relaxed(problem, limits.until(BOUNDS_SHARE), start)
        bounds.search = None
    refilled = Refilling(problem, start, limits.until(REFILLING_SHARE)).better()
    return answer_by_rule(problem, steadier(problem, refilled), bounds)


def answer_by_rule(problem: LayoutProblem, layout: Layout | None, bounds: Relaxed) -> LayoutAnswer:
    """A layout by rule as the answer, with what is proven of each stage; None: none is known."""
    if layout is None:
        return LayoutAnswer(Status.UNKNOWN)
    reached = Reached()
    names = (*FIT, *asked_for(problem))
    for name, value in zip(names, wished(problem, layout), strict=False):
        bound = bounds.reached.found.get(name)
        if bound is not None:
            reached.found[name] = replace(bound, status=Status.FEASIBLE, value=None, raw=None)
        if value > (0 if bound is None or bound.raw is None else bound.raw):
            break  # what is proven of later stages is so for layouts that are as good in this one
    return _stated_answer(problem, layout, reached)


def finished(problem: LayoutProblem, placed: Placed, *, later: bool = True) -> LayoutAnswer:
    """Settle the rhythm and all later wishes from a layout that is settled as far as `rises`."""
    search, reached = placed.search, placed.reached
    few = len(search.v.all()) <= LATER_MOST
    if settle_rhythm(search, reached, placed.rhythm) and later and few:
        _later(problem, search, reached)
    return answer_of(problem, search, reached)


def _later(problem: LayoutProblem, search: Search, reached: Reached) -> None:
    """Voids, rows, and air with the marks free within the rhythm; then the rest.

    A wish that the limit leaves without a value is passed over.
    """
    v, search.linear, search.hurried = search.v, 1, True
    _flank(problem, search)
    for name in ("void", "roomy", "beside", "air"):
        goal = goal_of(v, name)
        if name == "beside":
            levels_are_used(v)
            search.suggest(_as_used(search))
        slack = _slack(problem, name, goal)
        one = search.minimise(goal, work=LATER_WORK, gap=slack // 4)
        if one.raw is not None:
            reached.found[name] = one
            search.hold(goal, one.raw + slack)
    marks = search.marks()
    for (bay, shelf), mark in marks.items():
        v.model.add(v.mark(v.home[bay], shelf) == mark)
    floors = floors_of(problem, marks)
    for name, goal in (("sight", sight(v, floors)), ("heavy", heavy(v, floors))):
        one = search.minimise(goal, work=LATER_WORK)
        if one.raw is not None:
            reached.found[name] = one
            search.hold(goal, one.raw)


def _flank(problem: LayoutProblem, search: Search) -> None:
    """Leave no single thing in an opening more than half empty where it can be flanked."""
    alone = LookScores(problem, search.marks(), search.places()).lone()
    if not alone:
        return
    goal = lone(search.v)
    found = search.minimise(goal, work=LATER_WORK)
    search.hold(goal, alone if found.raw is None else found.raw)


def _as_used(search: Search) -> dict[str, int]:
    """The solution so far, where openings reach no more levels than their things need."""
    values, v = search.values(), search.v
    for (c, k), levels in v.levels.items():
        stand = [form.height for form, x in v.places(c, k).items() if search.value(x)]
        top = max(stand, default=-1)
        for level in levels:
            values[level.reached.name] = int(level.height <= top)
    return values


def _slack(problem: LayoutProblem, name: str, goal: Goal) -> int:
    """What later wishes may give back of a stage [raw units]."""
    if name == "roomy":
        return int(ROOMY_SLACK * min(shape.width for shape in problem.bays))
    if name != "void":
        return 0
    fronts = ((s.width * (s.inside - s.shelves * s.thickness), s.openings) for s in problem.bays)
    least = min(Fraction(front, openings) for front, openings in fronts)
    return int(VOID_SLACK * least / AREA / goal.unit)


LATER = ("void", "roomy", "beside", "air", "sight", "heavy")


def answer_of(problem: LayoutProblem, search: Search, reached: Reached) -> LayoutAnswer:
    """The layout of the last solution, with what every stage has come to in it."""
    return _stated_answer(problem, (search.marks(), search.places()), reached)


def _stated_answer(problem: LayoutProblem, layout: Layout, reached: Reached) -> LayoutAnswer:
    marks, places = layout
    scores = LookScores(problem, marks, places)
    stages = {"fit": _fit(scores, reached)}
    for name in (*asked_for(problem), *_heights_scored(problem, reached), *LATER):
        if name not in UNSAID:
            stages[name] = _stated(scores, name, reached.found.get(name))
    early = [one for name, one in stages.items() if name not in LATER]
    status = Status.OPTIMAL if all(one.proven for one in early) else Status.FEASIBLE
    return LayoutAnswer(status, marks, places, scores.left(), stages)


RHYTHMS = (
    "rises",
    "steady",
    "even",
    "symmetric",
    "to-fit",
    "graduated",
    "marks moved",
    "things moved",
)


STEADY = ("steady", "graduated")
"""Rhythms of which a marking step is given back to the wishes after them."""


def _heights_scored(problem: LayoutProblem, reached: Reached) -> list[str]:
    """The stages about heights, of the rhythm that was settled, or the one that was asked for."""
    found = [name for name in RHYTHMS if name in reached.found]
    rises = ["rises"] if falls(problem) and "rises" not in found else []
    rhythm = problem.wishes.rhythm
    usual = ["symmetric", "even"] if rhythm == "symmetric" else [rhythm]
    settled = any(name in found for name in RHYTHMS[1:6])
    return [*rises, *found, *(() if settled else usual)]


def _fit(scores: LookScores, reached: Reached) -> Found:
    value = scores.fit()
    bounds = [reached.floor(name) for name in FIT]
    parts = [reached.found[name] for name in FIT if name in reached.found]
    proven = value == 0 or (len(parts) == len(FIT) and all(one.proven for one in parts))
    bound = value if proven else min(value, sum(bounds))
    status = Status.OPTIMAL if value <= bound else Status.FEASIBLE
    return Found(status, Fraction(value), Fraction(bound), value)


def _stated(scores: LookScores, name: str, found: Found | None) -> Found:
    """A stage as the finished layout has it, with the bound that was proven."""
    if found is not None and name.endswith("moved"):
        return found
    value = Fraction(scores.value(name))
    if found is None or found.bound is None:
        return Found(Status.FEASIBLE, value, None)
    bound = min(value, Fraction(floor(found.bound)))
    step = max(shape.step for shape in scores.problem.bays)
    one = Found(Status.FEASIBLE, value, bound, within=step if name in STEADY else 0)
    return replace(one, status=Status.OPTIMAL if one.proven else Status.FEASIBLE)
