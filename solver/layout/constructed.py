"""Layouts for where the time is up before anything better is found: by rule, or any at all."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from solver.layout import objective
from solver.layout.counting import enough_openings
from solver.layout.model import make
from solver.layout.objective import Objective
from solver.layout.search import Found, Search
from solver.layout.shapes import LayoutProblem
from solver.layout.start import SMALLEST, start_values
from solver.outcome import Limits, Status

RHYTHM_WORK = 1.0
"""Work for the rhythm of a layout that is wanted at once [CP-SAT units]."""


@dataclass(frozen=True)
class Constructed:
    """A large model at a layout by construction, and its rhythm."""

    search: Search
    rhythm: Objective

    def stages(self, left: int | None, bound: Fraction) -> dict[str, Found]:
        """Return fit and rhythm of it, bounded by what was proven meanwhile.

        `left` things left out are proven the fewest, if not None; with so many gone, no rhythm
        is below `bound` [tick].
        """
        fit = _reached(self.search, objective.left_out(self.search.v), Fraction(left or 0))
        known = fit.proven and left is not None
        rhythm = _reached(self.search, self.rhythm, bound if known else Fraction(0))
        return {"fit": fit, "rhythm": rhythm}


def by_construction(problem: LayoutProblem, limits: Limits) -> Constructed | None:
    """Stand everything up by rule.

    None for small models, which find their own at once, and where the rule does not do.
    """
    forms = sum(len(kind.forms) for kind in problem.kinds)
    if forms * sum(shape.openings for shape in problem.bays) < SMALLEST:
        return None
    v = make(problem, merge=False)
    search = Search(v, limits)
    start(search)
    goal = objective.rhythm(v)
    if search.solution is None or not search.adopt(search, goal, {}):
        return None
    return Constructed(search, goal)


def anyhow(problem: LayoutProblem, limits: Limits) -> Constructed | None:
    """Find any layout in which everything fits, where it was stopped before the first one.

    It is not stopped with the rest, but has the seconds of grace; a little of it goes into a
    better rhythm than that of the first one.
    """
    if not limits.grace or not limits.stopper.stopped:
        return None
    v = make(problem, merge=False)
    for left in v.left.values():
        v.model.add(left == 0)
    enough_openings(v, 0)
    search = Search(v, Limits(limits.seed, seconds=limits.grace))
    if search.feasible() is not Status.OPTIMAL:
        return None
    goal = objective.rhythm(v)
    search.adopt(search, goal, {})
    search.minimise(goal, work=RHYTHM_WORK)
    search.limits = limits
    return Constructed(search, goal)


def start(search: Search, marks: Mapping[tuple[int, int], int] | None = None) -> None:
    """Let a large model start from a layout by construction, if there is one."""
    values = start_values(search.v, marks)
    if values is not None:
        search.take(objective.left_out(search.v), values)


def _reached(search: Search, goal: Objective, bound: Fraction) -> Found:
    """What a search has come to, and what it is not below."""
    raw = search.value(goal.expression)
    value = goal.unit * raw
    status = Status.OPTIMAL if value <= bound else Status.FEASIBLE
    return Found(status, value, min(bound, value), raw, goal.exact)
