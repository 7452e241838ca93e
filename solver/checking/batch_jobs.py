"""Rules on jobs as they are built in a batch, and on who pays what for its stock."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal

from solver.checking.findings import Code, Finding, finding
from solver.checking.views import same
from solver.plan.joint_purchase import Batch, BatchJob, Pool
from solver.plan.plan import OpenSize, Plan
from solver.plan.stocked import SharedStock, Sheet, Stick
from solver.units import Ticks

WHERE = "batch"
"""Place for findings."""


def stock_of(batch: Batch, pool: Pool) -> list[Sheet | Stick]:
    """Return the sheets, or sticks, of a pool."""
    every: Sequence[Sheet | Stick] = batch.sheets if pool.kind == "sheets" else batch.mouldings
    return [every[number - 1] for number in pool.stock if 0 < number <= len(every)]


def pool_figures(batch: Batch) -> Iterator[Finding]:
    """Price and number of a pool are those of what it buys; its bounds are not above them."""
    for pool in batch.pools:
        bought = [one for one in stock_of(batch, pool) if not one.on_hand]
        needs = sum((one.price or Decimal(0) for one in bought), Decimal(0)), len(bought)
        where = f"{WHERE}, {pool.material}"
        has = pool.price, pool.count
        yield from same(Code.BATCH_POOL_FIGURES, where, "price and number", needs, has)
        if pool.bound > pool.price or pool.count_bound > pool.count:
            yield finding(
                Code.BATCH_POOL_FIGURES,
                where,
                "bounds",
                f"at most {pool.price} and {pool.count}",
                f"{pool.bound} and {pool.count_bound}",
            )
    has_bound = sum((pool.bound for pool in batch.pools), Decimal(0))
    yield from same(
        Code.BATCH_POOL_FIGURES, WHERE, "bound on the price", has_bound, batch.cost.stock_bound
    )


def share(batch: Batch) -> Iterator[Finding]:
    """A job pays for each pool by area or length, to the cent before the largest remainders.

    The shares add up to the price.
    """
    total = sum((job.share for job in batch.jobs), Decimal(0))
    yield from same(Code.BATCH_SHARE, WHERE, "sum of the shares", batch.cost.total, total)
    sizes = _sizes(batch)
    for job in batch.jobs:
        exact, rounded = Decimal(0), 0
        for pool in batch.pools:
            every = sum(sizes[pool.kind, pool.material, name] for name in pool.jobs)
            if job.name in pool.jobs and every:
                own = sizes[pool.kind, pool.material, job.name]
                exact += pool.price * own / every
                rounded += 1
        if abs(job.share - exact) >= Decimal("0.01") * max(1, rounded):
            yield finding(
                Code.BATCH_SHARE,
                f"{WHERE}, {job.name}",
                "share of the price",
                f"within a cent of {exact:.4f}",
                f"{job.share}",
            )


def _sizes(batch: Batch) -> Mapping[tuple[str, str, str], Ticks]:
    """Area of a job's parts of a material [tick2], and length of its lips of a moulding [tick]."""
    sizes: Counter[tuple[str, str, str]] = Counter()
    for part in batch.parts:
        sizes["sheets", part.material, part.id.split("/")[0]] += part.length * part.width
    for stick in batch.mouldings:
        for piece in stick.pieces:
            sizes["mouldings", stick.stock, piece.part.split("/")[0]] += piece.length
    return sizes


def alone(batch: Batch) -> Iterator[Finding]:
    """The prices of jobs by themselves are those of their own plans, and add up."""
    for job in batch.jobs:
        for option in job.plan.options[:1]:
            if option.cost is not None:
                needs = option.cost.sheets + option.cost.mouldings, option.sheet_count
                has = job.alone, job.alone_sheets
                where = f"{WHERE}, {job.name}"
                yield from same(Code.BATCH_ALONE, where, "price and sheets alone", needs, has)
    for what, one, rest in (
        ("of the jobs", [(job.alone, job.alone_sheets) for job in batch.jobs], batch.alone_sheets),
        (
            "of the pools",
            [(p.alone, p.alone_count if p.kind == "sheets" else 0) for p in batch.pools],
            batch.alone_sheets,
        ),
    ):
        needs = sum((price for price, _ in one), Decimal(0)), sum(n for _, n in one)
        yield from same(Code.BATCH_ALONE, WHERE, f"sum {what}", needs, (batch.alone, rest))


