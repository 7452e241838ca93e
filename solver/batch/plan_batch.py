"""A batch: each job planned, open sizes chosen together, then all stock cut together.

`with_common_shop` is what all jobs of a batch must have in common: one saw cuts all sheets, one
buyer pays.
"""

from __future__ import annotations

import time
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from typing import Any

from solver.batch.batch_result import BuiltTogether, batch_result
from solver.batch.batch_sizes import choose_together
from solver.batch.built_jobs import any_open, laid_out, together_of
from solver.batch.joint_cutting import PoolPurchase, cut_sheets, cut_sticks, total
from solver.batch.shared_stock import ChosenJob, sheet_pools, stick_pools
from solver.errors import CannotBeDoneError, InputError, InterruptedPlanError, ManyInputsError
from solver.intake.load import load
from solver.job.job import Job
from solver.outcome import Limits, Progress, Status
from solver.plan.joint_purchase import Batch
from solver.plan.plan import Option, Plan
from solver.planning.plan_job import plan_job
from solver.sizing.pricing import CostKey
from solver.units import Ticks, Unit, with_unit

PLANNING_SHARE = 0.6
"""Share of the time that planning the jobs may take; joint sizes and cutting have the rest [-]."""
SIZES_SHARE = 0.3
"""Share of the time then left for choosing the open sizes of all jobs together [-]."""
AT_ONCE = 2
"""Jobs planned side by side [-]."""
SECONDS_LEAST = 1.0
"""Least time for planning one job, however little is left [s]."""
SECONDS_ONCE_MORE = 10.0
"""Least time for a second try where nothing was found for a job, even beyond the limit [s]."""
CUTTING_WORK = 4.0
"""Work for each pool of the batch, as a multiple of that for one stage of a plan [-]."""


def plan_batch(
    jobs: Mapping[str, Job], limits: Limits | None = None, progress: Progress | None = None
) -> Batch:
    """Plan several jobs and cut their parts together.

    Parameters
    ----------
    jobs
        By the name that each has in the batch; all with the same kerf, edge trim, margin,
        stages, first cut and currency (:func:`solver.batch.plan_batch.agreed`).
    limits
        Seed, deterministic work and wall-clock backstop; left out, the defaults.

    Returns
    -------
    Batch
        Never dearer than buying for each job by itself, nor than buying together at the sizes
        that each has by itself. Shelf counts are those recommended to each client; bounds hold
        for these.

    Raises
    ------
    CannotBeDoneError
        Where a job cannot be planned with everything in it, or stock is too scarce.
    InterruptedPlanError
        Where it was stopped before every job was planned.
    """
    limits = limits or Limits()
    say = progress or (lambda _: None)
    started = time.perf_counter()
    plans = _plan_each(jobs, limits, say)
    apart = [ChosenJob(name, jobs[name], plan.options[0]) for name, plan in plans.items()]
    together = BuiltTogether(tuple(apart), None)
    if any_open(jobs):
        together = _at_chosen_sizes(plans, apart, limits, say)
    bought = _cut(together.built, apart, limits, say)
    if together.sizes is not None and _cost(bought) > together.sizes.own_cost:
        together = replace(together, built=tuple(apart))
        bought = _cut(apart, apart, limits, say)
    return batch_result(plans, together, bought, limits, time.perf_counter() - started)


def _plan_each(jobs: Mapping[str, Job], limits: Limits, say: Progress) -> dict[str, Plan]:
    """Plan each job by itself, two at a time; each is deterministic."""
    names = list(jobs)

    def plan(at: int) -> Plan:
        say(f"planning {names[at]}, {at + 1} of {len(names)}")
        left = limits.seconds * PLANNING_SHARE - (limits.seconds - limits.seconds_left)
        share = max(SECONDS_LEAST, left * 2 * AT_ONCE / (len(names) - at + 2 * AT_ONCE))
        return _plan(jobs[names[at]], limits, share)

    with ThreadPoolExecutor(max_workers=AT_ONCE) as pool:
        plans = dict(zip(names, pool.map(plan, range(len(names))), strict=True))
    for name, one in plans.items():  # a batch must have all of its jobs
        if _open(one.options[0]) and not limits.stopper.stopped:
            say(f"planning {name} once more, with more time")
            plans[name] = _plan(jobs[name], limits, max(SECONDS_ONCE_MORE, limits.seconds_left / 2))
    for name, one in plans.items():
        if limits.stopper.stopped and not one.options[0].fits_all:
            msg = f"stopped before {name} was planned; nothing is written"
            raise InterruptedPlanError(msg)
    _refuse(plans)
    return plans


def _open(option: Option) -> bool:
    """Whether more time may find a layout in which everything fits."""
    return not option.fits_all and option.status is not Status.INFEASIBLE


def _plan(job: Job, limits: Limits, seconds: float) -> Plan:
    own = Limits(limits.seed, limits.work, seconds, limits.stopper)
    return plan_job(job, own, near=False, advice=False)


def _refuse(plans: Mapping[str, Plan]) -> None:
    """Raise where a job has no option in which everything fits; all of them at once."""
    reasons = [
        f"{name}: {plan.options[0].why or 'nothing was found by the limit'}"
        for name, plan in plans.items()
        if not plan.options[0].fits_all
    ]
    if reasons:
        head = "not every job can be built as asked; change it, or leave it out of the batch"
        raise CannotBeDoneError("\n".join([head, *reasons]))


