"""Solving one layout: which wish comes when, and what is carried from one to the next."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from ortools.sat.python import cp_model

from solver.layout import objective
from solver.layout.constraints import RULES, enough_tall_openings
from solver.layout.objective import Objective
from solver.layout.problem import Form, LayoutProblem
from solver.layout.search import Found, Search
from solver.layout.variables import LayoutVariables
from solver.outcome import Limits, Status
from solver.units import Ticks

Place = tuple[Form, int]
"""A place of a form and how many things stand in it."""


@dataclass(frozen=True)
class LayoutAnswer:
    """Where the shelves go and what stands in which opening.

    Attributes
    ----------
    status
        OPTIMAL: fit and rhythm proven. INFEASIBLE: no shelf positions at all are
        allowed. UNKNOWN: nothing found by the limit.
    marks
        Mark number by (bay, shelf from 1); the underside is offset + step x this.
    places
        Places by (bay, opening).
    left
        How many of each kind are left out, by kind index.
    stages
        What was found, by stage name: fit, rhythm, headroom, places, low weight, fill.
    """

    status: Status
    marks: Mapping[tuple[int, int], int] = field(default_factory=dict)
    places: Mapping[tuple[int, int], tuple[Place, ...]] = field(default_factory=dict)
    left: Mapping[int, int] = field(default_factory=dict)
    stages: Mapping[str, Found] = field(default_factory=dict)

    def underside(self, problem: LayoutProblem, bay: int, shelf: int) -> Ticks:
        """Underside of a shelf from the bottom end of the side [tick]."""
        shape = problem.bays[bay]
        return shape.offset + shape.step * self.marks[bay, shelf]


def make(problem: LayoutProblem, *, merge: bool,
         marks: Mapping[tuple[int, int], int] | None = None) -> LayoutVariables:
    """Build the model of a layout with every rule."""
    v = LayoutVariables(cp_model.CpModel(), problem, merge=merge, marks=marks)
    for rule in RULES:
        rule(v)
    return v


def everything_fits(problem: LayoutProblem, limits: Limits, *, work: float = 4.0) -> Status:
    """Say whether all things fit: OPTIMAL yes, INFEASIBLE proven not, UNKNOWN not settled."""
    v = make(problem, merge=False)
    for left in v.left.values():
        v.model.add(left == 0)
    enough_tall_openings(v)
    status = Search(v, limits).feasible(work=work)
    return Status.OPTIMAL if status is Status.FEASIBLE else status


def solve_layout(problem: LayoutProblem, limits: Limits) -> LayoutAnswer:
    """Decide shelf positions and what stands where, in the order of wishes.

    Fit, rhythm and evenness of headroom are decided with the marks free; then the marks
    are held and wished places, low weight and even fill follow.
    """
    settled = _settle_marks(problem, limits)
    if settled.search is None:
        return LayoutAnswer(settled.status, stages=settled.stages)
    return _place(problem, limits, settled)


@dataclass
class _Settled:
    """The first stages' result: a search whose solution has the marks."""

    status: Status
    stages: dict[str, Found]
    search: Search | None = None


def _settle_marks(problem: LayoutProblem, limits: Limits) -> _Settled:
    stages: dict[str, Found] = {}
    alike = any(one.times > 1 for one in LayoutVariables(
        cp_model.CpModel(), problem, merge=True).classes)
    bound: dict[str, Found] = {}
    marks = None
    if alike and problem.wishes.rhythm != "to-fit":
        marks = _merged(problem, limits, bound)
    search = _full(problem, limits, stages, marks)
    if search is None and marks is not None:
        search = _full(problem, limits, stages, None)
    for name, merged in bound.items():
        if name in stages:
            stages[name] = _with_bound(stages[name], merged)
    if search is None:
        infeasible = stages.get("fit", bound.get("fit"))
        return _Settled(infeasible.status if infeasible else Status.UNKNOWN, stages)
    status = Status.OPTIMAL if stages["fit"].proven and stages["rhythm"].proven else Status.FEASIBLE
    return _Settled(status, stages, search)


def _with_bound(found: Found, merged: Found) -> Found:
    """Take the better bound of a relaxation."""
    bound = max(found.bound, merged.bound)
    return Found(found.status, found.value, bound, found.raw, found.exact)


def _merged(problem: LayoutProblem, limits: Limits,
            bound: dict[str, Found]) -> dict[tuple[int, int], int] | None:
    """Solve the relaxation that takes bays alike together; return its marks by bay."""
    v = make(problem, merge=True)
    search = Search(v, limits)
    bound["fit"] = search.minimise(objective.left_out(v))
    if bound["fit"].value is None:
        return None
    _lock(v, objective.left_out(v), bound["fit"])
    if bound["fit"].value == 0:
        enough_tall_openings(v)
    bound["rhythm"] = search.minimise(objective.rhythm(v))
    if bound["rhythm"].value is None:
        return None
    return {
        (bay, shelf): search.value(v.mark(c, shelf))
        for c, one in enumerate(v.classes)
        for bay in one.bays
        for shelf in range(1, one.shape.shelves + 1)
    }


def _lock(v: LayoutVariables, goal: Objective, found: Found, slack: Ticks = 0) -> None:
    """Hold a stage at its value, less what later wishes may give back [tick]."""
    assert found.raw is not None
    v.model.add(goal.expression <= found.raw + int(Fraction(slack) / goal.unit))


