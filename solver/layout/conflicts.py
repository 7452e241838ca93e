"""What a held decision collides with, and where it could be held instead."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from solver.layout.constraints import new_model
from solver.layout.fit import NOTHING, fits_within
from solver.layout.goal import Goal
from solver.layout.layout_problem import (
    EmptyHeld,
    Holding,
    LayoutProblem,
    MarkHeld,
    Spot,
    ThingsHeld,
)
from solver.layout.stage_search import Search
from solver.layout.variables import LayoutVariables
from solver.outcome import Limits, Status, Verdict

WORK = 0.5
"""Deterministic work for each look."""

Held: TypeAlias = MarkHeld | ThingsHeld | EmptyHeld
Claim: TypeAlias = Held | int
"""Something that may be in the way: another hold, or a kind of thing that must find a place."""


@dataclass(frozen=True)
class Conflict:
    """Claims that a held decision collides with; `least`: without any one of them it holds."""

    claims: tuple[Claim, ...]
    least: bool


def with_held(problem: LayoutProblem, held: Sequence[Held]) -> LayoutProblem:
    """Return the problem with these holds only, and no layout before."""
    return replace(problem, holding=Holding(tuple(held)))


def fits(problem: LayoutProblem, held: Sequence[Held], limits: Limits) -> Verdict:
    """Say whether everything fits with these holds."""
    return fits_within(with_held(problem, held), NOTHING, replace(limits, work=WORK))


def fewest_held(problem: LayoutProblem, held: Sequence[Held], limits: Limits) -> list[Held]:
    """The holds that do not go together: without any one of them, the others would.

    Later ones are kept where there is a choice: the last wish is the one to be explained.
    """
    kept = list(held)
    for one in held:
        fewer = [other for other in kept if other is not one]
        if fits(problem, fewer, limits) is Verdict.NO:
            kept = fewer
    return kept


def conflict(
    problem: LayoutProblem, wish: Held, others: Sequence[Held], limits: Limits
) -> Conflict:
    """Find a least set of other holds and kinds that `wish` collides with.

    A first proof names the claims it used; then each is taken out in turn and stays out
    where the rest still collides.
    """
    claims: list[Claim] = [*others, *range(len(problem.kinds))]
    _, used = _goes(problem, wish, claims, limits)
    kept, least = used, True
    for claim in used:
        fewer = [other for other in kept if other != claim]
        verdict, core = _goes(problem, wish, fewer, limits)
        if verdict is Verdict.NO:
            kept = [one for one in fewer if one in core]
        least = least and verdict is not Verdict.UNSETTLED
    return Conflict(tuple(kept), least)


def _goes(
    problem: LayoutProblem, wish: Held, claims: Sequence[Claim], limits: Limits
) -> tuple[Verdict, list[Claim]]:
    """Whether a wish goes with the claims, and where not, the claims that the proof used."""
    holds = [claim for claim in claims if not isinstance(claim, int)]
    v = new_model(with_held(problem, [wish, *holds]))
    literals = {}
    for claim in claims:
        if isinstance(claim, int):
            literal = v.model.new_bool_var(f"all placed[kind={claim}]")
            v.model.add(v.left[claim] == 0).only_enforce_if(literal)
            literals[literal.index] = claim
            v.model.add_assumption(literal)
    search = Search(v, limits)
    verdict = search.feasible(work=WORK)
    if verdict is not Verdict.NO:
        return verdict, list(claims)
    core = {literals[index] for index in search.core if index in literals}
    return verdict, [claim for claim in claims if not isinstance(claim, int) or claim in core]


def nearest_marks(
    problem: LayoutProblem, wish: MarkHeld, others: Sequence[Held], limits: Limits
) -> tuple[int | None, int | None, bool]:
    """The nearest marks below and above that work with the other holds, and whether proven."""
    below, first = _nearest(problem, wish, others, limits, way=-1)
    above, second = _nearest(problem, wish, others, limits, way=1)
    return below, above, first and second


def _nearest(
    problem: LayoutProblem, wish: MarkHeld, others: Sequence[Held], limits: Limits, *, way: int
) -> tuple[int | None, bool]:
    if wish.bay < 0 or wish.shelf > problem.bays[wish.bay].shelves:
        return None, True
    v = _all_placed(problem, others)
    away = way * (v.mark(v.home[wish.bay], wish.shelf) - wish.mark)
    v.model.add(away >= 0)
    search = Search(v, limits)
    found = search.minimise(Goal(away))
    if found.raw is None:
        return None, found.status is Status.INFEASIBLE
    return wish.mark + way * found.raw, found.proven


def openings_instead(
    problem: LayoutProblem, wish: ThingsHeld | EmptyHeld, others: Sequence[Held], limits: Limits
) -> tuple[tuple[Spot, ...], bool]:
    """The openings that would do with the other holds, and whether all is settled."""
    found, settled = [], True
    for bay, shape in enumerate(problem.bays):
        for opening in range(shape.openings):
            instead = (
                EmptyHeld(bay, opening)
                if isinstance(wish, EmptyHeld)
                else replace(wish, openings=((bay, opening),))
            )
            verdict = fits(problem, [*others, instead], limits)
            settled = settled and verdict is not Verdict.UNSETTLED
            if verdict is Verdict.YES:
                found.append((bay, opening))
    return tuple(found), settled


def _all_placed(problem: LayoutProblem, held: Sequence[Held]) -> LayoutVariables:
    v = new_model(with_held(problem, held))
    for left in v.left.values():
        v.model.add(left == 0)
    return v


def left_of_added(
    problem: LayoutProblem, added: Mapping[int, int], limits: Limits
) -> dict[int, int] | None:
    """How many of the things added, by kind, find no place at least, all others having theirs.

    None where nothing was found by the limit.
    """
    v = new_model(with_held(problem, problem.holding.held))
    for kind, left in v.left.items():
        v.model.add(left <= added.get(kind, 0))
    search = Search(v, limits)
    if search.minimise(Goal(sum(v.left.values()))).raw is None:
        return None
    return {kind: search.value(left) for kind, left in v.left.items() if search.value(left)}
