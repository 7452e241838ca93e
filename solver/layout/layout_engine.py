"""Solving one layout: which wish comes when, and what is carried from one to the next."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import ceil

from solver.layout import objective
from solver.layout.constraints import (
    RULES,
    groups_together,
    middle_openings_fall,
)
from solver.layout.constructive import by_construction
from solver.layout.counting_cuts import enough_openings
from solver.layout.fit import fewest_left
from solver.layout.graduated_spacings import BestSpacings, spacings_of
from solver.layout.incumbent import NOTHING, Settled, any_layout
from solver.layout.later_stages import ORDERLESS, Later, marks_found
from solver.layout.layout_problem import LayoutProblem, Place, large, too_large
from solver.layout.master_problem import best_rhythm, ways_to_take
from solver.layout.objective import Objective
from solver.layout.stage_search import Found, Search, make, marks_by_bay, marks_by_class
from solver.layout.variables import LayoutVariables, classes_of
from solver.layout.warm_start import start
from solver.outcome import Limits, Status, Verdict
from solver.units import Ticks

LAYOUT_SHARE = 0.8
"""Share of the time left that a large layout may take: cuts, strength and papers come after [-]."""
RULE_SHARE = 0.3
"""Share of the time left for standing things up by rule [-]."""
GRADUATED_WAYS = 8
"""Ways of using shared lines for which graduated marks are chosen one way after another [-]."""


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


def solve_layout(problem: LayoutProblem, limits: Limits) -> LayoutAnswer:
    """Decide shelf positions and what stands where, in the order of wishes.

    Fit and rhythm are decided first; the later wishes move the marks no more than nobody
    sees, and things from opening to opening.
    """
    if large(problem):
        limits = limits.until(LAYOUT_SHARE)
    settled = settle_marks(problem, limits)
    layout = settled.layout
    if layout is None:
        return LayoutAnswer(settled.status, stages=settled.stages)
    later = Later(problem, limits, layout, settled.stages, settled.search)
    later.even_headroom()
    later.order()
    later.wishes()
    return LayoutAnswer(
        settled.status, later.marks, later.standing.places(), later.left, settled.stages
    )


def settle_marks(problem: LayoutProblem, limits: Limits) -> Settled:
    """Fit and rhythm, with the marks free.

    Where the rhythm is one of the marks alone, these come first
    (:mod:`solver.layout.master_problem`). Else, or where that is not settled, a relaxation does:
    bays alike taken together, and where the order of openings does not matter, tallest first and
    groups disregarded. Its values bound the true ones, and mostly the model of all bays then meets
    them at once.

    A large problem is stood up by rule before, and that is the answer where nothing better is
    found by models, or these are too large for the time that is left. A small one is only where
    the time is up before a model says anything.
    """
    if not large(problem):
        settled = _by_models(problem, limits)
        if settled.status is not Status.UNKNOWN:
            return settled
        if limits.stopper.stopped:
            return any_layout(problem, limits) or settled
        return settled.or_by_rule(problem, by_construction(problem, limits))
    started = by_construction(problem, limits.until(RULE_SHARE))
    if too_large(problem, limits):
        return Settled(Status.UNKNOWN, {"fit": NOTHING}).or_by_rule(problem, started)
    return _by_models(problem, limits).or_by_rule(problem, started)


def _by_models(problem: LayoutProblem, limits: Limits) -> Settled:
    stages: dict[str, Found] = {}
    first = _marks_first(problem, limits)
    if first.stood is not None and first.status is Status.OPTIMAL:
        search = _taken_over(problem, limits, first, stages)
        if search is not None:
            return Settled(Status.OPTIMAL, stages, search)
    if too_large(problem, limits):  # by now
        stages["fit"] = replace(NOTHING, bound=Fraction(first.left or 0))
        return Settled(Status.UNKNOWN, stages)
    search, relaxed = None, _relaxation(problem, limits, first)
    if relaxed is not None and relaxed.several:
        marks = marks_by_bay(relaxed.search)
        search = _full(problem, limits, stages, relaxed, marks, first.left)
    if search is None:
        search = _full(problem, limits, stages, relaxed, None, first.left)
    if search is None:
        return Settled(stages["fit"].status, stages)
    status = Status.OPTIMAL if stages["fit"].proven and stages["rhythm"].proven else Status.FEASIBLE
    return Settled(status, stages, search)


@dataclass(frozen=True)
class _First:
    """What the marks alone said: `left` things left out are proven the fewest, if not None."""

    status: Status = Status.UNKNOWN
    left: int | None = None
    rhythm: Found | None = None
    bound: Fraction = Fraction(0)
    stood: Search | None = None


def _marks_first(problem: LayoutProblem, limits: Limits) -> _First:
    """Choose the best marks on which as few things as possible are left out.

    Graduated marks that are all free are better chosen from the best falls.
    """
    orderless = problem.wishes.rhythm in ORDERLESS
    if problem.wishes.rhythm == "to-fit":
        return _First()
    if problem.wishes.rhythm == "graduated":
        ways = len(ways_to_take(problem, orderless=orderless))
        if not 1 < ways <= GRADUATED_WAYS:
            return _First()
    left, bared = 0, best_rhythm(problem, limits, 0, orderless=orderless)
    if bared.status is Status.INFEASIBLE:
        fewest = fewest_left(problem, limits, Verdict.NO)
        if fewest.count is None or fewest.count != fewest.bound:
            return _First()
        left, bared = fewest.count, best_rhythm(problem, limits, fewest.count, orderless=orderless)
    known = left if left or bared.stood is not None else None
    return _First(bared.status, known, bared.rhythm, bared.bound, bared.stood)


def _taken_over(
    problem: LayoutProblem, limits: Limits, first: _First, stages: dict[str, Found]
) -> Search | None:
    """Return a search of the whole model at the layout found, fit and rhythm held."""
    assert first.stood is not None
    assert first.rhythm is not None
    assert first.left is not None
    v = make(problem, merge=False)
    search, rhythm, left = Search(v, limits), objective.rhythm(v), Fraction(first.left)
    found = Found(Status.OPTIMAL, left, left, first.left)
    _lock(v, objective.left_out(v), found)
    if not search.adopt(first.stood, rhythm, v.mark_values(marks_found(first.stood))):
        return None
    enough_openings(v, first.left)
    stages["fit"], stages["rhythm"] = found, first.rhythm
    held = replace(first.rhythm, raw=search.value(rhythm.expression))
    _lock(v, rhythm, held, problem.wishes.rhythm_slack)
    return search


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


def _relaxation(problem: LayoutProblem, limits: Limits, first: _First) -> _Relaxed | None:
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
    if first.left is not None:
        enough_openings(v, first.left)
    search = Search(v, limits)
    start(search)
    falls = spacings_of(problem, limits, merge=merge)
    fit = _fit(search, falls, Fraction(first.left or 0), held=False)
    if fit.raw is None:
        return None
    _lock(v, objective.left_out(v), fit)
    if first.left is None:
        enough_openings(v, fit.raw)
    goal = objective.rhythm(v)
    bound = _on_falls(search, falls, goal, fit.raw)
    if search.solution is None:
        return None
    if fit.raw == (first.left or 0):
        bound = max(bound, first.bound)
    search.improve(goal, search.neighbourhoods(), enough=ceil(bound / goal.unit))
    rhythm = _bounded(search, goal, bound, held=False)
    return None if rhythm.value is None else _Relaxed(search, fit, rhythm)


def _fit(search: Search, falls: BestSpacings | None, fewest: Fraction, held: bool) -> Found:
    """Fewest things left out; found without a search of its own where all fits on the falls."""
    if falls is not None and not fewest and not search.complete and falls.fit_all():
        return Found(Status.OPTIMAL, fewest, fewest, 0)
    return _bounded(search, objective.left_out(search.v), fewest, held)


def _on_falls(search: Search, falls: BestSpacings | None, goal: Objective, left: int) -> Fraction:
    """Try the best falls first; return the bound of the rhythm that follows from them [tick].

    Where the fit was found on them alone and they are not taken, the search is made up for.
    """
    if falls is None:
        return Fraction(0)
    falls.suggest(search, goal, left)
    if search.solution is None:
        search.feasible()
    return falls.bound


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
    left: int | None,
) -> Search | None:
    """Fit and rhythm bay by bay; None where nothing was found.

    With `marks` (by bay) held, bounds come from the relaxation alone.
    """
    held = marks is not None
    v = make(problem, merge=False, marks=marks_by_class(problem, marks))
    if left is not None and not held:
        enough_openings(v, left)
    search = Search(v, limits)
    if relaxed is not None and not relaxed.several:
        search.hint(relaxed.search)
    else:
        start(search, marks)
    falls, fewest = None if held else spacings_of(problem, limits, merge=False), Fraction(left or 0)
    fewest = max(fewest, relaxed.fit.bound) if relaxed else fewest
    fit = stages["fit"] = _fit(search, falls, fewest, held)
    if fit.raw is None or (held and not fit.proven):
        return None
    _lock(v, objective.left_out(v), fit)
    if left is None and not held:
        enough_openings(v, fit.raw)
    rhythm = objective.rhythm(v)
    if search.solution is not None:
        search.adopt(search, rhythm, {})  # its value, before anything else is tried
    same = relaxed is not None and relaxed.fit.value == fit.value
    bound = relaxed.rhythm.bound if relaxed is not None and same else Fraction(0)
    bound = max(bound, _on_falls(search, falls, rhythm, fit.raw))
    if search.solution is None:
        stages["fit"] = Found(Status.UNKNOWN, None, fit.bound, None)
        return None
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
