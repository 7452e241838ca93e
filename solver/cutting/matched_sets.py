"""Matched sets, as a wish: all parts of a set from one sheet, in sequence.

The list is cut once without the wish, then with each set as one block: end to end, side by
side, or in rows. The block is taken apart on its sheet. Sets that cost nothing more are granted, as
many as go together; for the others the plan says what they would cost. The bounds stay
those of the list without the wish.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from typing import Literal, TypeAlias

from solver.cutting.cutting_answer import SheetAnswer
from solver.cutting.cutting_problem import CutPart, CuttingProblem, FirstCut
from solver.cutting.set_blocks import (
    SetBlock,
    block_choices,
    blocked,
    blocks_by_name,
    keeps_stages,
    taken_apart,
)
from solver.cutting.solve_sheets import solve_cutting
from solver.errors import CannotBeDoneError
from solver.outcome import Limits, Status
from solver.plan.stocked import MatchedSet, Sheet

Weight: TypeAlias = tuple[Decimal | int, int]
"""Price, or area where prices are missing; then the number of sheets."""

BASE_SHARE, TRIAL_SHARE = 1 / 2, 1 / 4
"""Shares of the time left that the list without the wish, and each trial, may take [-]."""
TRIAL_WORK = 1 / 4
"""Share of the work that each trial may do [-]."""

TOO_LARGE = "no sheet takes all of them beside each other"
STAGES = "the stages of cuts allowed do not free them beside each other"
NO_TIME = "the time limit came first"


@dataclass(frozen=True)
class Matched:
    """The answer, and whether each set is granted; sheets are numbered from 1 in the answer."""

    answer: SheetAnswer
    sets: tuple[MatchedSet, ...]


def sets_of(problem: CuttingProblem) -> dict[str, list[CutPart]]:
    """Return the parts of each set in the order of the list."""
    sets: dict[str, list[CutPart]] = {}
    for part in problem.parts:
        if part.set is not None:
            sets.setdefault(part.set, []).append(part)
    return sets


def solve_matched(
    problem: CuttingProblem, limits: Limits, base: SheetAnswer | None = None
) -> Matched:
    """Cut all parts at the least price, with as many matched sets as cost nothing more.

    Parameters
    ----------
    problem
        Parts name their set in `set`.
    limits
        Of everything together; without sets the engine has all of it.
    base
        The answer without the wish, where it is known.

    Raises
    ------
    CannotBeDoneError
        As :func:`solver.cutting.solve_sheets.solve_cutting`.
    """
    wished = sets_of(problem)
    if base is None:
        base = solve_cutting(problem, _share(limits, BASE_SHARE) if wished else limits)
    rows = {name: parts for name, parts in wished.items() if len(parts) > 1}
    granting = _Granting(_Trials(problem, base, limits), rows)
    answer = granting.settle()
    return Matched(answer, tuple(_outcome(granting, answer, n, p) for n, p in wished.items()))


def _share(limits: Limits, share: float, work: float = 1.0) -> Limits:
    return Limits(limits.seed, limits.work * work, limits.seconds_left * share, limits.stopper)


def weight(problem: CuttingProblem, answer: SheetAnswer) -> Weight:
    """Return what answers are compared by: what is bought."""
    if answer.priced:
        return answer.cost, answer.count
    area = sum(s.length * s.width for s in answer.stock if not s.on_hand)
    return area, answer.count


@dataclass
class _Trials:
    """Solves the list with blocks in it, each combination once."""

    problem: CuttingProblem
    base: SheetAnswer
    limits: Limits
    _known: dict[tuple[str, ...], SheetAnswer | str] = field(default_factory=dict)

    def run(self, blocks: Sequence[SetBlock]) -> SheetAnswer | str:
        """Return the answer with the blocks taken apart, or why there is none."""
        ordered = sorted(blocks, key=lambda block: block.part.id)
        key = tuple(block.part.id for block in ordered)
        if key not in self._known:
            if self.limits.over:
                return NO_TIME
            self._known[key] = self._solve(ordered)
        return self._known[key]

    def free(self, answer: SheetAnswer | str) -> bool:
        """Return True where an answer costs no more than without the wish."""
        return not isinstance(answer, str) and self.weight(answer) <= self.weight(self.base)

    def weight(self, answer: SheetAnswer) -> Weight:
        """Return what answers are compared by."""
        return weight(self.problem, answer)

    def _solve(self, blocks: Sequence[SetBlock]) -> SheetAnswer | str:
        best: SheetAnswer | str = TOO_LARGE
        for first in self._first_cuts():
            answer = self._with_first_cut(blocks, first)
            if isinstance(answer, str):
                best = answer if isinstance(best, str) else best
            elif isinstance(best, str) or self.weight(answer) < self.weight(best):
                best = answer
            if self.free(best) or self.limits.over:
                break
        return best

    def _first_cuts(self) -> tuple[FirstCut, ...]:
        """Return first cuts to try: where stages count, a row may need one kind on its sheet."""
        if self.problem.stages == "any" or self.problem.first_cut != "either":
            return (self.problem.first_cut,)
        return "either", "rip", "crosscut"

    def _with_first_cut(self, blocks: Sequence[SetBlock], first: FirstCut) -> SheetAnswer | str:
        problem = replace(self.problem, parts=blocked(self.problem, blocks), first_cut=first)
        try:
            answer = solve_cutting(problem, _share(self.limits, TRIAL_SHARE, TRIAL_WORK))
        except CannotBeDoneError:
            return TOO_LARGE
        by_name = blocks_by_name(blocks)
        sheets = tuple(taken_apart(sheet, by_name) for sheet in answer.stock)
        if not all(keeps_stages(self.problem, sheet) for sheet in sheets):
            return STAGES
        return replace(answer, stock=sheets)


class _Granting:
    """Decides which sets are granted."""

    def __init__(self, trials: _Trials, rows: dict[str, list[CutPart]]) -> None:
        self.trials = trials
        self.choices = {
            name: block_choices(trials.problem, parts, name) for name, parts in rows.items()
        }
        self.granted: dict[str, SetBlock] = {}

    def settle(self) -> SheetAnswer:
        """Grant the sets that cost nothing more; return the answer with them."""
        alone = {name: self._with({}, name) for name, blocks in self.choices.items() if blocks}
        free = {n: b for n, (b, answer) in alone.items() if self.trials.free(answer)}
        if self.trials.free(self._run(free)):
            self.granted = free
        else:
            orders = [sorted(free, key=lambda n: (free[n].area, n)), sorted(free)]
            self.granted = max((self._one_by_one(order) for order in orders), key=len)
        answer = self._run(self.granted)
        return self.trials.base if isinstance(answer, str) else self._with_bounds(answer)

    def _run(self, chosen: dict[str, SetBlock]) -> SheetAnswer | str:
        return self.trials.run(tuple(chosen.values())) if chosen else self.trials.base

    def _with(self, chosen: dict[str, SetBlock], name: str) -> tuple[SetBlock, SheetAnswer | str]:
        """Return the best block of a set beside those chosen, and the answer with it."""
        tried = []
        for block in self.choices[name]:
            tried.append((block, self._run({**chosen, name: block})))
            if self.trials.free(tried[-1][1]):
                break
        return min(tried, key=lambda pair: self._rank(pair[1]))

    def _rank(self, answer: SheetAnswer | str) -> tuple[bool, Weight]:
        """Return the key that sorts answers by weight, and what is none last."""
        return (True, (0, 0)) if isinstance(answer, str) else (False, self.trials.weight(answer))

    def _one_by_one(self, order: Iterable[str]) -> dict[str, SetBlock]:
        chosen: dict[str, SetBlock] = {}
        for name in order:
            block, answer = self._with(chosen, name)
            if self.trials.free(answer):
                chosen = {**chosen, name: block}
        return chosen

    def _with_bounds(self, answer: SheetAnswer) -> SheetAnswer:
        """Return an answer with the bounds of the list without the wish, which hold for it too.

        The answer costs no more, and is proven the cheapest as that was, or where its price
        meets the bound.
        """
        base = self.trials.base
        met = answer.priced and answer.cost == base.cost_bound
        return replace(
            base,
            status=Status.OPTIMAL if met else base.status,
            stock=answer.stock,
            cost=answer.cost,
            count=answer.count,
            cost_bound=min(base.cost_bound, answer.cost),
            count_bound=min(base.count_bound, answer.count),
        )

    def refused(self, name: str, parts: tuple[str, ...]) -> MatchedSet:
        """Say what a set would cost beside those granted, or why it cannot be."""
        answer = self._with(self.granted, name)[1] if self.choices[name] else TOO_LARGE
        if isinstance(answer, str):
            return MatchedSet(name=name, parts=parts, granted=False, why=answer)
        base = self.trials.base
        return MatchedSet(
            name=name,
            parts=parts,
            granted=False,
            costs=max(answer.cost - base.cost, Decimal("0.00")) if base.priced else None,
            more_sheets=answer.count - base.count,
        )


def _outcome(
    granting: _Granting, answer: SheetAnswer, name: str, members: Sequence[CutPart]
) -> MatchedSet:
    parts = tuple(member.id for member in members)
    if len(parts) > 1 and name not in granting.granted:
        return granting.refused(name, parts)
    sheet = next(
        number
        for number, sheet in enumerate(answer.stock, start=1)
        if any(piece.part == parts[0] for piece in sheet.pieces)
    )
    laid = _laid(answer.stock[sheet - 1], parts)
    return MatchedSet(name=name, parts=parts, granted=True, sheet=sheet, laid=laid)


def _laid(sheet: Sheet, parts: Sequence[str]) -> Literal["along", "across"]:
    """Return how the first two follow one another; a part alone lies along."""
    at = {piece.part: piece for piece in sheet.pieces}
    return "along" if at[parts[0]].y == at[parts[:2][-1]].y else "across"


def numbered(materials: Iterable[Matched]) -> tuple[MatchedSet, ...]:
    """Return the sets of several materials, their sheets numbered through all materials."""
    sets: list[MatchedSet] = []
    before = 0
    for matched in materials:
        for one in matched.sets:
            sheet = None if one.sheet is None else one.sheet + before
            sets.append(one.model_copy(update={"sheet": sheet}))
        before += len(matched.answer.stock)
    return tuple(sets)
