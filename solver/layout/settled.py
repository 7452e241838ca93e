"""What the first stages of a layout came to: by models, or by rule where these are too large."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from solver.layout.arithmetic import least_left, least_rhythm
from solver.layout.constructed import Constructed
from solver.layout.later import marks_found, places_found
from solver.layout.search import Found, Search
from solver.layout.shapes import LayoutProblem
from solver.layout.standing import Marks, Places
from solver.outcome import Status

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
