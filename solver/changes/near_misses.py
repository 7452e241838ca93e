"""Near misses: small changes that would save a sheet, let something in, or change a shelf count.

Each has been solved again with the change made: everything fits, and its sheets are cut with
room to spare in every strip. What cannot help is skipped by its bound.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal, TypeAlias

from solver.changes.change_words import change_text, listed
from solver.changes.levers import LOOKS, Lever, described, growths, looks
from solver.changes.near_savings import NearCandidate, Pricer, Tried, size_savings
from solver.changes.situation import Situation, altered, look_now, planned
from solver.changes.smallest_changes import is_asked, shelves_changes
from solver.changes.trials import Fitter
from solver.job.job import Job
from solver.outcome import Limits, Status, Verdict
from solver.plan.plan import Option
from solver.plan.slack_and_advice import Alteration, NearMiss
from solver.units import Ticks, Unit, inches, mm, with_unit

NEAR: dict[Unit, Ticks] = {"in": inches("2"), "mm": mm("50")}
"""Sizes are near while they change by no more than this (a choice of this project) [tick]."""

SHOWN_MOST, ALIKE_MOST = 6, 2
"""Most near misses that are shown, in all and for one choice of shelves [-]."""

TIME_SHARE, CUT_SHARE, FIT_WORK = 0.2, 0.025, 0.2
"""Share of the time limit for all near misses, of the work for each list that is cut [-], and
work of each question whether everything fits [CP-SAT units]."""

TRIALS, UNSETTLED = 120, 2
"""Most questions whether everything fits, and most that may stay open [-]."""

EACH_MOST = 2
"""Most changes shown that make one choice of shelf counts possible [-]."""

LOOK_SHARE = 2
"""Headroom, gap and end margin may be less by this share of themselves, 2 for a half [-]."""

Gains: TypeAlias = Literal["saves", "lets in", "more shelves", "fewer shelves"]


@dataclass(frozen=True)
class NearMisses:
    """The near misses, or what is known where there is none."""

    found: tuple[NearMiss, ...] = ()
    note: str | None = None


def near_misses(job: Job, options: Sequence[Option], limits: Limits) -> NearMisses:
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
        Empty where no option fits everything: then the changes of the options say what would.
    """
    if not options or not options[0].fits_all or limits.over:
        return NearMisses()
    seconds = min(limits.seconds_left, limits.seconds * TIME_SHARE)
    share = Limits(limits.seed, limits.work * CUT_SHARE, seconds, limits.stopper)
    fitter = Fitter(share, trials=TRIALS, unsettled=UNSETTLED, work=FIT_WORK)
    best, near, tried = options[0], NEAR[job.unit], Tried()
    base = planned(job, best, share=not best.lines_given_up)
    pricer = Pricer(job, best, share)
    candidates = [
        *size_savings(base, near, pricer, fitter, tried),
        *options_let_in(job, base, options[1:], near, pricer, fitter),
        *other_counts(base, near, pricer, fitter, tried),
    ]
    misses = [_near_miss(job, base, pricer, candidate) for candidate in candidates]
    shown = _chosen([miss for miss in misses if miss is not None])
    over = pricer.tester.over or fitter.over
    return NearMisses(shown, None if shown else _nothing(job, tried, over=over))


def _near_miss(
    job: Job, base: Situation, pricer: Pricer, candidate: NearCandidate
) -> NearMiss | None:
    """Return a candidate as a near miss; None where it turns out to gain nothing."""
    alters = described(job, candidate.situation, candidate.alters)
    lengths = [change for change in alters if change.what != "shelves"]
    now, total = pricer.now, candidate.priced.total
    saves = None if total is None or now.total is None else now.total - total
    fewer = now.sheets - candidate.priced.sheets
    gains = _gains(base, candidate, saves, fewer)
    if gains is None:
        return None
    return NearMiss(
        alters=alters,
        gains=gains,
        shelf_counts=dict(candidate.situation.counts),
        lets_in=candidate.lets_in,
        sheets_saved=fewer,
        saves=saves,
        total=total,
        slack=pricer.room,
        smallest=candidate.smallest,
        text=change_text(base.job, lengths or alters),
    )


