"""Which things to leave out: the fewest, and of those choices the one that loses least."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from solver.layout.counting import enough_openings
from solver.layout.model import make
from solver.layout.objective import Objective
from solver.layout.search import Search
from solver.layout.shapes import LayoutProblem
from solver.layout.size import too_large
from solver.layout.solve import LayoutAnswer
from solver.outcome import Limits
from solver.plan import Change

WORK = 2.0
"""Deterministic work for the choice that loses least."""
AREA = 320 * 320
"""Square ticks in a unit of what is lost to the eye, a square millimetre."""


def leaving_out(problem: LayoutProblem, answer: LayoutAnswer, limits: Limits) -> tuple[Change, ...]:
    """Return what to leave out so that the rest fits: as few things as can be.

    First the choice that loses least to the eye (width times height), then, where it is
    another one, that of the layout shown. Fewer are proven not to do where stage 1 is proven.
    """
    shown = {k: count for k, count in answer.left.items() if count}
    proven = answer.stages["fit"].proven
    least, sure = _least_loss(problem, sum(shown.values()), limits)
    choices = [(least, proven and sure), (shown, proven)] if least else [(shown, proven)]
    if len(choices) == 2 and choices[0][0] == shown:
        choices = choices[:1]
    return tuple(_change(problem, left, proven=fewest) for left, fewest in choices)


def _least_loss(problem: LayoutProblem, count: int, limits: Limits) -> tuple[dict[int, int], bool]:
    """What loses least with `count` things left out; nothing where it was not found."""
    if too_large(problem, limits):
        return {}, False
    v = make(problem, merge=False)
    v.model.add(sum(v.left.values()) <= count)
    enough_openings(v, count)
    search = Search(v, limits)
    lost = sum(_area(problem, k) * left for k, left in v.left.items())
    found = search.minimise(Objective(lost, Fraction(1)), work=WORK)
    if found.value is None:
        return {}, False
    left = {k: search.value(variable) for k, variable in v.left.items()}
    return {k: number for k, number in left.items() if number}, found.proven


def _area(problem: LayoutProblem, kind: int) -> int:
    width, height, _ = problem.kinds[kind].forms[0].size
    return max(1, width * height // AREA)


def _change(problem: LayoutProblem, left: Mapping[int, int], *, proven: bool) -> Change:
    leaves = {problem.kinds[k].name: count for k, count in left.items()}
    named = ", ".join(f"{count} x {name}" for name, count in leaves.items())
    return Change(what="leave out", leaves=leaves, text=f"leave out {named}", proven=proven)
