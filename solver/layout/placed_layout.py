"""Every opening in its place: what stands together, with the tallest opening lowest.

The bounds of the relaxation are tried all at once first, bays alike taken together and then
divided (:func:`divided`). Only where that does not do are the stages settled one after another:
with the tallest opening lowest, and where another order might do better, with any order.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import partial

from solver.layout.by_rule import Layout
from solver.layout.constraints import new_model, openings_fall
from solver.layout.layout_problem import LayoutProblem
from solver.layout.relaxation import Relaxed, all_placed, started_from
from solver.layout.rhythm_stage import Bounds, settle_rhythm
from solver.layout.stage_search import Found, Search
from solver.layout.stages import (
    FIT,
    ORDERLESS,
    Reached,
    asked_for,
    goal_of,
    orderless_of,
    run,
    trivial_floor,
)
from solver.layout.variables import LayoutVariables
from solver.outcome import Limits, Status, Verdict

AT_ONCE_WORK = 1.0
"""Deterministic work for a look whether a layout meets all bounds of the relaxation at once [-]."""
ZERO = Found(Status.OPTIMAL, Fraction(0), Fraction(0), 0)


@dataclass
class Placed:
    """A model of every opening in its place, settled as far as `rises`.

    Attributes
    ----------
    rhythm
        What is known of the rhythm.
    infeasible
        Whether no shelf positions at all are allowed.
    """

    search: Search
    reached: Reached
    rhythm: Bounds = field(default_factory=Bounds)
    infeasible: bool = False


def place(
    problem: LayoutProblem, bounds: Relaxed, limits: Limits, start: Layout | None = None
) -> Placed:
    """Settle what stands together, with the tallest opening lowest where that costs nothing.

    `start` is a layout to begin at, in a large problem.
    """
    hints: Mapping[str, int] = {}
    if bounds.fits is Verdict.YES:
        placed, hints = _at_bounds(problem, bounds, limits)
        if placed is not None:
            return placed
    if not falls(problem):
        return _stage_by_stage(problem, bounds, limits, hints, start, fall=False)
    falling = _stage_by_stage(problem, bounds, limits, hints, start, fall=True)
    if falling.search.solution is None:
        return _stage_by_stage(problem, bounds, limits, hints, start, fall=False)
    return _better(problem, bounds, falling, limits) or falling


def _better(
    problem: LayoutProblem, bounds: Relaxed, falling: Placed, limits: Limits
) -> Placed | None:
    """A layout with another order of openings that is better in a stage, if there is one.

    Else what is proven of the falling one is written down in it.
    """
    search, found = Search(new_model(problem), limits), falling.reached.found
    names = [name for name in found if name != "rises"]
    if not any(name in FIT for name in names):
        all_placed(search.v)
    search.suggest(falling.search.values())
    bounded = True
    for i, name in enumerate(names):
        one, goal = found[name], goal_of(search.v, name)
        if one.raw is None:
            return None
        floor = bounds.reached.floor(name) if bounded else 0
        floor = min(one.raw, max(floor, trivial_floor(search.v, name)))
        if one.raw > floor:
            with search.aside():
                search.hold(goal, one.raw - 1)
                verdict = search.feasible()
            if verdict is Verdict.YES:
                return _another_order(search, names[i:], bounds, falling)
            floor = one.raw if verdict is Verdict.NO else floor
        met = Status.OPTIMAL if one.raw <= floor else Status.FEASIBLE
        found[name] = replace(one, bound=goal.unit * floor, status=met)
        search.hold(goal, one.raw)
        most = bounds.reached.most(name)
        bounded = bounded and most is not None and one.raw <= most
    return None


def _another_order(
    search: Search, names: Sequence[str], bounds: Relaxed, falling: Placed
) -> Placed:
    """Settle the stages from the first on in which another order of the openings is better."""
    found = falling.reached.found
    reached = Reached({name: one for name, one in found.items() if name not in names})
    reached.found.pop("rises", None)
    first = bounds.reached if names[0] == next(iter(found)) else Reached()
    run(search, names, first, reached, None)
    run(search, ("rises",), Reached(), reached, AT_ONCE_WORK)
    return Placed(search, reached)


def falls(problem: LayoutProblem) -> bool:
    """Whether the tallest opening is wished at one end."""
    return problem.wishes.tallest != "any" and problem.wishes.rhythm != "symmetric"


def _at_bounds(
    problem: LayoutProblem, bounds: Relaxed, limits: Limits
) -> tuple[Placed | None, Mapping[str, int]]:
    """A layout that meets all bounds of the relaxation, if there is one; else hints for one."""
    rhythm = Bounds(evenest=bounds.evenest)
    several = any(len(group.bays) > 1 for group in problem.groups)
    if not several:
        return _at_once(problem, bounds, limits, bounds.values, rhythm, merge=False), bounds.values
    if problem.wishes.rhythm == "to-fit":
        return None, {}
    merged = _at_once(problem, bounds, limits, bounds.values, rhythm, merge=True)
    if merged is None:
        return None, {}
    settled = Reached()
    settle_rhythm(merged.search, settled, rhythm)
    wishes = problem.wishes
    free = wishes.steepest is None and (wishes.rhythm != "graduated" or wishes.step is not None)
    # bays one by one may not keep what the client wants of the steps: then the bounds are no more
    floors = {name: int(one.bound or 0) for name, one in settled.found.items() if free}
    hints = divided(problem, bounds.reached, merged.search, limits)
    known = Bounds(floors, rhythm.evenest)
    return _at_once(problem, bounds, limits, hints, known, merge=False), hints


def _at_once(
    problem: LayoutProblem,
    bounds: Relaxed,
    limits: Limits,
    hints: Mapping[str, int],
    rhythm: Bounds,
    *,
    merge: bool,
) -> Placed | None:
    """A layout that leaves nothing out and meets all bounds of the relaxation, if there is one."""
    search = Search(new_model(problem, merge=merge), limits)
    all_placed(search.v)
    reached = Reached()
    for name in asked_for(problem):
        if merge and name not in ORDERLESS:
            continue
        one = bounds.reached.found.get(name, ZERO)
        if one.raw is None:
            return None
        search.hold(goal_of(search.v, name), one.raw)
        reached.found[name] = one
    _fall(search.v, reached)
    search.suggest(hints)
    if search.feasible(work=AT_ONCE_WORK) is not Verdict.YES:
        return None
    return Placed(search, reached, rhythm)


def _fall(v: LayoutVariables, reached: Reached) -> None:
    """Hold the tallest opening lowest, where that is wished."""
    if falls(v.problem):
        openings_fall(v, top=v.problem.wishes.tallest == "top")
        reached.found["rises"] = ZERO


def divided(
    problem: LayoutProblem, bounds: Reached | None, merged: Search, limits: Limits
) -> Mapping[str, int]:
    """Divide what stands in openings of bays taken together over the bays, the marks held.

    Opening by opening first; where that cannot be, things may change from opening to opening.
    Without `bounds` any division will do. Returns values for a model of single bays, by name.
    """
    held = merged.marks()
    for kept in (True, False):
        search = Search(new_model(problem, marks=held), limits)
        all_placed(search.v)
        if kept:
            _as_merged(search.v, merged)
        names = orderless_of(problem)
        if search.feasible(work=AT_ONCE_WORK) is Verdict.YES:
            if bounds is not None:
                run(search, names, bounds, Reached(), AT_ONCE_WORK)
            break
    lines = {
        f"line[group={one.group},line={shelf}]": held[one.bays[0], shelf] + one.shape.line
        for one in search.v.classes
        for shelf in range(1, one.shape.shelves + 1)
    }
    return search.values() | lines


def _as_merged(v: LayoutVariables, merged: Search) -> None:
    """In each opening stands what does in that of the bays taken together."""
    for c, k in merged.v.openings():
        for form, places in merged.v.places(c, k).items():
            there = [v.places(v.home[bay], k).get(form, 0) for bay in merged.v.classes[c].bays]
            v.model.add(sum(there) == merged.value(places))


def _stage_by_stage(
    problem: LayoutProblem,
    bounds: Relaxed,
    limits: Limits,
    hints: Mapping[str, int],
    start: Layout | None,
    *,
    fall: bool,
) -> Placed:
    """Settle stage after stage; a tall opening above a lower one only where `fall` is False."""
    names, reached = asked_for(problem), Reached()
    begin = partial(_started, problem, limits, hints, start, reached, fall=fall)
    search = begin(leave=False)
    verdict = Verdict.NO if bounds.fits is Verdict.NO else search.feasible()
    if verdict is not Verdict.YES:
        search = begin(leave=True)
        verdict = search.feasible()
        names = (*FIT, *names)
    placed = Placed(search, reached, infeasible=verdict is Verdict.NO)
    if verdict is not Verdict.YES:
        return placed
    run(search, names, bounds.reached, reached, None)
    if not fall and falls(problem):
        run(search, ("rises",), Reached(), reached, AT_ONCE_WORK)
    return placed


def _started(
    problem: LayoutProblem,
    limits: Limits,
    hints: Mapping[str, int],
    start: Layout | None,
    reached: Reached,
    *,
    fall: bool,
    leave: bool,
) -> Search:
    search = Search(new_model(problem), limits)
    if not leave:
        all_placed(search.v)
    if fall:
        _fall(search.v, reached)
    started_from(search, start)
    if hints:
        search.suggest(hints)
    return search
