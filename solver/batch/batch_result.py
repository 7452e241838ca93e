"""The result of a batch: who pays what, what is proven, and the jobs as built."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from solver.batch.batch_sizes import SizesChosen
from solver.batch.built_jobs import Share, built_plan
from solver.batch.joint_cutting import ZERO, PoolPurchase, total, weights_by_job
from solver.batch.shared_stock import ChosenJob, batch_parts, sharing_notes
from solver.cutting.slack import least_slack, stick_with_slack, with_slack
from solver.job.job import Job
from solver.outcome import Limits, Status
from solver.plan.joint_purchase import Batch, BatchJob, JointSizes, Pool, shares
from solver.plan.plan import Cost, Option, Plan, Timing
from solver.plan.stocked import Sheet, Stick
from solver.rules_version import RULES
from solver.sequence.sequencing import sequence, sequence_sticks


@dataclass(frozen=True)
class BuiltTogether:
    """The jobs as they are built, and their open sizes as chosen together.

    Attributes
    ----------
    sizes
        The sizes chosen together; None where none is open.
    """

    built: tuple[ChosenJob, ...]
    sizes: SizesChosen | None


def batch_result(
    plans: Mapping[str, Plan],
    together: BuiltTogether,
    bought: Sequence[PoolPurchase],
    limits: Limits,
    seconds: float,
) -> Batch:
    """Return the batch; `bought` is each pool as bought, sheets first."""
    built = together.built
    shop, unit = built[0].job.shop, built[0].job.unit
    listed = [one.listed for one in built]
    parts = batch_parts(listed)
    boards = [one for one in bought if one.is_sheets]
    sticks = [one for one in bought if not one.is_sheets]
    ordered = sequence([s for one in boards for s in one.sheets], shop, parts)
    sheets = tuple(with_slack(sheet) for sheet in ordered.sheets)
    laid = sequence_sticks([stick for one in sticks for stick in one.sticks])
    mouldings = tuple(stick_with_slack(stick) for stick in laid)
    cost, alone = _cost(built[0].job, boards, sticks), sum((one.alone for one in bought), ZERO)
    status, sizes = _status(bought, limits), _sizes(together, plans, cost)
    proven = status is Status.OPTIMAL and (sizes is None or sizes.proven)
    return Batch(
        version=next(iter(plans.values())).version,
        rules=RULES,
        unit=unit,
        status=status,
        shop=shop,
        jobs=_jobs(plans, built, bought, (sheets, mouldings), cost, proven=proven),
        pools=(*_numbered(boards), *_numbered(sticks)),
        parts=parts,
        sheets=sheets,
        settings=ordered.settings,
        mouldings=mouldings,
        sheet_count=sum(one.count for one in boards),
        sheet_bound=sum(one.count_bound for one in boards),
        cost=cost,
        sizes=sizes,
        alone=alone,
        alone_sheets=sum(one.alone_count for one in boards),
        saving=alone - cost.total,
        least_slack=least_slack(sheets, mouldings),
        notes=tuple(sharing_notes([one.pool for one in bought], listed, unit)),
        timing=Timing(seconds=round(seconds, 3)),
    )


def _sizes(together: BuiltTogether, plans: Mapping[str, Plan], cost: Cost) -> JointSizes | None:
    """Say which jobs are built to other sizes than by themselves, and what is proven of them."""
    if together.sizes is None:
        return None
    chosen = {one.name: one.option.open_sizes for one in together.built}
    moved = [name for name, plan in plans.items() if plan.options[0].open_sizes != chosen[name]]
    away = sum(abs(s.chosen - s.wish) for sizes in chosen.values() for s in sizes)
    least = min(together.sizes.bound[0], cost.stock_bound, cost.total)
    return JointSizes(
        count=sum(len(sizes) for sizes in chosen.values()),
        moved=tuple(moved),
        bound=least,
        proven=cost.complete and least == cost.total,
        away=away,
        away_bound=min(away, together.sizes.away_bound),
    )


def _status(bought: Sequence[PoolPurchase], limits: Limits) -> Status:
    proven = all(one.status is Status.OPTIMAL for one in bought)
    return Status.OPTIMAL if proven and not limits.stopper.stopped else Status.FEASIBLE


def _numbered(bought: Sequence[PoolPurchase]) -> list[Pool]:
    pools, first = [], 1
    for one in bought:
        pools.append(one.shown(first))
        first += len(one.stock)
    return pools


def _cost(job: Job, boards: Sequence[PoolPurchase], sticks: Sequence[PoolPurchase]) -> Cost:
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
    built: Sequence[ChosenJob],
    bought: Sequence[PoolPurchase],
    stock: tuple[Sequence[Sheet], Sequence[Stick]],
    cost: Cost,
    *,
    proven: bool,
) -> tuple[BatchJob, ...]:
    of_sheets = _shares(plans, [one for one in bought if one.is_sheets])
    of_sticks = _shares(plans, [one for one in bought if not one.is_sheets])
    jobs = []
    for one in built:
        name, plan = one.name, _of_one_option(plans[one.name])
        share = Share(of_sheets[name], of_sticks[name], cost.complete, proven)
        alone = plan.options[0]
        jobs.append(
            BatchJob(
                name=name,
                option=alone.name,
                share=share.total,
                alone=_alone(alone),
                alone_sheets=alone.sheet_count,
                sheets=_carrying(name, stock[0]),
                mouldings=_carrying(name, stock[1]),
                plan=plan,
                built=built_plan(name, plan, one.option, share, stock),
            )
        )
    return tuple(jobs)


def _shares(plans: Mapping[str, Plan], bought: Sequence[PoolPurchase]) -> dict[str, Decimal]:
    """Each pool's price is shared by the jobs that have parts in it, by area or length."""
    share = dict.fromkeys(plans, ZERO)
    for one in bought:
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