def _gains(
    base: Situation, candidate: NearCandidate, saves: Decimal | None, fewer: int
) -> Gains | None:
    if saves or (saves is None and fewer):
        gain = saves if saves is not None else fewer
        if gain > 0:
            return "saves"
    if candidate.lets_in:
        return "lets in"
    more = _shelves(candidate.situation) - _shelves(base)
    return None if more == 0 else "more shelves" if more > 0 else "fewer shelves"


def _shelves(situation: Situation) -> int:
    return sum(sum(bays) for bays in situation.counts.values())


def _chosen(found: Sequence[NearMiss]) -> tuple[NearMiss, ...]:
    """Return those shown: what saves most, then the smallest; few for one choice of shelves."""
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


def _nothing(job: Job, tried: Tried, *, over: bool) -> str:
    """Say that there is none within the limits of the search, and for what that is proven."""
    text = f"no near miss found within {with_unit(NEAR[job.unit], job.unit)}"
    if over:
        text += " by the limit"
    if tried.proven:
        text += f"; proven for {listed(list(dict.fromkeys(tried.proven)))}"
    if tried.searched:
        text += f"; not proven for {listed(list(dict.fromkeys(tried.searched)))}"
    return text


def options_let_in(
    job: Job,
    base: Situation,
    options: Sequence[Option],
    near: Ticks,
    pricer: Pricer,
    fitter: Fitter,
) -> Iterator[NearCandidate]:
    """Yield small changes that let everything fit in options that leave something out."""
    for option in options:
        if option.fits_all or option.status is Status.UNKNOWN:
            continue
        if option.cases:
            start = planned(job, option, share=base.share)
            single = [(c.alters[0], c.proven) for c in option.changes if len(c.alters) == 1]
            small = [(change, proven) for change, proven in single if _is_small(job, change, near)]
        else:
            start = replace(base, counts=option.shelf_counts)
            small = list(_least_changes(start, near, fitter))
        lets_in = {left.item: left.count for left in option.left_out}
        yield from _priced(start, (), small[:EACH_MOST], pricer, lets_in)


def other_counts(
    base: Situation, near: Ticks, pricer: Pricer, fitter: Fitter, tried: Tried
) -> Iterator[NearCandidate]:
    """Yield shelf counts next to those planned, not compared by the job, if all then fits."""
    for change in shelves_changes(base):
        if is_asked(base, change):
            continue
        start, found = altered(base, [change]), []
        verdict = fitter.fits(start)
        if verdict is Verdict.YES:
            found = list(_as_it_is(start, change, pricer))
        elif verdict is Verdict.NO:
            small = list(_least_changes(start, near, fitter))
            found = list(_priced(start, (change,), small[:EACH_MOST], pricer, {}))
        yield from found
        if not found:
            word = "a shelf more" if (change.number or 0) > 0 else "a shelf fewer"
            tried.add(word, proven=verdict is not Verdict.UNSETTLED and not fitter.over)


def _least_changes(
    start: Situation, near: Ticks, fitter: Fitter
) -> Iterator[tuple[Alteration, bool]]:
    """Yield the least change of each length that lets everything fit, the smallest first."""
    found = []
    for lever in _levers(start, near):
        least = fitter.least(start, lever)
        if least is not None:
            found.append((lever.change(least.steps), least.proven))
    yield from sorted(found, key=lambda one: (one[0].by or 0, one[0].case or ""))


def _levers(start: Situation, near: Ticks) -> list[Lever]:
    return [*looks(start.job, LOOK_SHARE), *growths(start.job, near)]


def _is_small(job: Job, change: Alteration, near: Ticks) -> bool:
    if change.by is None:
        return False
    if change.what in LOOKS:
        return change.by * LOOK_SHARE <= look_now(job, change)
    return change.by <= near


def _priced(
    start: Situation,
    before: tuple[Alteration, ...],
    more: Sequence[tuple[Alteration, bool]],
    pricer: Pricer,
    lets_in: dict[str, int],
) -> Iterator[NearCandidate]:
    """Yield `start` with each further change, priced; `before` are the changes it has already."""
    for change, proven in more:
        after = altered(start, [change])
        priced = pricer.price(after)
        if priced is not None:
            yield NearCandidate((*before, change), after, priced, proven, lets_in)


def _as_it_is(start: Situation, change: Alteration, pricer: Pricer) -> Iterator[NearCandidate]:
    """Yield `start`, in which everything fits after the change, priced."""
    priced = pricer.price(start)
    if priced is not None:
        yield NearCandidate((change,), start, priced, smallest=True)
