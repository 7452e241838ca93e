"""Any layout at all, for where it was stopped before the first one."""

from __future__ import annotations

from fractions import Fraction

from solver.layout import objective
from solver.layout.counting import leave_out_at_most
from solver.layout.model import make
from solver.layout.search import Found, Search
from solver.layout.settled import Settled
from solver.layout.shapes import LayoutProblem
from solver.outcome import Limits, Status, Verdict

RHYTHM_WORK = 1.0
"""Work for the rhythm of a layout that is wanted at once [CP-SAT units]."""


def anyhow(problem: LayoutProblem, limits: Limits) -> Settled | None:
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
