"""Whether a changed list saves stock: first the bound, then cutting it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.advice.lots import (
    Lot,
    Problem,
    Weight,
    is_proven,
    least_weight,
    solve,
    weight,
)
from solver.advice.room import roomy
from solver.cutting.answer import Answer
from solver.errors import CannotBeDoneError
from solver.outcome import Limits, Verdict
from solver.units import Ticks

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

    Work decides what is tried, so that the same list gets the same advice: so many lists
    in all, and so many whose cutting ends without a proof and so takes its whole work.

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
        """Cut the changed parts of a lot with room for each, unless the bound tells already."""
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


def together(trials: Sequence[Trial]) -> Verdict:
    """Return the verdict on a change of several lots: it saves where it saves in one."""
    verdicts = {trial.verdict for trial in trials}
    if Verdict.YES in verdicts:
        return Verdict.YES
    return Verdict.NO if verdicts <= {Verdict.NO} else Verdict.UNSETTLED
