"""Cutting around what is there: parts cut down or taken as stock, whichever buys less."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from decimal import Decimal
from typing import TypeAlias

from solver.cutting.answer import SheetAnswer
from solver.cutting.problem import CuttingProblem
from solver.errors import CannotBeDoneError
from solver.job import Job
from solver.outcome import Status
from solver.planning.have import Match, match, with_have
from solver.stocked import Part

Cut: TypeAlias = Callable[[CuttingProblem], SheetAnswer]
Found: TypeAlias = tuple[Match, SheetAnswer]


def cut_around(
    job: Job, material: str, parts: Sequence[Part], problem: CuttingProblem, cut: Cut
) -> Found:
    """Cut the parts of one material with as little new stock as possible.

    The bounds hold however the pieces are used: where parts may be cut down, they are
    those of having all of them as stock, larger by the margin that cutting down does not need.

    Raises
    ------
    CannotBeDoneError
        Where neither way frees all parts.
    """
    down = match(job, material, parts)
    if not down.cuts_down:
        return down, cut(with_have(problem, material, down))
    loose = match(job, material, parts, cut_down=False)
    first, error = _tried(down, material, problem, cut)
    if first is not None and first[1].count == 0:
        return first
    second, _ = _tried(loose, material, problem, cut)
    found = [one for one in (first, second) if one is not None]
    if not found:
        assert error is not None
        raise error
    best = min(found, key=lambda one: _weight(one[1]))
    return best[0], _bounded(best[1], _relaxed(loose, material, problem, cut))


def _tried(
    made: Match, material: str, problem: CuttingProblem, cut: Cut
) -> tuple[Found | None, CannotBeDoneError | None]:
    try:
        return (made, cut(with_have(problem, material, made))), None
    except CannotBeDoneError as error:
        return None, error


def _relaxed(loose: Match, material: str, problem: CuttingProblem, cut: Cut) -> SheetAnswer | None:
    """All pieces as stock, each with room for a margin more: no way to use them beats it."""
    try:
        return cut(with_have(problem, material, loose, problem.margin))
    except CannotBeDoneError:
        return None


def _weight(answer: SheetAnswer) -> tuple[Decimal, int, int]:
    area = sum(s.length * s.width for s in answer.stock if not s.on_hand)
    return answer.cost, area, answer.count


def _bounded(answer: SheetAnswer, relaxed: SheetAnswer | None) -> SheetAnswer:
    """Put the bounds of the relaxed problem on an answer."""
    if relaxed is None:
        return replace(answer, status=Status.FEASIBLE, cost_bound=Decimal("0.00"), count_bound=0)
    bound = min(answer.cost, relaxed.cost_bound)
    met = relaxed.status is Status.OPTIMAL and _weight(relaxed)[:2] == _weight(answer)[:2]
    proven = met or (answer.priced and bound == answer.cost)
    return replace(
        answer,
        status=Status.OPTIMAL if proven else Status.FEASIBLE,
        cost_bound=bound,
        count_bound=min(answer.count, relaxed.count_bound),
    )
