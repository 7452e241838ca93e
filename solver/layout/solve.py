"""Solving one layout: which wish comes when, and what is carried from one to the next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import ceil

from ortools.sat.python import cp_model

from solver.layout import objective
from solver.layout.arrange import Place
from solver.layout.constraints import (
    RULES,
    Rule,
    enough_tall_openings,
    groups_together,
    middle_openings_fall,
    on_falls,
)
from solver.layout.falls import best_falls
from solver.layout.later import Later
from solver.layout.objective import Objective
from solver.layout.search import Found, Search
from solver.layout.shapes import LayoutProblem
from solver.layout.start import start_values
from solver.layout.variables import LayoutVariables, classes_of
from solver.outcome import Limits, Status
from solver.units import Ticks

ORDERLESS = ("even",)
"""Rhythms that do not look at the order of the openings and are bounded well that way."""
FALLS_WORK = 1.0


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

    @property
    def marks_known(self) -> bool:
        """True where there is a layout."""
        return bool(self.places)

    def underside(self, problem: LayoutProblem, bay: int, shelf: int) -> Ticks:
        """Underside of a shelf from the bottom end of the side [tick]."""
        shape = problem.bays[bay]
        return shape.offset + shape.step * self.marks[bay, shelf]


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


@dataclass(frozen=True)
class Left:
    """Fewest things left out: `count` found (None: no layout), `bound` proven."""

    status: Status
    count: int | None
    bound: int

    def within(self, count: int) -> bool:
        """True where a layout with at most `count` left out was found."""
        return self.count is not None and self.count <= count


def fewest_left(problem: LayoutProblem, limits: Limits, *, enough: int | None = None) -> Left:
    """Stage 1 alone: the fewest things left out, or any layout with at most `enough`."""
    v = make(problem, merge=False)
    goal = objective.left_out(v)
    if enough is not None:
        v.model.add(goal.expression <= enough)
    search = Search(v, limits)
    if enough is not None:
        status = search.feasible()
        count = search.value(goal.expression) if search.solution is not None else None
        return Left(status, count, 0)
    found = search.minimise(goal)
    return Left(found.status, found.raw, int(found.bound))


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

    Fit and rhythm are decided first; the later wishes move the marks no more than nobody
    sees, and things from opening to opening.
    """
    settled = settle_marks(problem, limits)
    if settled.search is None:
        return LayoutAnswer(settled.status, stages=settled.stages)
    later = Later(settled.search, settled.stages)
    later.even_headroom()
    later.order()
    later.wishes()
    return LayoutAnswer(
        settled.status, later.marks, later.standing.places(), later.left, settled.stages
    )


@dataclass
class Settled:
    """The first stages' result: a search whose solution has the marks."""

    status: Status
    stages: dict[str, Found]
    search: Search | None = None


def settle_marks(problem: LayoutProblem, limits: Limits) -> Settled:
    """Fit and rhythm, with the marks free.

    A relaxation comes first: bays alike taken together, and where the order of openings
    does not matter to the rhythm, tallest first and groups disregarded. Its values bound
    the true ones, and mostly the model of all bays then meets them at once.
    """
    stages: dict[str, Found] = {}
    relaxed = _relaxation(problem, limits)
    search = None
    if relaxed is not None and relaxed.several:
        search = _full(problem, limits, stages, relaxed, marks_by_bay(relaxed.search))
    if search is None:
        search = _full(problem, limits, stages, relaxed, None)
    if search is None:
        return Settled(stages["fit"].status, stages)
    status = Status.OPTIMAL if stages["fit"].proven and stages["rhythm"].proven else Status.FEASIBLE
    return Settled(status, stages, search)


def _start(search: Search, marks: Mapping[tuple[int, int], int] | None = None) -> None:
    """Let a large model start from a layout by construction, if there is one."""
    values = start_values(search.v, marks)
    if values is not None:
        search.take(objective.left_out(search.v), values)


@dataclass(frozen=True)
class _Relaxed:
    """What the relaxation found; its bounds hold for the whole problem."""

    search: Search
    fit: Found
    rhythm: Found

    @property
    def several(self) -> bool:
        """True where bays were taken together, so that the answer must still be split."""
        return any(one.times > 1 for one in self.search.v.classes)


def _relaxation(problem: LayoutProblem, limits: Limits) -> _Relaxed | None:
    """Solve the relaxation; None where it would be the whole problem, or finds nothing."""
    merge = problem.wishes.rhythm != "to-fit"
    orderless = problem.wishes.rhythm in ORDERLESS
    alike = any(one.times > 1 for one in classes_of(problem, merge=merge))
    if not alike and not orderless:
        return None
    rules = [rule for rule in RULES if rule is not groups_together or not orderless]
    v = make(problem, merge=merge, rules=rules)
    if orderless:
        middle_openings_fall(v)
    search = Search(v, limits)
    _start(search)
    fit = _bounded(search, objective.left_out(v), Fraction(0), held=False)
    if fit.value is None:
        return None
    _lock(v, objective.left_out(v), fit)
    if fit.value == 0:
        enough_tall_openings(v)
    goal = objective.rhythm(v)
    bound = _perfect_falls(search, goal, fit, merge=merge)
    search.improve(goal, search.neighbourhoods(), enough=ceil(bound / goal.unit))
    rhythm = _bounded(search, goal, bound, held=False)
    return None if rhythm.value is None else _Relaxed(search, fit, rhythm)


