"""Whether everything fits in changed jobs, within counted limits; least amounts by halving."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from solver.changes.levers import Lever
from solver.changes.situation import Situation
from solver.layout.fit import NOTHING, fits_within
from solver.layout.layout_problem import BayShape, LayoutProblem
from solver.outcome import Limits, Verdict
from solver.strength.beams import MIDSPAN_SHARE

WORK = 1.0
"""Deterministic work for each trial [CP-SAT units]."""

WIDTHS_MOST = 48
"""Widths tried one by one beyond the least that could do [-]."""


@dataclass(frozen=True)
class Least:
    """The fewest steps of a lever that suffice, and whether one step less is proven not to."""

    steps: int
    proven: bool


class Fitter:
    """Asks whether everything fits.

    Work decides what is asked, so that the same job gets the same answers. Limited are the trials
    in all, and those that end without an answer and so take their whole work.

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

    def fits(self, situation: Situation) -> Verdict:
        """Say whether everything fits."""
        return Verdict.UNSETTLED if self.over else self.asked(situation.problem())

    def asked(self, problem: LayoutProblem) -> Verdict:
        """Say whether everything fits in a problem."""
        if self.over:
            return Verdict.UNSETTLED
        self.trials -= 1
        limits = replace(self.limits, work=self.work)
        verdict = fits_within(problem, NOTHING, limits)
        self.unsettled -= verdict is Verdict.UNSETTLED
        return verdict

    def least(
        self, situation: Situation, lever: Lever, *, known: int | None = None
    ) -> Least | None:
        """Return the fewest steps of a lever that let everything fit, by halving.

        None where not even its most does. `known` is a number of steps known to suffice. What some
        steps let fit, more of them let fit as well, with two exceptions. Where openings have
        a most clear height a higher case may take less, and nothing is called proven; where the
        sag limit binds a wider one may take less, and widths are tried one by one.
        """
        if sag_felt(situation, lever):
            return self._least_width(situation, lever, known)
        fewest = self._halved(lever, known, lambda steps: self.fits(lever.at(situation, steps)))
        bounded = lever.what == "height" and situation.job.look.clear_most is not None
        return replace(fewest, proven=False) if fewest and bounded else fewest

    def _halved(
        self, lever: Lever, known: int | None, asked: Callable[[int], Verdict]
    ) -> Least | None:
        high = lever.most if known is None else known
        if known is None and asked(high) is not Verdict.YES:
            return None
        low, below = 0, Verdict.NO
        while high - low > 1:
            middle = (low + high) // 2
            verdict = asked(middle)
            if verdict is Verdict.YES:
                high = middle
            else:
                low, below = middle, verdict
        return Least(high, below is Verdict.NO)

    def _least_width(self, situation: Situation, lever: Lever, known: int | None) -> Least | None:
        """Halve with the stiffness of no change, an upper bound, then try widths one by one."""
        bound = self._halved(
            lever, known, lambda steps: self.asked(roomiest(situation, lever, steps))
        )
        if bound is None:
            return None
        proven, most = bound.proven, lever.most if known is None else known
        for steps in range(bound.steps, min(most, bound.steps + WIDTHS_MOST) + 1):
            verdict = self.fits(lever.at(situation, steps))
            if verdict is Verdict.YES:
                return Least(steps, proven)
            proven = proven and verdict is Verdict.NO
        return None if known is None else Least(known, proven=False)


def sag_felt(situation: Situation, lever: Lever) -> bool:
    """Whether a lever makes cases wider, so that at its most the sag limit may bind on a shelf."""
    if lever.what != "width" or lever.less:
        return False
    problem = lever.at(situation, lever.most).problem()
    heaviest = sum(kind.mass * kind.count for kind in problem.kinds)
    return any(_felt(bay, heaviest) for bay in problem.bays)


def _felt(bay: BayShape, heaviest: int) -> bool:
    felt = min(bay.load, heaviest) * MIDSPAN_SHARE[0]
    return any(one is not None and one * MIDSPAN_SHARE[1] < felt for one in bay.sag)


def roomiest(situation: Situation, lever: Lever, steps: int) -> LayoutProblem:
    """Return the problem at so many steps, with the sag limits of no change."""
    problem, now = lever.at(situation, steps).problem(), situation.problem()
    pairs = zip(problem.bays, now.bays, strict=True)
    return replace(problem, bays=tuple(replace(bay, sag=other.sag) for bay, other in pairs))
