"""Every opening in its place: what stands together, with the tallest opening lowest.

The bounds of the relaxation are tried all at once first, bays alike taken together and then
divided (:func:`divided`). Only where that does not do are the stages settled one after another:
with the tallest opening lowest, and where another order might do better, with any order.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import partial

from solver.layout.by_rule import Layout
from solver.layout.constraints import new_model, openings_fall
from solver.layout.layout_problem import LayoutProblem
from solver.layout.relaxation import Relaxed, all_placed, started_from
from solver.layout.rhythm_stage import Bounds, settle_rhythm
from solver.layout.stage_search import Found, Search
from solver.layout.stages import FIT, Reached, asked_for, goal_of, run
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
    falling = None
    if falls(problem):
        falling = _stage_by_stage(problem, bounds, limits, hints, start, fall=True)
        if falling.search.solution is not None:
            if _meets(falling.reached, bounds.reached):
                return falling
            hints = falling.search.values()
    free = _stage_by_stage(problem, bounds, limits, hints, start, fall=False)
    if free.search.solution is None and falling is not None and falling.search.solution:
        return falling
    return free


def falls(problem: LayoutProblem) -> bool:
    """Whether the tallest opening is wished at one end."""
    return problem.wishes.tallest != "any" and problem.wishes.rhythm != "symmetric"


def _meets(reached: Reached, bounds: Reached) -> bool:
    """Whether every stage is as good as no layout can better."""
    return all(
        one.raw is not None and one.raw <= bounds.floor(name) for name, one in reached.found.items()
    )


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
    floors = {name: int(one.bound or 0) for name, one in settled.found.items()}
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
        if name == "asked" and merge:
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
    problem: LayoutProblem, bounds: Reached, merged: Search, limits: Limits
) -> Mapping[str, int]:
    """Divide what stands in openings of bays taken together over the bays, the marks held.

    Opening by opening first; where that cannot be, things may change from opening to opening.
    Returns values for a model of single bays, variable by name.
    """
    held = merged.marks()
    for kept in (True, False):
        search = Search(new_model(problem, marks=held), limits)
        all_placed(search.v)
        if kept:
            _as_merged(search.v, merged)
        names = tuple(name for name in asked_for(problem) if name != "asked")
        if search.feasible(work=AT_ONCE_WORK) is Verdict.YES:
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
        run(search, ("rises",), Reached(), reached, None)
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
