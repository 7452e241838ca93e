"""Two lengths together, where no single change lets everything fit."""

from __future__ import annotations

from itertools import combinations

from solver.outcome import Verdict
from solver.planning.levers import Lever, growths, looks
from solver.planning.other_ways import Found
from solver.planning.situation import Situation
from solver.planning.trials import Fitter
from solver.planning.wider import sag_felt
from solver.remarks import Altered

TRIED_MOST = 5
"""Most pairs whose least amounts are looked for [-]."""


def smallest_pairs(asked: Situation, fitter: Fitter) -> Found:
    """Return pairs of length changes that let everything fit, the least in sum first.

    Neither length of a pair does by itself. One is made as small as it can be with the other
    at its most, then the other as small as it can be with that; both orders are tried.
    Proven where a step less of either is proven not to do.
    """
    levers = [*looks(asked.job), *(one for one in growths(asked.job) if one.case is None)]
    together = asked
    for lever in levers:
        together = lever.at(together, lever.most)
    if fitter.fits(together) is not Verdict.YES:
        return []
    doing = [
        pair for pair in combinations(levers, 2) if fitter.fits(_both(asked, *pair)) is Verdict.YES
    ]
    found = []
    for pair in doing[:TRIED_MOST]:
        tries = [one for order in (pair, pair[::-1]) if (one := _least(asked, fitter, *order))]
        if tries:
            found.append(min(tries, key=lambda one: sum(c.by or 0 for c in one[0])))
    return sorted(found, key=lambda one: sum(c.by or 0 for c in one[0]))


def _both(asked: Situation, one: Lever, other: Lever) -> Situation:
    return other.at(one.at(asked, one.most), other.most)


def _least(
    asked: Situation, fitter: Fitter, one: Lever, other: Lever
) -> tuple[tuple[Altered, ...], bool] | None:
    """The first lever as little as can be, then the other; None where the first is not needed."""
    first = fitter.least(other.at(asked, other.most), one, known=one.most)
    if first is None:
        return None
    second = fitter.least(one.at(asked, first.steps), other, known=other.most)
    if second is None:
        return None
    made = (one.change(first.steps), other.change(second.steps))
    proven = first.proven and second.proven
    if proven and sag_felt(asked, other):
        # `first` was the least at the most width, which need not be the best of them
        less = other.at(one.at(asked, first.steps - 1), second.steps)
        proven = fitter.fits(less) is Verdict.NO
    return made, proven