def _full(problem: LayoutProblem, limits: Limits, stages: dict[str, Found],
          marks: Mapping[tuple[int, int], int] | None) -> Search | None:
    """Fit, rhythm and headroom bay by bay; None where nothing was found."""
    v = make(problem, merge=False, marks=_by_class(problem, marks))
    search = Search(v, limits)
    stages["fit"] = search.minimise(objective.left_out(v))
    if stages["fit"].value is None:
        return None
    _lock(v, objective.left_out(v), stages["fit"])
    if stages["fit"].value == 0 and marks is None:
        enough_tall_openings(v)
    rhythm = objective.rhythm(v)
    stages["rhythm"] = search.minimise(rhythm)
    if stages["rhythm"].value is None:
        return None
    _lock(v, rhythm, stages["rhythm"], problem.wishes.rhythm_slack)
    if problem.wishes.rhythm != "to-fit":
        stages["headroom"] = search.minimise(objective.headroom_spread(v))
    return search


def _by_class(problem: LayoutProblem, marks: Mapping[tuple[int, int], int] | None) -> dict[
        tuple[int, int], int] | None:
    """Marks by bay as marks by class of a model that takes each bay by itself."""
    if marks is None:
        return None
    classes = LayoutVariables(cp_model.CpModel(), problem, merge=False).classes
    home = {one.bays[0]: c for c, one in enumerate(classes)}
    return {(home[bay], shelf): mark for (bay, shelf), mark in marks.items()}


def _place(problem: LayoutProblem, limits: Limits, settled: _Settled) -> LayoutAnswer:
    """Hold the marks and decide what stands where."""
    assert settled.search is not None
    before, stages = settled.search.v, settled.stages
    marks = {
        (c, shelf): settled.search.value(before.mark(c, shelf))
        for c, one in enumerate(before.classes)
        for shelf in range(1, one.shape.shelves + 1)
    }
    v = make(problem, merge=False, marks=marks)
    search = Search(v, limits)
    first = search.minimise(objective.left_out(v))
    answer = search if first.value is not None else settled.search
    if first.value is not None:
        _lock(v, objective.left_out(v), first)
        _later_wishes(v, search, stages, marks, problem)
    return _answer(settled.status, answer, stages)


def _later_wishes(v: LayoutVariables, search: Search, stages: dict[str, Found],
                  marks: Mapping[tuple[int, int], int], problem: LayoutProblem) -> None:
    """Wished places, then low weight, then even fill, each held before the next."""
    if "headroom" in stages and stages["headroom"].value is not None:
        spread = objective.headroom_spread(v)
        found = search.minimise(spread)
        best = stages["headroom"].value
        if found.raw is not None:
            room = max(Fraction(found.raw), best + problem.wishes.headroom_slack)
            v.model.add(spread.expression <= int(room))
    floors = _floors(v, marks)
    goals = {
        "places": objective.wishes_missed(v, _eye_openings(v, floors)),
        "low weight": objective.mass_times_height(v, floors),
        "fill": objective.fill_spread(v),
    }
    for name, goal in goals.items():
        stages[name] = search.minimise(goal)
        if stages[name].raw is not None:
            share = Fraction(1, 50) if name == "low weight" else 0
            v.model.add(goal.expression <= stages[name].raw + int(stages[name].raw * share))


def _floors(v: LayoutVariables, marks: Mapping[tuple[int, int], int]) -> dict[
        tuple[int, int], Ticks]:
    """Each opening's floor above the room's floor [tick]."""
    floors = {}
    for c, k in v.openings():
        shape = v.shape(c)
        upper = shape.offset + shape.step * marks[c, k] + shape.thickness if k else shape.floor
        floors[c, k] = shape.above_floor + upper
    return floors


def _eye_openings(v: LayoutVariables, floors: Mapping[tuple[int, int], Ticks]) -> dict[int, int]:
    """The opening of each class that the eye level falls into: the last whose floor is below it."""
    eye = v.problem.wishes.eye_level
    return {
        c: max((k for k in range(one.shape.openings) if floors[c, k] <= eye), default=0)
        for c, one in enumerate(v.classes)
    }


def _answer(status: Status, search: Search, stages: dict[str, Found]) -> LayoutAnswer:
    v = search.v
    marks, places = {}, {}
    for c, one in enumerate(v.classes):
        bay = one.bays[0]
        for shelf in range(1, one.shape.shelves + 1):
            marks[bay, shelf] = search.value(v.mark(c, shelf))
        for k in range(one.shape.openings):
            places[bay, k] = _filled(search, c, k)
    left = {k: search.value(count) for k, count in v.left.items()}
    return LayoutAnswer(status, marks, places, left, stages)


def _filled(search: Search, c: int, opening: int) -> tuple[Place, ...]:
    """Fill the places of an opening with the things that stand in it, full places first."""
    v = search.v
    waiting = {form.kind: search.value(v.count(form.kind, c, opening))
               for form in v.places(c, opening)}
    filled: list[Place] = []
    for form, count in v.places(c, opening).items():
        for _ in range(search.value(count)):
            things = min(form.things, waiting[form.kind])
            waiting[form.kind] -= things
            if things:
                filled.append((form, things))
    return tuple(filled)
