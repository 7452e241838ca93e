"""Whether as much fits: the question alone, without the wishes about how it looks.

What is left out is a loss: the visible area of the things, by how dear they are to the client.
The relaxation of bays taken together and openings by height (:mod:`solver.layout.relaxation`)
answers most questions by itself: no is proven for every layout, and yes holds where nothing
depends on the order of openings. Else its solution is divided over the bays, and the model of
every opening in its place is asked.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TypeAlias

from solver.layout.bay_classes import can_be_ranked
from solver.layout.by_rule import by_rule, wished
from solver.layout.constraints import new_model, parted_places
from solver.layout.layout_problem import LayoutProblem, large, too_large
from solver.layout.placed_layout import divided
from solver.layout.relaxation import all_placed
from solver.layout.stage_search import Search
from solver.layout.stages import FIT, Reached, run
from solver.layout.wishes import headings_of, left_out
from solver.outcome import Limits, Status, Verdict

Loss: TypeAlias = tuple[int, int, int]
"""Visible area left out, of things that must, should and may stand there [mm2]; less is better
from the first figure on."""
NOTHING: Loss = (0, 0, 0)
MOST_LOSS = 1 << 60
"""More area than any job has [mm2]."""
LOOK_WORK = 0.05
"""Share of the work of the limits that a first look may take [-]."""


@dataclass(frozen=True)
class LeastLoss:
    """The least loss: `loss` found (None: no layout), `bound` proven."""

    status: Status
    loss: Loss | None
    bound: Loss


def fits_within(
    problem: LayoutProblem, loss: Loss, limits: Limits, *, look: bool = False
) -> Verdict:
    """Say whether no more need be left out than `loss` in each of its parts.

    With `look` True it is a first look only, with little work.
    """
    if too_large(problem, limits, merged=True):
        return Verdict.UNSETTLED
    if problem.parted_most is None and _by_rule(problem, limits) <= loss:
        return Verdict.YES
    work = limits.work * LOOK_WORK if look else None
    hints: Mapping[str, int] = {}
    if can_be_ranked(problem):
        ranked = _asked(problem, loss, limits, merge=True, ranked=True)
        verdict = ranked.feasible(work=work)
        if verdict is not Verdict.YES or _orderless(problem):
            return verdict
        hints = ranked.values()
    if _several(problem):
        merged = _asked(problem, loss, limits, merge=True)
        merged.suggest(hints)
        if merged.feasible(work=work) is Verdict.YES:
            hints = divided(problem, None, merged, limits)
    if too_large(problem, limits):
        return Verdict.UNSETTLED
    whole = _asked(problem, loss, limits)
    whole.suggest(hints)
    return whole.feasible(work=work)


def _by_rule(problem: LayoutProblem, limits: Limits) -> tuple[int, ...]:
    """The loss of a large problem's layout by rule; more than any where there is none."""
    layout = by_rule(problem) if large(problem) and not limits.over else None
    return (MOST_LOSS,) if layout is None else wished(problem, layout)[: len(FIT)]


def least_loss(problem: LayoutProblem, limits: Limits, none: Verdict | None = None) -> LeastLoss:
    """Find the least loss; `none` is what is known of leaving nothing out."""
    none = none or fits_within(problem, NOTHING, limits)
    if none is Verdict.YES:
        return LeastLoss(Status.OPTIMAL, NOTHING, NOTHING)
    bounds, hints = Reached(), dict[str, int]()
    if too_large(problem, limits):
        must, should, optional = (*_by_rule(problem, limits), 0, 0)[:3]
        known = None if must == MOST_LOSS else (must, should, optional)
        return LeastLoss(Status.UNKNOWN if known is None else Status.FEASIBLE, known, NOTHING)
    if can_be_ranked(problem):
        ranked = Search(new_model(problem, merge=True, ranked=True), limits)
        run(ranked, FIT, Reached(), bounds, None)
        hints = ranked.values()
    search, found = Search(new_model(problem), limits), Reached()
    search.suggest(hints)
    run(search, FIT, bounds, found, None)
    bound = _loss([bounds.floor(name) for name in FIT])
    if any(one.raw is None for one in found.found.values()) or len(found.found) < len(FIT):
        nowhere = search.feasible() is Verdict.NO
        return LeastLoss(Status.INFEASIBLE if nowhere else Status.UNKNOWN, None, bound)
    loss = _loss([found.most(name) or 0 for name in FIT])
    proven = all(found.found[name].proven for name in FIT)
    return LeastLoss(Status.OPTIMAL if proven else Status.FEASIBLE, loss, loss if proven else bound)


def _loss(parts: list[int]) -> Loss:
    return parts[0], parts[1], parts[2]


def at_most(problem: LayoutProblem, parted: int | None) -> LayoutProblem:
    """The problem with so many places parted at most [-]; None: any number."""
    return replace(problem, parted_most=parted)


def least_parted(problem: LayoutProblem, limits: Limits, loss: Loss) -> tuple[int | None, int]:
    """The fewest places parted with a loss, and a proven bound [-]; None where none was found."""
    bound, hints = 0, dict[str, int]()
    if can_be_ranked(problem):
        ranked = _asked(problem, loss, limits, merge=True, ranked=True)
        found = ranked.minimise(parted_places(ranked.v))
        bound, hints = int(found.bound or 0), ranked.values()
        if found.raw is not None and _orderless(at_most(problem, bound)):
            return found.raw, bound
    if _several(problem):
        merged = _asked(at_most(problem, bound), loss, limits, merge=True)
        merged.suggest(hints)
        if merged.feasible() is Verdict.YES:
            hints = dict(divided(problem, None, merged, limits))
    whole = _asked(problem, loss, limits)
    whole.suggest(hints)
    last = whole.minimise(parted_places(whole.v), floor=bound)
    return last.raw, max(bound, int(last.bound or 0))


def _asked(
    problem: LayoutProblem,
    loss: Loss,
    limits: Limits,
    *,
    merge: bool = False,
    ranked: bool = False,
) -> Search:
    """A search of the model with what is asked held."""
    v = new_model(problem, merge=merge, ranked=ranked)
    search = Search(v, limits)
    if loss == NOTHING:
        all_placed(v)
    else:
        for keep, most in enumerate(loss):
            search.hold(left_out(v, keep), most)
    return search


def _several(problem: LayoutProblem) -> bool:
    return any(len(group.bays) > 1 for group in problem.groups)


def _orderless(problem: LayoutProblem) -> bool:
    """Whether nothing but the heights tells the openings of a bay apart, and no bays share lines.

    A solution of the ranked model is then a layout: its openings are put in their places.
    """
    holding, thin = problem.holding, any(any(shape.thinner) for shape in problem.bays)
    grouped = any(kind.group is not None for kind in problem.kinds)
    counted = problem.parted_most is not None and bool(headings_of(problem))
    held = bool(holding.held) or holding.fixed or holding.stay
    limited = thin and problem.wishes.clear_most is not None
    return not (grouped or counted or held or limited or _several(problem))
