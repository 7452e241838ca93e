"""Whether as much fits: the question alone, without any rhythm, so with every symmetry used.

For what fits, the order of openings does not matter where no group has to stay together: bays
alike are taken together and openings come tallest first. Where that model has no answer there
is none at all; where nothing was left out of it, its answer holds as well; else its shelf
positions are tried bay by bay.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.layout import objective
from solver.layout.arithmetic_bounds import least_left
from solver.layout.constraints import (
    RULES,
    groups_together,
    middle_openings_fall,
)
from solver.layout.constructive import by_construction
from solver.layout.counting_cuts import enough_openings, leave_out_at_most
from solver.layout.layout_problem import LayoutProblem, large, too_large
from solver.layout.master_problem import ASKED_MOST, MasterProblem, marks_model, unreached
from solver.layout.stage_search import Search, make, marks_by_bay, marks_by_class
from solver.layout.variables import LayoutVariables
from solver.layout.warm_start import start_values
from solver.outcome import Limits, Status, Verdict

FEW = 3
"""How often it is asked at first whether things can stand on the roomiest marks [-]."""
LOOK_WORK = 0.125
"""Share of the work that a first look may take, at the model without bays and groups, at its
marks, and at the whole model [-]."""
AGAIN_WORK = 0.25
"""The same for another look at the whole model [-]."""
LEAST_WORK = 0.5
"""Share of the work that a bound on the fewest things left out may take [-]."""
RULE_SHARE = 0.3
"""Share of the time left for standing things up by rule [-]."""
FITS_MOST = 8
"""Numbers of things left out that are asked about one by one before the least is searched."""


@dataclass(frozen=True)
class FewestLeft:
    """Fewest things left out: `count` found (None: no layout), `bound` proven."""

    status: Status
    count: int | None
    bound: int


def fewest_left(problem: LayoutProblem, limits: Limits, none: Verdict | None = None) -> FewestLeft:
    """Find the fewest things left out: asked about number by number, then searched.

    `none` is what is known of leaving none out, as `fits_within` says it.
    """
    if large(problem):
        stood, sure = by_construction(problem, limits.until(RULE_SHARE)), least_left(problem)
        if stood is not None and (stood.left <= sure or too_large(problem, limits)):
            status = Status.OPTIMAL if stood.left <= sure else Status.FEASIBLE
            return FewestLeft(status, stood.left, sure)
        if too_large(problem, limits):
            return FewestLeft(Status.UNKNOWN, None, sure)
    v = marks_model(problem, problem.things, {}, merge=True, orderless=False)
    least = Search(v, limits).minimise(objective.left_out(v), work=limits.work * LEAST_WORK)
    if least.status is Status.INFEASIBLE:
        return FewestLeft(Status.INFEASIBLE, None, 0)
    bound = max(1 if none is Verdict.NO else 0, int(least.bound))
    for count in range(bound, bound + FITS_MOST):
        verdict = none if none and not count else fits_within(problem, count, limits)
        if verdict is Verdict.YES:
            return FewestLeft(Status.OPTIMAL, count, count)
        if verdict is not Verdict.NO:
            break
        bound = count + 1
    v = make(problem, merge=False)
    goal = objective.left_out(v)
    v.model.add(goal.expression >= bound)
    enough_openings(v)
    found = Search(v, limits).minimise(goal)
    return FewestLeft(found.status, found.raw, max(bound, int(found.bound)))


def fits_within(
    problem: LayoutProblem, count: int, limits: Limits, *, look: bool = False
) -> Verdict:
    """Say whether at most `count` things need be left out; with `look` after first looks only."""
    known = answered_by_rule(problem, count, limits)
    if known is not None:
        return known
    if large(problem) and _started(make(problem, merge=False), count, limits):
        return Verdict.YES
    answers = _asked(problem, count, limits, look=look)
    return next((one for one in answers if one is not Verdict.UNSETTLED), Verdict.UNSETTLED)


def _asked(problem: LayoutProblem, count: int, limits: Limits, *, look: bool) -> Iterator[Verdict]:
    """Ask one model after another, each for a short time before any is asked at length."""
    bared = MasterProblem(problem, limits, count, unreached, orderless=True, listed=True)
    yield _any_marks(bared, FEW)
    yield _looked(_relaxed(problem, count, limits), count, limits.work * LOOK_WORK)
    whole = make(problem, merge=False)
    leave_out_at_most(whole, count)
    whole.linear = 0  # without a linear relaxation things are stood up soonest
    yield Search(whole, limits).feasible(work=limits.work * LOOK_WORK)
    if look:
        return
    yield _any_marks(bared, ASKED_MOST)
    yield Search(whole, limits).feasible(work=limits.work * AGAIN_WORK)
    whole.linear = 1
    yield Search(whole, limits).feasible(work=limits.work)


def _any_marks(bared: MasterProblem, most: int) -> Verdict:
    found = bared.any(most)
    if found.stood is not None:
        return Verdict.YES
    return Verdict.NO if found.status is Status.INFEASIBLE else Verdict.UNSETTLED


def _relaxed(problem: LayoutProblem, count: int, limits: Limits) -> Search:
    """Return a search of the model without bays and groups, `count` things left out at most."""
    rules = [rule for rule in RULES if rule is not groups_together]
    v = make(problem, merge=True, rules=rules)
    middle_openings_fall(v)
    leave_out_at_most(v, count)
    return Search(v, limits)


def _looked(relaxed: Search, count: int, work: float) -> Verdict:
    """Ask the relaxed model, then whether its marks will do bay by bay."""
    problem, verdict = relaxed.v.problem, relaxed.feasible(work=work)
    if verdict is not Verdict.YES or _whole(relaxed.v):
        return verdict
    held = make(problem, merge=False, marks=marks_by_class(problem, marks_by_bay(relaxed)))
    leave_out_at_most(held, count)
    yes = Search(held, relaxed.limits).feasible(work=work) is Verdict.YES
    return Verdict.YES if yes else Verdict.UNSETTLED


def answered_by_rule(problem: LayoutProblem, count: int, limits: Limits) -> Verdict | None:
    """Say of a large problem whether at most `count` things need be left out.

    By rule and by arithmetic; UNSETTLED where its models would be too large, None where they may
    be asked.
    """
    if not large(problem):
        return None
    if limits.over:
        return Verdict.UNSETTLED
    if least_left(problem) > count:
        return Verdict.NO
    stood = by_construction(problem, limits.until(RULE_SHARE))
    if stood is not None and stood.left <= count:
        return Verdict.YES
    return Verdict.UNSETTLED if too_large(problem, limits) else None


def _started(v: LayoutVariables, count: int, limits: Limits) -> bool:
    """Whether a large model has a layout by construction that leaves no more out."""
    values = start_values(v)
    if values is None:
        return False
    left, search = objective.left_out(v), Search(v, limits)
    return search.take(left, values) and search.value(left.expression) <= count


def _whole(v: LayoutVariables) -> bool:
    """Whether the model without bays, groups and held decisions left nothing out."""
    problem = v.problem
    apart = all(one.times == 1 for one in v.classes)
    grouped = any(kind.group is not None for kind in problem.kinds)
    holding = problem.holding
    return apart and not grouped and not (holding.held or holding.fixed or holding.stay)
