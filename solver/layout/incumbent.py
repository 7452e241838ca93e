"""The incumbent after the first stages: the better of models and rule, or any layout at all."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from solver.layout import objective
from solver.layout.arithmetic_bounds import least_left, least_rhythm
from solver.layout.arrangement import Marks, Places
from solver.layout.constructive import Constructed
from solver.layout.counting_cuts import leave_out_at_most
from solver.layout.later_stages import marks_found, places_found
from solver.layout.layout_problem import LayoutProblem
from solver.layout.stage_search import Found, Search, make
from solver.outcome import Limits, Status, Verdict

NOTHING = Found(Status.UNKNOWN, None, Fraction(0), None)
"""A stage of which nothing is known."""


@dataclass
class Settled:
    """The first stages' result: a search whose solution has the marks, or a layout by rule."""

    status: Status
    stages: dict[str, Found]
    search: Search | None = None
    by_rule: Constructed | None = None

    @property
    def layout(self) -> tuple[Marks, Places] | None:
        """Marks and places, if any were found."""
        if self.search is not None:
            return marks_found(self.search), places_found(self.search)
        return None if self.by_rule is None else (self.by_rule.marks, self.by_rule.places)

    def or_by_rule(self, problem: LayoutProblem, other: Constructed | None) -> Settled:
        """Return the better of this and a layout by rule, with the bounds of arithmetic too.

        What was proven by models holds for both; a rhythm only with as few things left out.
        """
        if self.status is Status.INFEASIBLE:
            return self
        fit, rhythm = self.stages["fit"], self.stages.get("rhythm", NOTHING)
        fewest = max(fit.bound, Fraction(least_left(problem)))
        if other is None or (self.search is not None and _reached(self) <= other.reached):
            left, answer = fit.raw, replace(self, stages=dict(self.stages))
        else:
            left, answer = other.left, Settled(Status.FEASIBLE, {}, by_rule=other)
            same = fit.raw == left and rhythm.value is not None and rhythm.exact
            known = rhythm.bound if same else Fraction(0)
            fit = Found(Status.FEASIBLE, Fraction(left), Fraction(0), left)
            rhythm = Found(Status.FEASIBLE, other.rhythm, known, None)
        answer.stages["fit"] = _bounded(fit, fewest)
        if left is not None and rhythm.value is not None:
            answer.stages["rhythm"] = _bounded(rhythm, least_rhythm(problem, left))
        if all(name in answer.stages and answer.stages[name].proven for name in ("fit", "rhythm")):
            answer.status = Status.OPTIMAL
        return answer


def _reached(settled: Settled) -> tuple[int, Fraction]:
    """Things left out and rhythm; far too much of what was not found."""
    fit, rhythm = settled.stages["fit"], settled.stages.get("rhythm", NOTHING)
    far = 1 << 60
    left = far if fit.raw is None else fit.raw
    return left, Fraction(far) if rhythm.value is None else rhythm.value


def _bounded(found: Found, bound: Fraction) -> Found:
    """What was found, not below a bound either, and said to be best where it meets it."""
    bound = max(found.bound, bound)
    bound = bound if found.value is None else min(bound, found.value)
    best = found.exact and found.value is not None and found.value <= bound
    return replace(found, bound=bound, status=Status.OPTIMAL if best else found.status)


RHYTHM_WORK = 1.0
"""Work for the rhythm of a layout that is wanted at once [CP-SAT units]."""


def any_layout(problem: LayoutProblem, limits: Limits) -> Settled | None:
    """Find any layout in which everything fits, where it was stopped before the first one.

    It is not stopped with the rest, but has the seconds of grace; a little of it goes into a
    better rhythm than that of the first one.
    """
    if not limits.grace or not limits.stopper.stopped:
        return None
    v = make(problem, merge=False)
    leave_out_at_most(v, 0)
    search = Search(v, Limits(limits.seed, seconds=limits.grace))
    if search.feasible() is not Verdict.YES:
        return None
    goal, none = objective.rhythm(v), Fraction(0)
    search.adopt(search, goal, {})
    search.minimise(goal, work=RHYTHM_WORK)
    search.limits = limits
    raw = search.value(goal.expression)
    stages = {
        "fit": Found(Status.OPTIMAL, none, none, 0),
        "rhythm": Found(Status.FEASIBLE, goal.unit * raw, none, raw, goal.exact),
    }
    return Settled(Status.FEASIBLE, stages, search)
