"""Near misses: small changes of the job that would save a sheet, let something in, or let the
shelves be one fewer or more.

Everything told has been solved again with the change made: that everything fits, and what the
sheets then cost with room to spare in every strip. What cannot help is skipped by its bound.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, TypeAlias

from solver.advice.words import listed
from solver.job import Job
from solver.outcome import Limits
from solver.plan import Option
from solver.planning.levers import described
from solver.planning.near_counts import options_let_in, other_counts
from solver.planning.near_prices import Till
from solver.planning.near_sizes import Find, Known, size_savings
from solver.planning.situation import Situation, planned
from solver.planning.trials import Fitter
from solver.planning.words import change_text
from solver.remarks import NearMiss
from solver.units import Ticks, Unit, inches, mm, with_unit

NEAR: dict[Unit, Ticks] = {"in": inches("2"), "mm": mm("50")}
"""Sizes are near while they change by no more than this (a choice of this project) [tick]."""
SHOWN_MOST, ALIKE_MOST = 6, 2
"""Most near misses that are told, in all and for one choice of shelves [-]."""
TIME_SHARE, CUT_SHARE, FIT_WORK = 0.2, 0.025, 0.2
"""Share of the time limit for all of it, of the work for each list that is cut [-], and work
of each question whether everything fits."""
Gains: TypeAlias = Literal["saves", "lets in", "more shelves", "fewer shelves"]
TRIALS, UNSETTLED = 120, 2
"""Most questions whether everything fits, and most that may stay open [-]."""


@dataclass(frozen=True)
class Near:
    """The near misses, or what is known where there is none."""

    found: tuple[NearMiss, ...] = ()
    note: str | None = None


def near_misses(job: Job, options: Sequence[Option], limits: Limits) -> Near:
    """Find the near misses of a plan, the most valuable first.

    Parameters
    ----------
    job
        The job as asked.
    options
        The options of the plan, the recommended one first.
    limits
        Of the whole command; a share of the time left is taken, and counted work.

    Returns
    -------
    Near
        Nothing at all where no option fits everything: then its changes tell what would do.
    """
    if not options or not options[0].fits_all or limits.over:
        return Near()
    seconds = min(limits.seconds_left, limits.seconds * TIME_SHARE)
    share = Limits(limits.seed, limits.work * CUT_SHARE, seconds, limits.stopper)
    fitter = Fitter(share, trials=TRIALS, unsettled=UNSETTLED, work=FIT_WORK)
    best, near, known = options[0], NEAR[job.unit], Known()
    base = planned(job, best, share=not best.lines_given_up)
    till = Till(job, best, share)
    found = [
        *size_savings(base, near, till, fitter, known),
        *options_let_in(job, base, options[1:], near, till, fitter),
        *other_counts(base, near, till, fitter, known),
    ]
    said = [_told(job, base, till, find) for find in found]
    told = _chosen([one for one in said if one is not None])
    over = till.tester.over or fitter.over
    return Near(told, None if told else _nothing(job, known, over=over))


def _told(job: Job, base: Situation, till: Till, find: Find) -> NearMiss | None:
    """Return a find as it is told; None where it turns out to gain nothing."""
    alters = described(job, find.situation, find.alters)
    lengths = [one for one in alters if one.what != "shelves"]
    now, total = till.now, find.priced.total
    saves = None if total is None or now.total is None else now.total - total
    fewer = now.sheets - find.priced.sheets
    gains = _gains(base, find, saves, fewer)
    if gains is None:
        return None
    return NearMiss(
        alters=alters,
        gains=gains,
        shelf_counts=dict(find.situation.counts),
        lets_in=find.lets_in,
        sheets_saved=fewer,
        saves=saves,
        total=total,
        slack=till.room,
        smallest=find.smallest,
        text=change_text(base.job, lengths or alters),
    )


def _gains(base: Situation, find: Find, saves: Decimal | None, fewer: int) -> Gains | None:
    if saves or (saves is None and fewer):
        gain = saves if saves is not None else fewer
        if gain > 0:
            return "saves"
    if find.lets_in:
        return "lets in"
    more = _shelves(find.situation) - _shelves(base)
    return None if more == 0 else "more shelves" if more > 0 else "fewer shelves"


def _shelves(situation: Situation) -> int:
    return sum(sum(bays) for bays in situation.counts.values())


def _chosen(found: Sequence[NearMiss]) -> tuple[NearMiss, ...]:
    """What is told: what saves most, then the smallest changes; few for one choice of shelves."""
    shown: list[NearMiss] = []
    for one in sorted(found, key=_rank):
        alike = [other for other in shown if other.shelf_counts == one.shelf_counts]
        if len(alike) < ALIKE_MOST and not any(_covers(other, one) for other in alike):
            shown.append(one)
    return tuple(shown[:SHOWN_MOST])


def _rank(one: NearMiss) -> tuple[object, ...]:
    return (
        one.gains != "saves",
        -(one.saves or 0),
        -one.sheets_saved,
        _size(one),
        len(one.alters),
        one.text,
    )


def _size(one: NearMiss) -> Ticks:
    return sum(change.by or 0 for change in one.alters)


def _covers(better: NearMiss, other: NearMiss) -> bool:
    """Whether `other` changes the same size in more cases and gains no more."""
    mine, theirs = better.alters[-1], other.alters[-1]
    return (
        mine.what == theirs.what
        and theirs.case is None
        and _size(better) <= _size(other)
        and (better.saves or 0, better.sheets_saved) >= (other.saves or 0, other.sheets_saved)
    )


def _nothing(job: Job, known: Known, *, over: bool) -> str:
    """Say that there is none, how far was looked, and for what that is proven."""
    text = f"no near miss found within {with_unit(NEAR[job.unit], job.unit)}"
    if over:
        text += " by the limit"
    if known.proven:
        text += f"; proven for {listed(list(dict.fromkeys(known.proven)))}"
    if known.searched:
        text += f"; not proven for {listed(list(dict.fromkeys(known.searched)))}"
    return text
