"""The trade-off front of a job: price against places parted, proven.

Combinations of shelf counts run side by side, each deterministic, first for their sizes and then
for their layouts, and meet between the two only, so that the front repeats byte for byte.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from functools import partial
from typing import TypeVar

from solver.errors import CannotBeDoneError, InterruptedPlanError
from solver.job.job import Job
from solver.outcome import Limits, Progress
from solver.plan.built import CasePlan
from solver.plan.plan import Option, Stage, Timing
from solver.plan.price_front import TradeOff
from solver.planning.assemble import LaidOut, stocked_option, with_layout
from solver.planning.band_parts import with_band
from solver.planning.fallback import first_layout
from solver.planning.matched_shelves import with_sets
from solver.planning.option_stages import stages_of
from solver.sizing.choose_sizes import choose_sizes
from solver.sizing.combinations import Counts, combinations, name_of
from solver.sizing.on_hand_outcome import settled_by_on_hand, with_on_hand_holds
from solver.sizing.purchase import Buyer, sheet_parts
from solver.strength.cautions import refuse
from solver.tradeoff.front_report import FrontReport, Shown, beats, better_twins, unbeaten
from solver.tradeoff.price_levels import (
    Candidate,
    Level,
    Levels,
    floor_of,
    laid_out,
    levels_of,
)

SIZES_SHARE = 0.5
"""Share of the time for choosing sizes; what is left is for placing shelves [-]."""
T = TypeVar("T")
U = TypeVar("U")


def trade_off(job: Job, limits: Limits | None = None, progress: Progress | None = None) -> TradeOff:
    """Find every option that is not beaten on price and places parted together.

    Parameters
    ----------
    job
        The job, validated.
    limits
        Seed, deterministic work and wall-clock backstop; left out, the defaults.
    progress
        Called with a line of text whenever something is found; from any thread.

    Raises
    ------
    InterruptedPlanError
        Where it was stopped before anything was found.
    CannotBeDoneError
        Where a case may not stand in the place of the old door.
    """
    limits = limits or Limits()
    refuse(job)
    started = time.perf_counter()
    tell = progress or (lambda _: None)
    job, kept = settled_by_on_hand(job)
    counts, untried = combinations(job)
    buyer = Buyer(job, limits)
    levels = _side_by_side(partial(_levels, job, buyer, limits.until(SIZES_SHARE), tell), counts)
    found = _layouts(job, levels, limits, tell)
    if limits.stopper.stopped and not found:
        level, found = _first_to_come(job, counts, buyer, limits, progress)
        levels = [Levels(level.counts, (level,))]
    write = partial(_written, job, buyer, kept, limits)
    shown = better_twins(_side_by_side(write, unbeaten(found)))
    shown = [replace(one, option=with_band(job, one.option, limits)) for one in shown]
    timing = Timing(seconds=round(time.perf_counter() - started, 3))
    return FrontReport(job, levels, shown, untried).trade_off(timing, over=limits.over)


def _levels(job: Job, buyer: Buyer, limits: Limits, tell: Progress, counts: Counts) -> Levels:
    name = name_of(job, counts)
    try:
        found = levels_of(job, counts, buyer, limits)
    except CannotBeDoneError as error:
        found = Levels(counts, refused=str(error))
    sized = [level.sized for level in found.levels if level.sized is not None]
    if sized:
        least = min(one.stock.price for one in sized)
        tell(f"{name}: {job.head.currency} {least}, sizes chosen")
    else:
        tell(f"{name}: {found.refused or 'nothing yet'}")
    return found


def _layouts(job: Job, levels: Sequence[Levels], limits: Limits, tell: Progress) -> list[Candidate]:
    """Lay out every level that none beats by its price and most places parted."""

    def lay(level: Level) -> Candidate | None:
        one = laid_out(level, limits)
        if one is not None:
            price = f"{job.head.currency} {one.sized.stock.price}"
            tell(f"{name_of(job, level.counts)}: {price}, {one.parted} parted")
        return one

    every = [one for some in levels for one in some.levels if one.sized is not None]
    known = [(one.cost, one.parted) for one in every if one.parted is not None]
    wanted = [
        one for one in every if not any(beats(other, (one.cost, one.least)) for other in known)
    ]
    return [one for one in _side_by_side(lay, wanted) if one is not None]


def _first_to_come(
    job: Job, counts: Sequence[Counts], buyer: Buyer, limits: Limits, progress: Progress | None
) -> tuple[Level, list[Candidate]]:
    """Return a layout of any combination: all was stopped before there was one."""

    def attempt(one: Counts, given: Limits) -> Candidate | None:
        try:
            sized = choose_sizes(job, one, buyer, given, share=True)
        except CannotBeDoneError:
            return None
        return laid_out(Level(one, True, None, 0, sized, floor_of(sized)), given)

    found = first_layout(counts, limits, progress, attempt)
    if found is None:
        msg = "stopped before any layout was found; nothing is written"
        raise InterruptedPlanError(msg)
    return found[1].level, [found[1]]


def _written(
    job: Job, buyer: Buyer, kept: tuple[str, ...], limits: Limits, one: Candidate
) -> Shown:
    """Write a candidate down as an option, matched shelves beside each other if that is free."""
    counts, (sized, sets) = one.level.counts, with_sets(buyer, one.sized, one.level.counts, limits)

    def stages(cases: Sequence[CasePlan]) -> tuple[Stage, ...]:
        return tuple(_noted(stage, one) for stage in stages_of(sized, one.answer, cases))

    stocked = stocked_option(
        job,
        counts,
        sheet_parts(sized.job, counts, sized.depths),
        sized.stock,
        bound=sized.bound,
        sheet_bound=sized.sheet_bound,
        sets=sets,
    )
    laid = LaidOut(job, sized.job, sized.depths, one.problem, one.answer)
    option: Option = with_layout(stocked, laid, stages, stopped=limits.stopper.stopped)
    return Shown(one, with_on_hand_holds(option, kept))


def _noted(stage: Stage, one: Candidate) -> Stage:
    """Say what the bounds of a stage hold for."""
    if one.level.parted is None or stage.note is not None or stage.bound is None:
        return stage
    places = f"{one.level.parted} place{'' if one.level.parted == 1 else 's'}"
    return stage.model_copy(update={"note": f"with no more than {places} parted"})


def _side_by_side(work: Callable[[T], U], over: Sequence[T]) -> list[U]:
    with ThreadPoolExecutor(max_workers=min(max(1, len(over)), os.cpu_count() or 1)) as pool:
        return list(pool.map(work, over))
