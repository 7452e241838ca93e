"""Changes confirmed by cutting: tried at the most, then the least amount by halving, as advice.

A change that only just fits is no advice. A job that keeps a margin keeps it with every piece.
Where it keeps none, every strip is to have a little room left: all sheets and sticks are taken to
be that much smaller.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal

from solver.changes.candidates import measure
from solver.changes.change_models import (
    Change,
    Lot,
    Problem,
    Weight,
    What,
    is_proven,
    least_weight,
    solve,
    weight,
)
from solver.changes.change_words import text_of
from solver.cutting.cutting_answer import Answer
from solver.cutting.cutting_problem import CutPart, CutSheet, CuttingProblem, StickProblem
from solver.errors import CannotBeDoneError
from solver.outcome import Limits, Verdict
from solver.plan.plan import money
from solver.plan.slack_and_advice import Advice
from solver.plan.stocked import Part, Sheet
from solver.units import Ticks, Unit, inches, mm

LISTS_MOST, OPEN_MOST = 80, 8
"""Most changed lists that are cut, and most of them that end without a proof [-]."""


@dataclass(frozen=True)
class Trial:
    """Whether one change of one lot saves stock; `answer` where the change was cut."""

    verdict: Verdict
    bought: Weight
    answer: Answer | None = None


class Tester:
    """Tries changed lists within the work and the time that advice may take.

    Work decides what is tried, so that the same list gets the same advice. Limited are the lists
    in all, and those whose cutting ends without a proof and so takes its whole work.

    Attributes
    ----------
    room
        Kept in every strip, where there is no margin [tick].
    lists, open_lists
        Lists that may still be cut, and those that may still end without a proof [-].
    """

    def __init__(self, room: Ticks, limits: Limits) -> None:
        self.room, self.limits = room, limits
        self.lists, self.open_lists = LISTS_MOST, OPEN_MOST

    @property
    def over(self) -> bool:
        """Whether no more may be tried."""
        return self.limits.over or self.lists <= 0 or self.open_lists <= 0

    def trial(self, lot: Lot, changed: Problem) -> Trial:
        """Cut the changed parts of a lot with room kept, unless its bound rules out a saving."""
        if self.limits.over:
            return Trial(Verdict.UNSETTLED, lot.bought)
        tight = roomy(changed, self.room)
        if not least_weight(tight).saves_on(lot.bought):
            return Trial(Verdict.NO, lot.bought)
        if self.over:
            return Trial(Verdict.UNSETTLED, lot.bought)
        self.lists -= 1
        try:
            answer = solve(tight, self.limits)
        except CannotBeDoneError:
            return Trial(Verdict.UNSETTLED, lot.bought)
        proven = is_proven(answer)
        self.open_lists -= not proven
        now = weight(answer.stock)
        if now.saves_on(lot.bought):
            return Trial(Verdict.YES, now, answer)
        return Trial(Verdict.NO if proven else Verdict.UNSETTLED, lot.bought)


def joint_verdict(trials: Sequence[Trial]) -> Verdict:
    """Return the verdict on a change of several lots: it saves where it saves in one."""
    verdicts = {trial.verdict for trial in trials}
    if Verdict.YES in verdicts:
        return Verdict.YES
    return Verdict.NO if verdicts <= {Verdict.NO} else Verdict.UNSETTLED


@dataclass(frozen=True)
class _LeastAmount:
    """The least amount of a change that was cut and saves, and the verdict on a step less."""

    amount: int
    trials: Sequence[Trial]
    less: Verdict


class Confirmer:
    """Turns changes into advice where cutting confirms them.

    Attributes
    ----------
    tried, open
        Kinds of change that were tried, and those of which one was neither confirmed nor
        proven useless.
    """

    def __init__(
        self, lots: Sequence[Lot], parts: Mapping[str, Part], unit: Unit, tester: Tester
    ) -> None:
        self.lots, self.parts, self.unit, self.tester = lots, parts, unit, tester
        self.tried: set[What] = set()
        self.open: set[What] = set()

    def may_help(self, index: int, changes: Sequence[Change], all_together: Problem) -> bool:
        """Whether several changes made together save in a lot; if not, none of them does."""
        kinds = {change.what for change in changes}
        self.tried |= kinds
        if len(changes) < 2:
            return bool(changes)
        verdict = self.tester.trial(self.lots[index], all_together).verdict
        if verdict is Verdict.UNSETTLED:
            self.open |= kinds
        return verdict is Verdict.YES

    def confirm(self, change: Change) -> Advice | None:
        """Return the least amount of the change as advice; None where it was not found to save."""
        self.tried.add(change.what)
        most = self._try(change, change.amounts[-1])
        verdict = joint_verdict(most)
        if verdict is Verdict.UNSETTLED:
            self.open.add(change.what)
        return self._advice(change, self._least(change, most)) if verdict is Verdict.YES else None

    def _try(self, change: Change, amount: int) -> list[Trial]:
        return [
            self.tester.trial(self.lots[at], change.apply(self.lots[at].problem, amount))
            for at in change.lots
        ]

    def _least(self, change: Change, most: Sequence[Trial]) -> _LeastAmount:
        """Halve between no change, which saves nothing, and the most of it, which saves."""
        low, high = -1, len(change.amounts) - 1
        best, less = most, joint_verdict([])
        while high - low > 1:
            middle = (low + high) // 2
            trials = self._try(change, change.amounts[middle])
            if joint_verdict(trials) is Verdict.YES:
                high, best = middle, trials
            else:
                low, less = middle, joint_verdict(trials)
        return _LeastAmount(change.amounts[high], best, less)

    def _advice(self, change: Change, least: _LeastAmount) -> Advice:
        change = _as_cut(change, least)
        pairs = [
            (self.lots[at], trial)
            for at, trial in zip(change.lots, least.trials, strict=True)
            if trial.verdict is Verdict.YES
        ]
        by, to = self._figures(change, least.amount)
        return Advice(
            what=change.what,
            material=None if change.what in ("kerf", "edge trim") else pairs[0][0].material,
            parts=change.parts,
            by=by,
            to=to,
            stock=kind_of(pairs[0][0]),
            sheets_saved=sum(lot.bought.count - trial.bought.count for lot, trial in pairs),
            saves=_money(pairs),
            slack=self.tester.room,
            smallest=by is not None and least.less is Verdict.NO,
            text=text_of(change, least.amount, self.parts, self.unit),
        )

    def _figures(self, change: Change, amount: int) -> tuple[int | None, int | None]:
        """Return how much less, and the resulting size [tick]; None where no size changes."""
        if change.what in ("kerf", "edge trim"):
            return change.now - amount, amount
        if change.what in ("shorter", "narrower"):
            return amount, measure(self.parts[change.parts[0]], change.side) - amount
        return None, None


def _as_cut(change: Change, least: _LeastAmount) -> Change:
    """Return the change with only the parts that the changed plan turns or has in two pieces."""
    if change.what == "two pieces":
        return replace(change, parts=change.parts[: least.amount])
    answer = least.trials[0].answer
    if change.what == "grain" and answer is not None:
        sheets = [one for one in answer.stock if isinstance(one, Sheet)]
        turned = {p.part for sheet in sheets for p in sheet.pieces if p.turned}
        return replace(change, parts=tuple(ident for ident in change.parts if ident in turned))
    return change


def _money(pairs: Sequence[tuple[Lot, Trial]]) -> Decimal | None:
    """What is saved in money, where all that is saved has a price."""
    if not all(lot.priced for lot, _ in pairs):
        return None
    return money(sum(lot.bought.price - trial.bought.price for lot, trial in pairs))


def kind_of(lot: Lot) -> Literal["sheet", "stick"]:
    """Return what a lot is cut from."""
    return "sheet" if isinstance(lot.problem, CuttingProblem) else "stick"


LEAST: dict[Unit, Ticks] = {"in": inches("1/32"), "mm": mm("0.5")}
"""Room left in every strip where the job keeps no margin: the accuracy of cutting (common
practice) [tick]."""

SHARE = 100
"""At most one such part of a sheet's side is kept as room [-]."""


