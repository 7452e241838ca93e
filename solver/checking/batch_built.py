"""Rules on jobs as they are built in a batch: their parts on its sheets, their open sizes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from solver.batch import Batch, BatchJob
from solver.checking.batch_price import WHERE
from solver.checking.compare import same
from solver.checking.findings import Code, Finding, finding
from solver.plan import OpenSize, Plan
from solver.stocked import SharedStock, Sheet, Stick


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
    """What is said of the open sizes is what the plans have; no bound is above its value."""
    every = [size for job in batch.jobs for size in _open(job.built)]
    if batch.sizes is None:
        yield from same(Code.BATCH_SIZES, WHERE, "open sizes told", len(every), 0)
        return
    said = batch.sizes
    yield from same(Code.BATCH_SIZES, WHERE, "open sizes", len(every), said.count)
    moved = [job.name for job in batch.jobs if _open(job.built) != _open(job.plan)]
    yield from same(Code.BATCH_SIZES, WHERE, "jobs of other sizes", moved, list(said.moved))
    away = sum(abs(size.chosen - size.wish) for size in every)
    yield from same(Code.BATCH_SIZES, WHERE, "distance from the wishes [tick]", away, said.away)
    if said.away_bound > said.away or said.bound > batch.cost.total:
        most = f"at most {batch.cost.total} and {said.away}"
        has = f"{said.bound} and {said.away_bound}"
        yield finding(Code.BATCH_SIZES, WHERE, "bounds", most, has)
    if said.proven and said.bound != batch.cost.total:
        needs = str(batch.cost.total)
        yield finding(Code.BATCH_SIZES, WHERE, "bound where proven", needs, str(said.bound))


def _open(plan: Plan) -> list[OpenSize]:
    return [size for option in plan.options for size in option.open_sizes]


RULES = (as_planned, carried, sizes)
"""All rules on what is built."""