def _perfect_falls(search: Search, goal: Objective, fit: Found, *, merge: bool) -> Fraction:
    """Bound a graduated rhythm from what marks allow at all, and try the best spacings first.

    Returns the bound [tick]; a layout on the best spacings, if there is one, becomes the
    hint of `search`. Other rhythms are bounded by 0.
    """
    problem = search.v.problem
    if problem.wishes.rhythm != "graduated":
        return Fraction(0)
    falls = {
        c: best_falls(one.shape, problem.wishes.step_least, problem.wishes.step_most)
        for c, one in enumerate(search.v.classes)
    }
    for marks in ({c: f.marks for c, f in falls.items()}, {c: f.near for c, f in falls.items()}):
        v = make(problem, merge=merge)
        _lock(v, objective.left_out(v), fit)
        if fit.value == 0:
            enough_tall_openings(v)
        on_falls(v, marks)
        trial = Search(v, search.limits)
        if trial.feasible(work=FALLS_WORK) is Status.OPTIMAL:
            heights = {
                c: [trial.value(v.height(c, k)) for k in range(one.shape.openings)]
                for c, one in enumerate(v.classes)
            }
            search.adopt(trial, goal, objective.fall_values(search.v, heights))
            break
    if not all(found.proven for found in falls.values()):
        return Fraction(0)
    return sum((search.v.classes[c].times * f.score for c, f in falls.items()), Fraction(0))


def marks_by_bay(search: Search) -> dict[tuple[int, int], int]:
    """Return the mark of every shelf by (bay, shelf), in marking steps."""
    v = search.v
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


def _full(
    problem: LayoutProblem,
    limits: Limits,
    stages: dict[str, Found],
    relaxed: _Relaxed | None,
    marks: Mapping[tuple[int, int], int] | None,
) -> Search | None:
    """Fit and rhythm bay by bay; None where nothing was found.

    With `marks` (by bay) held, bounds come from the relaxation alone.
    """
    held = marks is not None
    v = make(problem, merge=False, marks=marks_by_class(problem, marks))
    search = Search(v, limits)
    if relaxed is not None and not relaxed.several:
        search.hint(relaxed.search)
    else:
        _start(search, marks)
    left = objective.left_out(v)
    stages["fit"] = _bounded(search, left, relaxed.fit.bound if relaxed else Fraction(0), held)
    if stages["fit"].value is None or (held and not stages["fit"].proven):
        return None
    _lock(v, left, stages["fit"])
    if stages["fit"].value == 0 and not held:
        enough_tall_openings(v)
    rhythm = objective.rhythm(v)
    same = relaxed is not None and relaxed.fit.value == stages["fit"].value
    bound = relaxed.rhythm.bound if relaxed is not None and same else Fraction(0)
    if not held:
        bound = max(bound, _perfect_falls(search, rhythm, stages["fit"], merge=False))
    if not held:
        enough = ceil(bound / rhythm.unit)
        search.improve(rhythm, search.neighbourhoods(), enough=enough)
    stages["rhythm"] = _bounded(search, rhythm, bound, held)
    if stages["rhythm"].value is not None:  # else the limit came first: what fits is kept
        _lock(v, rhythm, stages["rhythm"], problem.wishes.rhythm_slack)
    return search


def _bounded(search: Search, goal: Objective, bound: Fraction, held: bool) -> Found:
    """Minimise a goal that is known to be at least `bound`; with marks held only that is proven."""
    floor = ceil(bound / goal.unit)
    if bound > 0:
        search.v.model.add(goal.expression >= floor)
    if search.complete and search.value(goal.expression) <= floor:  # already as good as can be
        return Found(Status.OPTIMAL, goal.unit * floor, goal.unit * floor, floor, goal.exact)
    found = search.minimise(goal)
    best = bound if held else max(found.bound, bound)
    return replace(found, bound=best if found.value is None else min(best, found.value))


def marks_by_class(
    problem: LayoutProblem, marks: Mapping[tuple[int, int], int] | None
) -> dict[tuple[int, int], int] | None:
    """Marks by bay as marks by class of a model that takes each bay by itself."""
    if marks is None:
        return None
    home = {one.bays[0]: c for c, one in enumerate(classes_of(problem, merge=False))}
    return {(home[bay], shelf): mark for (bay, shelf), mark in marks.items()}