def room_kept(margin: Ticks, unit: Unit) -> Ticks:
    """Return the room that the changed plan keeps: the margin, or the least [tick]."""
    return margin or LEAST[unit]


def roomy(problem: Problem, room: Ticks) -> Problem:
    """Return the problem with `room` [tick] kept in every strip, or with its own margin.

    A part that fills a sheet from edge to edge as it is stays so, since nothing else lies
    beside it that way: it is taken to be smaller like the sheet.
    """
    if problem.margin:
        return problem
    if isinstance(problem, StickProblem):
        return _shorter_sticks(problem, room)
    room = min(room, *(min(s.length, s.width) // SHARE for s in problem.sheets))
    sheets = tuple(
        replace(sheet, length=sheet.length - room, width=sheet.width - room)
        for sheet in problem.sheets
    )
    smaller = replace(problem, sheets=sheets)
    parts = tuple(_fitting(smaller, part, room) for part in problem.parts)
    return replace(smaller, parts=parts)


def _shorter_sticks(problem: StickProblem, room: Ticks) -> StickProblem:
    room = min(room, *(stick.length // SHARE for stick in problem.sticks))
    sticks = tuple(replace(stick, length=stick.length - room) for stick in problem.sticks)
    longest = max(stick.length for stick in sticks)
    pieces = tuple(replace(p, length=min(p.length, longest)) for p in problem.pieces)
    return replace(problem, pieces=pieces, sticks=sticks)


def _fitting(smaller: CuttingProblem, part: CutPart, room: Ticks) -> CutPart:
    """Return the part, smaller by the room where no sheet would take it otherwise."""
    for along, across in ((0, 0), (0, room), (room, 0), (room, room)):
        one = replace(part, length=part.length - along, width=part.width - across)
        if fits(smaller, smaller.sheets, one):
            return one
    return part


def fits(problem: CuttingProblem, sheets: Sequence[CutSheet], part: CutPart) -> bool:
    """Whether some sheet that is there or may be bought has room for a part."""
    lost = 2 * problem.edge_trim + problem.margin
    ways = [(part.length, part.width)] + [(part.width, part.length)] * part.may_turn
    return any(
        along <= sheet.length - lost and across <= sheet.width - lost
        for sheet in sheets
        if sheet.on_hand or sheet.limit != 0
        for along, across in ways
    )
