"""From a job to a plan: every combination solved, ranked, and one recommended."""

from __future__ import annotations

import os
import time
from concurrent.futures import ThreadPoolExecutor

from solver.changes.near_misses import NearMisses, near_misses
from solver.changes.saving_changes import with_advice
from solver.errors import InterruptedPlanError
from solver.job.job import Job
from solver.layout.layout_problem import LARGE
from solver.outcome import Limits, Progress, Status, program_version
from solver.plan.plan import Option, Plan, Timing
from solver.planning.band_parts import with_band
from solver.planning.fallback import first_layout
from solver.planning.held_conflicts import with_collision
from solver.planning.plan_option import plan_option, unsettled_option
from solver.planning.recommend import ranked
from solver.rules_version import RULES
from solver.sizing.choose_sizes import ChosenSizes
from solver.sizing.combinations import SHOWN_MOST, Counts, combinations, name_of
from solver.sizing.on_hand_outcome import settled_by_on_hand, with_on_hand_holds
from solver.sizing.option_sizes import Sizing
from solver.sizing.purchase import Buyer
from solver.strength.cautions import refuse


def plan_job(
    job: Job,
    limits: Limits | None = None,
    progress: Progress | None = None,
    *,
    near: bool = True,
    advice: bool = True,
) -> Plan:
    """Decide shelf count, spacing, places, sizes and stock of a job.

    Parameters
    ----------
    job
        The job, validated.
    limits
        Seed, deterministic work and wall-clock backstop; left out, the defaults.
    progress
        Called with a line of text whenever an option is done; from any thread.
    near, advice
        Whether near misses, and small changes that save stock, are looked for as well.

    Returns
    -------
    Plan
        One option for each combination of shelf counts, recommended first. The same
        job and limits give the same plan, `timing` apart, unless the backstop cut it short.

    Raises
    ------
    InterruptedPlanError
        Where it was stopped before anything was found.
    CannotBeDoneError
        Where a case may not stand in the place of the old door.
    """
    limits = limits or Limits()
    started = time.perf_counter()
    refuse(job)
    job, kept = settled_by_on_hand(job)
    counts, untried = combinations(job)
    options = _all_options(job, counts, limits, progress or (lambda _: None))
    if limits.stopper.stopped and not any(option.cases for option in options):
        options = _first_to_come(job, counts, options, limits, progress)
    if limits.stopper.stopped and not any(option.cases for option in options):
        msg = "stopped before any layout was found; nothing is written"
        raise InterruptedPlanError(msg)
    chosen, sentence = ranked(job, [with_on_hand_holds(option, kept) for option in options])
    if advice:
        chosen = (*(with_advice(job, option, limits) for option in chosen[:1]), *chosen[1:])
    chosen = tuple(with_collision(job, with_band(job, one, limits), limits) for one in chosen)
    missed = near_misses(job, chosen, limits) if near and not job.have else NearMisses()
    return Plan(
        version=program_version(),
        rules=RULES,
        unit=job.unit,
        job=job,
        job_hash=job.hash,
        options=chosen[:SHOWN_MOST],
        not_shown=max(0, len(chosen) - SHOWN_MOST) + untried,
        recommendation=sentence,
        near=missed.found,
        near_note=missed.note,
        timing=Timing(seconds=round(time.perf_counter() - started, 3)),
    )


SIZES_SHARE = 0.5
"""Share of the time for choosing open sizes; what is left is for placing shelves [-]."""

FIRST_SHARE = 0.4
"""Share of the time left that an option may take while others wait: the promising ones, which come
first, have the most, and one that is hard to settle does not have it all [-]."""


def _all_options(
    job: Job, counts: list[Counts], limits: Limits, progress: Progress
) -> list[Option]:
    """Solve the combinations side by side, promising ones first; each is deterministic."""
    buyer, done = Buyer(job, limits), [0]
    sizing = Sizing(job, buyer, limits.until(SIZES_SHARE))
    workers = min(len(counts), os.cpu_count() or 1)

    def report(one: Counts, sized: ChosenSizes) -> None:
        price = f"{job.head.currency} {sized.stock.price} (not below {sized.bound})"
        progress(f"{name_of(job, one)}: {price}, sizes chosen")

    def solve(one: Counts) -> Option:
        option = _solved(one, len(counts) - done[0])
        done[0] += 1
        progress(f"{done[0]} of {len(counts)}: {_progress_text(job, one, option)}")
        return option

    def _solved(one: Counts, to_come: int) -> Option:
        if limits.stopper.stopped:  # not even a model is made: somebody waits
            return unsettled_option(job, one)
        fair = min(1.0, workers / to_come)
        share = limits.until(max(fair, FIRST_SHARE))
        if _large(job, one):  # each takes what time it is given, and some even without any
            share = limits.until(fair)
            if limits.over and to_come < len(counts):
                return unsettled_option(job, one)
        return plan_option(job, one, buyer, share, progress, sizing)

    with ThreadPoolExecutor(max_workers=workers) as pool:
        order = sizing.promising(counts, pool, report, workers)
        solved = dict(zip(order, pool.map(solve, [counts[n] for n in order]), strict=True))
    return [solved[n] for n in range(len(counts))]


def _large(job: Job, counts: Counts) -> bool:
    """Whether a layout is stood up by rule first (:mod:`solver.layout.layout_problem`)."""
    openings = sum(shelves + 1 for bays in counts.values() for shelves in bays)
    return len(job.items) * openings >= LARGE


def _first_to_come(
    job: Job,
    counts: list[Counts],
    options: list[Option],
    limits: Limits,
    progress: Progress | None,
) -> list[Option]:
    """Return the options, the first that can be with a layout: all was stopped before that."""
    buyer = Buyer(job, limits)

    def attempt(one: Counts, given: Limits) -> Option | None:
        option = plan_option(job, one, buyer, given, lambda _: None)
        return option if option.fits_all else None

    still = [n for n, option in enumerate(options) if option.status is Status.UNKNOWN]
    found = first_layout([counts[n] for n in still], limits, progress, attempt)
    if found is None:
        return options
    number, option = still[found[0]], found[1]
    return [*options[:number], option, *options[number + 1 :]]


def _progress_text(job: Job, counts: Counts, option: Option) -> str:
    name = name_of(job, counts)
    if option.cost is None:
        return (
            f"{name} cannot work" if option.status is Status.INFEASIBLE else f"{name}: nothing yet"
        )
    left = sum(one.count for one in option.left_out)
    missing = f", {left} left out" if left else ""
    cost = option.cost
    return (
        f"{name}: {cost.currency} {cost.total} (not below {cost.stock_bound}), "
        f"{option.sheet_count} sheets{missing}"
    )
