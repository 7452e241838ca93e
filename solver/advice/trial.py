"""Whether a changed list saves stock: first the bound, then cutting it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from solver.advice.lots import (
    Answer,
    Lot,
    Problem,
    Weight,
    is_proven,
    least_weight,
    solve,
    stock_of,
    weight,
)
from solver.advice.room import roomy
from solver.errors import CannotBeDoneError
from solver.outcome import Limits
from solver.units import Ticks

Verdict: TypeAlias = Literal["saves", "cannot", "not found"]
"""Cut with less; proven to save nothing; neither."""


@dataclass(frozen=True)
class Trial:
    """What became of one change of one lot; `answer` where the change was cut."""

    verdict: Verdict
    bought: Weight
    answer: Answer | None = None


class Tester:
    """Tries changed lists within the work and the time that advice may take.

    Attributes
    ----------
    room
        Kept with every piece [tick].
    left
        Lists that may still be cut [-].
    """

    def __init__(self, room: Ticks, limits: Limits, most: int) -> None:
        self.room, self.limits, self.left = room, limits, most

    @property
    def over(self) -> bool:
        """Whether no more may be tried."""
        return self.limits.over or self.left <= 0

    def trial(self, lot: Lot, changed: Problem) -> Trial:
        """Cut the changed parts of a lot with room for each, unless the bound tells already."""
        tight = roomy(changed, self.room)
        if least_weight(tight) >= lot.bought:
            return Trial("cannot", lot.bought)
        if self.over:
            return Trial("not found", lot.bought)
        self.left -= 1
        try:
            answer = solve(tight, self.limits)
        except CannotBeDoneError:
            return Trial("not found", lot.bought)
        now = weight(stock_of(answer), priced=lot.priced)
        if now < lot.bought:
            return Trial("saves", now, answer)
        return Trial("cannot" if is_proven(answer) else "not found", lot.bought)


def together(trials: Sequence[Trial]) -> Verdict:
    """Return the verdict on a change of several lots: it saves where it saves in one."""
    verdicts = {trial.verdict for trial in trials}
    if "saves" in verdicts:
        return "saves"
    return "cannot" if verdicts <= {"cannot"} else "not found"