def _at_chosen_sizes(
    plans: Mapping[str, Plan], apart: Sequence[ChosenJob], limits: Limits, say: Progress
) -> BuiltTogether:
    """Choose all open sizes together, and lay out again the jobs whose sizes then differ."""
    say("choosing the open sizes of all jobs together")
    jobs = {one.name: one.job for one in apart}
    together = together_of(jobs, plans, limits)
    shop, unit = apart[0].job.shop, apart[0].job.unit
    sizes = choose_together(together, shop, unit, limits.until(SIZES_SHARE))
    options = laid_out(together, sizes, limits, say)
    if not all(option.fits_all for option in options.values()):  # the limit came before a layout
        return BuiltTogether(tuple(apart), sizes)
    built = tuple(replace(one, option=options.get(one.name, one.option)) for one in apart)
    return BuiltTogether(built, sizes)


def _cut(
    built: Sequence[ChosenJob], apart: Sequence[ChosenJob], limits: Limits, say: Progress
) -> tuple[PoolPurchase, ...]:
    """Cut all pools, sheets first."""
    shop, unit = built[0].job.shop, built[0].job.unit
    listed = [one.listed for one in built]
    pools, bars = sheet_pools(listed), stick_pools(listed)
    boards = []
    for at, pool in enumerate(pools):
        say(f"cutting {pool.material} for {len(pool.jobs)} jobs")
        share = _share(limits, len(pools) - at)
        boards.append(cut_sheets(pool, shop, unit, built, apart, share))
    return (*boards, *(cut_sticks(bar, shop, unit, built, apart, limits) for bar in bars))


def _share(limits: Limits, pools: int) -> Limits:
    """Return the limits of one pool, where so many are still to be cut."""
    seconds = limits.seconds_left / pools
    return Limits(limits.seed, limits.work * CUTTING_WORK, seconds, limits.stopper)


def _cost(bought: Sequence[PoolPurchase]) -> CostKey:
    """Return what is compared: the price, then the area bought without a price [square tick]."""
    sheets = [sheet for one in bought for sheet in one.sheets if not sheet.on_hand]
    area = sum(sheet.length * sheet.width for sheet in sheets if sheet.price is None)
    return total(bought), area


LENGTHS = ("kerf", "edge_trim", "margin")
WORDS = ("stages", "trimming", "first_cut", "saws", "place")
LIMITS = (
    "mitre_capacity",
    "sled_capacity",
    "least_rip",
    "least_length",
    "least_offcut",
    "longest_rip",
    "largest_panel",
)
"""Keys of [shop] that decide the cuts; `cutting_step` concerns each job by itself."""
NAMES_MOST = 6
"""Jobs named for one value at most [-]."""


def with_common_shop(
    jobs: Mapping[str, Job], given: Mapping[str, Ticks], shop_of: str | None = None
) -> dict[str, Job]:
    """Return the jobs with one [shop].

    Parameters
    ----------
    given
        Lengths of [shop] that override those of all jobs: kerf, edge_trim, margin [tick].
    shop_of
        Name of the job whose [shop] holds for all; None: they must be the same.

    Raises
    ------
    ManyInputsError
        With every key in which jobs differ, who says what, and what to do.
    """
    unit = next(iter(jobs.values())).unit
    if shop_of is not None and shop_of not in jobs:
        msg = f"--shop: {shop_of!r} is no job of the batch; allowed: {', '.join(jobs)}"
        raise InputError(msg)
    taken: dict[str, Any] = dict(given)
    if shop_of is not None:
        own = jobs[shop_of].shop
        taken = {**{key: getattr(own, key) for key in (*LENGTHS, *WORDS, *LIMITS)}, **taken}
    changed = {name: _with(job, taken) for name, job in jobs.items()}
    there = [
        InputError(
            f"{name}: [[have]] says what is there already; plan this job by itself, around that"
        )
        for name, job in jobs.items()
        if job.have
    ]
    errors = there + [
        error
        for key in ("currency", *LENGTHS, *WORDS, *LIMITS)
        if (error := _differing(changed, key, unit)) is not None
    ]
    if errors:
        raise ManyInputsError(errors, "the jobs cannot be cut together as they are:")
    return changed


def _with(job: Job, taken: Mapping[str, Any]) -> Job:
    if not taken:
        return job
    shop = job.shop.model_copy(update=dict(taken))
    return load({**job.model_dump(by_alias=True), "shop": shop.model_dump()})


def _value(job: Job, key: str) -> Any:
    return job.head.currency if key == "currency" else getattr(job.shop, key)


def _differing(jobs: Mapping[str, Job], key: str, unit: Unit) -> InputError | None:
    """Return the error of a key in which jobs differ."""
    values: dict[Any, list[str]] = {}
    for name, job in jobs.items():
        values.setdefault(_value(job, key), []).append(name)
    if len(values) < 2:
        return None
    who = "; ".join(f"{_shown(value, unit)} in {_some(names)}" for value, names in values.items())
    if key == "currency":
        return InputError(f"currency differs: {who}; prices must be in one currency")
    option = f"--{key.replace('_', '-')} or " if key in LENGTHS else ""
    return InputError(f"[shop] {key} differs: {who}; give {option}--shop JOB, or change a file")


def _shown(value: Any, unit: Unit) -> str:
    if isinstance(value, int):
        return with_unit(value, unit)
    if isinstance(value, tuple):
        return " x ".join(_shown(one, unit) for one in value)
    return "not set" if value is None else str(value)


def _some(names: list[str]) -> str:
    more = len(names) - NAMES_MOST
    return ", ".join(names[:NAMES_MOST]) + (f" and {more} more" if more > 0 else "")