def saving(batch: Batch) -> Iterator[Finding]:
    """The saving is what is paid alone less what is paid together, and never less than nothing."""
    needs = batch.alone - batch.cost.total
    yield from same(Code.BATCH_SAVING, WHERE, "saving", needs, batch.saving)
    if batch.saving < 0:
        yield finding(Code.BATCH_SAVING, WHERE, "saving", "0 or more", str(batch.saving))


MONEY_RULES = (pool_figures, share, alone, saving)
"""All rules on the money of a batch."""


def as_planned(batch: Batch) -> Iterator[Finding]:
    """Built is the job that was planned by itself, with the same shelf counts."""
    for job in batch.jobs:
        needs = job.plan.job.hash, [one.shelf_counts for one in job.plan.options]
        has = job.built.job.hash, [one.shelf_counts for one in job.built.options]
        yield from same(Code.BATCH_BUILT, f"{WHERE}, {job.name}", "job and shelves", needs, has)


def carried(batch: Batch) -> Iterator[Finding]:
    """What is built names the sheets and sticks of the batch that carry its parts; it pays."""
    for job in batch.jobs:
        where = f"{WHERE}, {job.name}"
        for option in job.built.options:
            sheets, sticks = _on(job, batch.sheets), _on(job, batch.mouldings)
            needs = SharedStock(name=job.name, sheets=sheets, mouldings=sticks)
            if option.shared != needs:
                what = "sheets and sticks of its parts"
                yield finding(Code.BATCH_BUILT, where, what, "those of the batch", "others")
            if option.cost is not None:
                has = option.cost.total
                yield from same(Code.BATCH_BUILT, where, "cost of what is built", job.share, has)


def _on(job: BatchJob, stock: Sequence[Sheet | Stick]) -> dict[str, int]:
    prefix = f"{job.name}/"
    return {
        piece.part.removeprefix(prefix): number
        for number, one in enumerate(stock, start=1)
        for piece in one.pieces
        if piece.part.startswith(prefix)
    }


def sizes(batch: Batch) -> Iterator[Finding]:
    """The figures on open sizes are those of the plans; no bound is above its value."""
    every = [size for job in batch.jobs for size in _open(job.built)]
    if batch.sizes is None:
        yield from same(Code.BATCH_SIZES, WHERE, "open sizes told", len(every), 0)
        return
    stated = batch.sizes
    yield from same(Code.BATCH_SIZES, WHERE, "open sizes", len(every), stated.count)
    moved = [job.name for job in batch.jobs if _open(job.built) != _open(job.plan)]
    yield from same(Code.BATCH_SIZES, WHERE, "jobs of other sizes", moved, list(stated.moved))
    away = sum(abs(size.chosen - size.wish) for size in every)
    yield from same(Code.BATCH_SIZES, WHERE, "distance from the wishes [tick]", away, stated.away)
    if stated.away_bound > stated.away or stated.bound > batch.cost.total:
        most = f"at most {batch.cost.total} and {stated.away}"
        has = f"{stated.bound} and {stated.away_bound}"
        yield finding(Code.BATCH_SIZES, WHERE, "bounds", most, has)
    if stated.proven and stated.bound != batch.cost.total:
        needs = str(batch.cost.total)
        yield finding(Code.BATCH_SIZES, WHERE, "bound where proven", needs, str(stated.bound))


def _open(plan: Plan) -> list[OpenSize]:
    return [size for option in plan.options for size in option.open_sizes]


BUILT_RULES = (as_planned, carried, sizes)
"""All rules on what is built."""
