"""Rules on the money of a batch: what pools cost, who pays what, what is saved."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal

from solver.batch import Batch, Pool
from solver.checking.compare import same
from solver.checking.findings import Code, Finding, finding
from solver.stocked import Sheet, Stick
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
    """What jobs pay by themselves is what their own plans cost."""
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


RULES = (pool_figures, share, alone, saving)
"""All rules on the money of a batch."""
