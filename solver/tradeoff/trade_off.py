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
from solver.layout.layout_engine import solve_layout
from solver.outcome import Limits, Progress
from solver.plan.built import CasePlan
from solver.plan.plan import Stage, Timing
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
from solver.tradeoff.front_report import FrontReport, Shown, as_good, unbeaten
from solver.tradeoff.price_levels import Cost, Level, Levels, floor_of, levels_of

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
    levels = _side_by_side(partial(_levels, job, buyer, tell), counts, limits.until(SIZES_SHARE))
    write = partial(_written, job, buyer, kept, tell)
    laid = [one for one in _side_by_side(write, _worth(levels), limits) if one is not None]
    if limits.stopper.stopped and not laid:
        laid = [_first_to_come(job, counts, buyer, write, limits, progress)]
        levels.append(Levels(laid[0].level.counts, (laid[0].level,)))
    shown = [replace(one, option=with_band(job, one.option, limits)) for one in unbeaten(laid)]
    timing = Timing(seconds=round(time.perf_counter() - started, 3))
    return FrontReport(job, levels, shown, untried).trade_off(timing, over=limits.over)


def _levels(job: Job, buyer: Buyer, tell: Progress, counts: Counts, limits: Limits) -> Levels:
    try:
        found = levels_of(job, counts, buyer, limits)
    except CannotBeDoneError as error:
        found = Levels(counts, refused=str(error))
    prices = [one.sized.stock.price for one in found.levels if one.sized is not None]
    said = f"{job.head.currency} {min(prices)}, sizes chosen" if prices else found.refused
    tell(f"{name_of(job, counts)}: {said or 'nothing yet'}")
    return found


def _worth(levels: Sequence[Levels]) -> list[Level]:
    """The levels that none is better than by its price and most places parted."""
    every = [one for some in levels for one in some.levels if one.sized is not None]
    known = [(one.cost, one.parted) for one in every if one.parted is not None]

    def beaten(one: tuple[Cost, int]) -> bool:
        return any(as_good(other, one) and other != one for other in known)

    return [one for one in every if not beaten((one.cost, one.least))]


def _first_to_come(
    job: Job,
    counts: Sequence[Counts],
    buyer: Buyer,
    write: Callable[[Level, Limits], Shown | None],
    limits: Limits,
    progress: Progress | None,
) -> Shown:
    """Return a layout of any combination: all was stopped before there was one."""

    def attempt(one: Counts, given: Limits) -> Shown | None:
        try:
            sized = choose_sizes(job, one, buyer, given, share=True)
        except CannotBeDoneError:
            return None
        return write(Level(one, True, None, 0, sized, floor_of(sized)), given)

    found = first_layout(counts, limits, progress, attempt)
    if found is None:
        msg = "stopped before any layout was found; nothing is written"
        raise InterruptedPlanError(msg)
    return found[1]


def _written(
    job: Job, buyer: Buyer, kept: tuple[str, ...], tell: Progress, level: Level, limits: Limits
) -> Shown | None:
    """Lay out a level and write it down; None where no layout was found in which all fits.

    Matched shelves lie beside each other wherever that costs nothing more.
    """
    if limits.stopper.stopped and not limits.grace:  # not even a model is made: somebody waits
        return None
    answer = solve_layout(level.problem, limits)
    if not answer.marks_known or any(answer.left.values()):
        return None
    assert level.sized is not None
    sized, sets = with_sets(buyer, level.sized, level.counts, limits)

    def stages(cases: Sequence[CasePlan]) -> tuple[Stage, ...]:
        return tuple(_noted(stage, level.parted) for stage in stages_of(sized, answer, cases))

    stocked = stocked_option(
        job,
        level.counts,
        sheet_parts(sized.job, level.counts, sized.depths),
        sized.stock,
        bound=sized.bound,
        sheet_bound=sized.sheet_bound,
        sets=sets,
    )
    laid = LaidOut(job, sized.job, sized.depths, level.problem, answer)
    option = with_layout(stocked, laid, stages, stopped=limits.stopper.stopped)
    tell(f"{option.name}: {job.head.currency} {sized.stock.price}, placed")
    return Shown(level, with_on_hand_holds(option, kept))


def _noted(stage: Stage, parted: int | None) -> Stage:
    """Say what the bounds of a stage hold for."""
    if parted is None or stage.note is not None or stage.bound is None or stage.name == "fit":
        return stage
    note = f"with no more than {parted} place{'' if parted == 1 else 's'} parted"
    return stage.model_copy(update={"note": note if parted else "with no place parted"})


def _side_by_side(work: Callable[[T, Limits], U], over: Sequence[T], limits: Limits) -> list[U]:
    """Do the work on each, with a fair share of the time that is left."""
    workers = min(max(1, len(over)), os.cpu_count() or 1)

    def one(number: int) -> U:
        return work(over[number], limits.until(min(1.0, workers / (len(over) - number))))

    with ThreadPoolExecutor(max_workers=workers) as pool:
        return list(pool.map(one, range(len(over))))
