"""Whether everything fits, asked of changed jobs within counted limits; least amounts too."""

from __future__ import annotations

from dataclasses import dataclass, replace

from solver.layout.fit import fits_within
from solver.outcome import Limits, Status
from solver.planning.levers import Lever
from solver.planning.situation import Situation

WORK = 1.0
"""Deterministic work for each trial."""


@dataclass(frozen=True)
class Least:
    """The fewest steps of a lever that do, and whether one step less is proven not to do."""

    steps: int
    proven: bool


class Fitter:
    """Asks whether everything fits.

    Work decides what is asked, so that the same job gets the same answers: so many trials in
    all, and so many that end without an answer and so take their whole work.

    Attributes
    ----------
    trials, unsettled
        Trials that may still be made, and those that may still end unsettled [-].
    """

    def __init__(
        self, limits: Limits, *, trials: int = 200, unsettled: int = 6, work: float = WORK
    ) -> None:
        self.limits, self.work = limits, work
        self.trials, self.unsettled = trials, unsettled

    @property
    def over(self) -> bool:
        """Whether no more may be asked."""
        return self.limits.over or self.trials <= 0 or self.unsettled <= 0

    def fits(self, situation: Situation) -> Status:
        """Say whether everything fits: OPTIMAL yes, INFEASIBLE proven not, UNKNOWN not settled."""
        if self.over:
            return Status.UNKNOWN
        self.trials -= 1
        limits = replace(self.limits, work=self.work)
        status = fits_within(situation.problem(), 0, limits)
        self.unsettled -= status is Status.UNKNOWN
        return status

    def least(
        self, situation: Situation, lever: Lever, *, known: int | None = None
    ) -> Least | None:
        """Return the fewest steps of a lever that let everything fit, by halving.

        None where not even its most does. `known` is a number of steps known to do. What some
        steps let fit, more of them let fit as well, but where openings have a most clear
        height: there a higher case may take less, and nothing is called proven.
        """
        high = lever.most if known is None else known
        if known is None and self.fits(lever.at(situation, high)) is not Status.OPTIMAL:
            return None
        low, below = 0, Status.INFEASIBLE
        while high - low > 1:
            middle = (low + high) // 2
            status = self.fits(lever.at(situation, middle))
            if status is Status.OPTIMAL:
                high = middle
            else:
                low, below = middle, status
        bounded = lever.what == "height" and situation.job.look.clear_most is not None
        return Least(high, below is Status.INFEASIBLE and not bounded)
