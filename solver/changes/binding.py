"""Which limits keep things out: each is taken away in turn, and the fit is asked again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations

from solver.changes.trials import Fitter
from solver.layout.layout_problem import LayoutProblem
from solver.layout.taken_away import felt, without
from solver.outcome import Verdict
from solver.plan.slack_and_advice import Binding, BindingLimit

TOGETHER_MOST = 3
"""Most limits that are told to bind together; beyond, there are several [-]."""


def binding(problem: LayoutProblem, fitter: Fitter) -> tuple[Binding, ...]:
    """Return the limits that keep things out of a problem in which not everything fits.

    Every limit whose removal alone lets everything fit; where none does, the pairs that do, then
    the first three that do. Empty where more bind at once, or it is not settled by the limit.
    """
    names = felt(problem)
    if fitter.asked(without(problem, names)) is not Verdict.YES:
        return ()
    proven = True
    for count in range(1, TOGETHER_MOST + 1):
        sets = combinations(names, count)
        tried = [(some, fitter.asked(without(problem, some))) for some in _within(sets, fitter)]
        found = [some for some, verdict in tried if verdict is Verdict.YES]
        if found:
            return tuple(Binding(limits=some, proven=proven) for some in found)
        proven = proven and all(verdict is Verdict.NO for _, verdict in tried) and not fitter.over
    return ()


def _within(
    sets: Iterable[tuple[BindingLimit, ...]], fitter: Fitter
) -> Iterator[tuple[BindingLimit, ...]]:
    """Yield the sets for as long as anything may be asked."""
    for some in sets:
        if fitter.over:
            return
        yield some
