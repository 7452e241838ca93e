"""When not everything fits: the fewest and smallest changes that would do, each by solving."""

from __future__ import annotations

from collections.abc import Sequence

from solver.job import Job
from solver.outcome import Limits
from solver.plan import Change
from solver.planning.levers import described, growths, looks
from solver.planning.other_ways import other_counts, other_forms
from solver.planning.pairs import smallest_pairs
from solver.planning.situation import Situation, altered
from solver.planning.trials import Fitter
from solver.planning.words import change_text
from solver.remarks import Altered

LENGTHS_MOST, PAIRS_MOST = 6, 3
"""Most changes of one length, and most pairs of changes, that are told [-]."""


def smallest_changes(job: Job, asked: Situation, limits: Limits) -> tuple[Change, ...]:
    """Return what would let everything fit, the smallest change first.

    `asked` is the job with its sizes decided, in which not everything fits.
    Lengths each by itself, in whole steps; then a shelf more or fewer, and things that lie,
    are stacked or stand in rows; where none of these does, two lengths together. A change
    is proven where one step less is proven not to do. Empty where nothing within reason helps.
    """
    fitter = Fitter(limits)
    lengths = _lengths(asked, fitter)
    found = [*lengths, *other_counts(asked, fitter), *other_forms(asked, fitter)]
    if not found:
        pairs = smallest_pairs(asked, fitter)
        return tuple(_change(job, asked, made, proven=sure) for made, sure in pairs[:PAIRS_MOST])
    return tuple(_change(job, asked, made, proven=sure) for made, sure in found)


def _lengths(asked: Situation, fitter: Fitter) -> list[tuple[tuple[Altered, ...], bool]]:
    """Every length by itself, the smallest change first; each case by itself if that is less."""
    found: list[tuple[tuple[Altered, ...], bool]] = []
    for lever in [*looks(asked.job), *growths(asked.job)]:
        least = fitter.least(asked, lever)
        if least is not None:
            found.append(((lever.change(least.steps),), least.proven))
    found.sort(key=lambda one: (one[0][0].by or 0, one[0][0].case or ""))
    return [one for one in found if not _is_wider_than_needed(one[0][0], found)][:LENGTHS_MOST]


def _is_wider_than_needed(
    change: Altered, found: Sequence[tuple[tuple[Altered, ...], bool]]
) -> bool:
    """Whether all cases are changed where one of them alone, by no more, would do."""
    return change.case is None and any(
        other.what == change.what and other.case is not None and other.by == change.by
        for (other, *_), _ in found
    )


def _change(job: Job, asked: Situation, made: tuple[Altered, ...], *, proven: bool) -> Change:
    told = described(job, altered(asked, made), made)
    return Change(
        what=told[0].what if len(told) == 1 else "several",
        by=told[0].by if len(told) == 1 else None,
        alters=told,
        proven=proven,
        text=change_text(asked.job, told),
    )
