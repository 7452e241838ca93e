"""A batch: each job planned, then the stock of all of them cut together."""

from __future__ import annotations

import time
from collections.abc import Mapping, Sequence
from decimal import Decimal

from solver.batch import Batch, BatchJob, Pool, shares
from solver.errors import CannotBeDoneError, InterruptedPlanError
from solver.job import Job
from solver.outcome import Limits, Progress, Status
from solver.plan import Cost, Option, Plan, Timing
from solver.planning.batch.joint import (
    ZERO,
    Bought,
    cut_sheets,
    cut_sticks,
    total,
    weights_by_job,
)
from solver.planning.batch.pools import (
    Chosen,
    batch_parts,
    sharing_notes,
    sheet_pools,
    stick_pools,
)
from solver.planning.plan import plan_job
from solver.sequence.sequence import sequence
from solver.sequence.sticks import sequence_sticks
from solver.slack import least_slack, stick_with_slack, with_slack
from solver.stocked import Sheet, Stick

PLANNING_SHARE = 0.7
"""Share of the time that planning the jobs may take; the rest is for cutting together [-]."""
CUTTING_WORK = 4.0
"""Work for each pool of the batch over that for one stage of a plan [-]."""


def plan_batch(
    jobs: Mapping[str, Job], limits: Limits | None = None, progress: Progress | None = None
) -> Batch:
    """Plan several jobs and cut their parts together.

    Parameters
    ----------
    jobs
        By the name that each has in the batch; all with the same kerf, edge trim, margin,
        stages, first cut and currency (:func:`solver.planning.batch.agree.agreed`).
    limits
        Seed, deterministic work and wall-clock backstop; left out, the defaults.

    Returns
    -------
    Batch
        Never dearer than buying for each job by itself. Bounds hold for the parts of the
        options chosen.

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
    plans = _planned(jobs, limits, say)
    chosen = [Chosen(name, jobs[name], plan.options[0]) for name, plan in plans.items()]
    return _batch(chosen, plans, limits, say, started)


def _planned(jobs: Mapping[str, Job], limits: Limits, say: Progress) -> dict[str, Plan]:
    plans: dict[str, Plan] = {}
    for at, (name, job) in enumerate(jobs.items(), start=1):
        left = max(0.1, limits.seconds * PLANNING_SHARE - (limits.seconds - limits.seconds_left))
        share = Limits(limits.seed, limits.work, left * 2 / (len(jobs) - at + 2), limits.stopper)
        say(f"planning {name}, {at} of {len(jobs)}")
        plan = plan_job(job, share, near=False)
        if limits.stopper.stopped and not plan.options[0].fits_all:
            msg = f"stopped before {name} was planned; nothing is written"
            raise InterruptedPlanError(msg)
        plans[name] = plan
    _refuse(plans)
    return plans


def _refuse(plans: Mapping[str, Plan]) -> None:
    """Raise where a job has no option in which everything fits; all of them at once."""
    told = [
        f"{name}: {plan.options[0].why or 'nothing was found by the limit'}"
        for name, plan in plans.items()
        if not plan.options[0].fits_all
    ]
    if told:
        head = "not every job can be built as asked; change it, or leave it out of the batch"
        raise CannotBeDoneError("\n".join([head, *told]))


def _batch(
    chosen: Sequence[Chosen],
    plans: Mapping[str, Plan],
    limits: Limits,
    say: Progress,
    started: float,
) -> Batch:
    shop, unit = chosen[0].job.shop, chosen[0].job.unit
    parts = batch_parts(chosen)
    pools, bars = sheet_pools(chosen, parts), stick_pools(chosen)
    boards = []
    for at, pool in enumerate(pools):
        say(f"cutting {pool.material} for {len(pool.jobs)} jobs")
        boards.append(cut_sheets(pool, shop, unit, chosen, _share(limits, len(pools) - at)))
    sticks = [cut_sticks(bar, shop, unit, chosen, limits) for bar in bars]
    ordered = sequence([s for one in boards for s in one.sheets], shop, parts)
    sheets = tuple(with_slack(sheet) for sheet in ordered.sheets)
    laid = sequence_sticks([stick for one in sticks for stick in one.sticks])
    mouldings = tuple(stick_with_slack(stick) for stick in laid)
    found = [*boards, *sticks]
    cost, alone = _cost(chosen[0].job, boards, sticks), sum((one.alone for one in found), ZERO)
    return Batch(
        version=next(iter(plans.values())).version,
        unit=unit,
        status=_status(found, limits),
        shop=shop,
        jobs=_jobs(plans, found, sheets, mouldings),
        pools=(*_numbered(boards), *_numbered(sticks)),
        parts=parts,
        sheets=sheets,
        settings=ordered.settings,
        mouldings=mouldings,
        sheet_count=sum(one.count for one in boards),
        sheet_bound=sum(one.count_bound for one in boards),
        cost=cost,
        alone=alone,
        alone_sheets=sum(one.alone_count for one in boards),
        saving=alone - cost.total,
        least_slack=least_slack(sheets, mouldings),
        notes=tuple(sharing_notes([*pools, *bars], chosen, unit)),
        timing=Timing(seconds=round(time.perf_counter() - started, 3)),
    )


def _share(limits: Limits, pools: int) -> Limits:
    """Limits of one pool, where so many are still to be cut."""
    seconds = limits.seconds_left / pools
    return Limits(limits.seed, limits.work * CUTTING_WORK, seconds, limits.stopper)


def _status(found: Sequence[Bought], limits: Limits) -> Status:
    proven = all(one.status is Status.OPTIMAL for one in found)
    return Status.OPTIMAL if proven and not limits.stopper.stopped else Status.FEASIBLE


def _numbered(found: Sequence[Bought]) -> list[Pool]:
    pools, first = [], 1
    for one in found:
        pools.append(one.shown(first))
        first += len(one.stock)
    return pools


def _cost(job: Job, boards: Sequence[Bought], sticks: Sequence[Bought]) -> Cost:
    found = [*boards, *sticks]
    bought = [one for some in found for one in some.stock if not one.on_hand]
    sheets, mouldings = total(boards), total(sticks)
    return Cost(
        currency=job.head.currency,
        sheets=sheets,
        mouldings=mouldings,
        stock_bound=sum((one.bound for one in found), ZERO),
        total=sheets + mouldings,
        complete=all(one.price is not None for one in bought),
    )


def _jobs(
    plans: Mapping[str, Plan],
    found: Sequence[Bought],
    sheets: Sequence[Sheet],
    mouldings: Sequence[Stick],
) -> tuple[BatchJob, ...]:
    share = _shares(plans, found)
    return tuple(
        BatchJob(
            name=name,
            option=plan.options[0].name,
            share=share[name],
            alone=_alone(plan.options[0]),
            alone_sheets=plan.options[0].sheet_count,
            sheets=_carrying(name, sheets),
            mouldings=_carrying(name, mouldings),
            plan=_of_one_option(plan),
        )
        for name, plan in plans.items()
    )


def _shares(plans: Mapping[str, Plan], found: Sequence[Bought]) -> dict[str, Decimal]:
    """Each pool's price is shared by the jobs that have parts in it, by area or length."""
    share = dict.fromkeys(plans, ZERO)
    for one in found:
        weights = weights_by_job(one.pool)
        for name, part in zip(weights, shares(one.price, list(weights.values())), strict=True):
            share[name] += part
    return share


def _alone(option: Option) -> Decimal:
    assert option.cost is not None
    return option.cost.sheets + option.cost.mouldings


def _carrying(name: str, stock: Sequence[Sheet | Stick]) -> tuple[int, ...]:
    return tuple(
        number
        for number, one in enumerate(stock, start=1)
        if any(piece.part.startswith(f"{name}/") for piece in one.pieces)
    )


def _of_one_option(plan: Plan) -> Plan:
    others = plan.not_shown + len(plan.options) - 1
    return plan.model_copy(update={"options": plan.options[:1], "not_shown": others})
