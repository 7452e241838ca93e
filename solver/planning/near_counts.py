"""One shelf fewer or more, as it is or with one length a little changed; things left out let in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from solver.job import Job
from solver.outcome import Status
from solver.plan import Option
from solver.planning.levers import LOOKS, Lever, growths, looks
from solver.planning.near_prices import Till
from solver.planning.near_sizes import Find, Known
from solver.planning.other_ways import is_asked, shelves_changes
from solver.planning.situation import Situation, altered, look_now, planned
from solver.planning.trials import Fitter
from solver.remarks import Altered
from solver.units import Ticks

EACH_MOST = 2
"""Most changes told that make one choice of shelf counts possible [-]."""
LOOK_SHARE = 2
"""Headroom, gap and end margin may be less by this share of themselves, 2 for a half [-]."""


def options_let_in(
    job: Job, base: Situation, options: Sequence[Option], near: Ticks, till: Till, fitter: Fitter
) -> Iterator[Find]:
    """Yield small changes that let everything fit in options that leave something out."""
    for option in options:
        if option.fits_all or option.status is Status.UNKNOWN:
            continue
        if option.cases:
            start = planned(job, option, share=base.share)
            made = [(c.alters[0], c.proven) for c in option.changes if len(c.alters) == 1]
            small = [one for one in made if _is_small(job, one[0], near)]
        else:
            start = replace(base, counts=option.shelf_counts)
            small = list(_least_changes(start, near, fitter))
        lets_in = {left.item: left.count for left in option.left_out}
        yield from _priced(start, (), small[:EACH_MOST], till, lets_in)


def other_counts(
    base: Situation, near: Ticks, till: Till, fitter: Fitter, known: Known
) -> Iterator[Find]:
    """Yield shelf counts next to those planned that the job does not compare, if they can be."""
    for change in shelves_changes(base):
        if is_asked(base, change):
            continue
        start, found = altered(base, [change]), []
        status = fitter.fits(start)
        if status is Status.OPTIMAL:
            found = list(_as_it_is(start, change, till))
        elif status is Status.INFEASIBLE:
            small = list(_least_changes(start, near, fitter))
            found = list(_priced(start, (change,), small[:EACH_MOST], till, {}))
        yield from found
        if not found:
            word = "a shelf more" if (change.number or 0) > 0 else "a shelf fewer"
            known.add(word, proven=status is not Status.UNKNOWN and not fitter.over)


def _least_changes(start: Situation, near: Ticks, fitter: Fitter) -> Iterator[tuple[Altered, bool]]:
    """The least change of each length that lets everything fit, the smallest first."""
    found = []
    for lever in _levers(start, near):
        least = fitter.least(start, lever)
        if least is not None:
            found.append((lever.change(least.steps), least.proven))
    yield from sorted(found, key=lambda one: (one[0].by or 0, one[0].case or ""))


def _levers(start: Situation, near: Ticks) -> list[Lever]:
    return [*looks(start.job, LOOK_SHARE), *growths(start.job, near)]


def _is_small(job: Job, change: Altered, near: Ticks) -> bool:
    if change.by is None:
        return False
    if change.what in LOOKS:
        return change.by * LOOK_SHARE <= look_now(job, change)
    return change.by <= near


def _priced(
    start: Situation,
    made: tuple[Altered, ...],
    more: Sequence[tuple[Altered, bool]],
    till: Till,
    lets_in: dict[str, int],
) -> Iterator[Find]:
    """What `start` buys with each further change."""
    for change, proven in more:
        after = altered(start, [change])
        priced = till.price(after)
        if priced is not None:
            yield Find((*made, change), after, priced, proven, lets_in)


def _as_it_is(start: Situation, made: Altered, till: Till) -> Iterator[Find]:
    """What `start`, in which everything fits, buys."""
    priced = till.price(start)
    if priced is not None:
        yield Find((made,), start, priced, smallest=True)
