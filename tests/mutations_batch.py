"""For each rule on batches, a change that breaks it in a good batch, and what must be found."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from functools import cache
from typing import Any, TypeAlias

from solver.batch.plan_batch import plan_batch
from solver.checking.findings import Code
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.joint_purchase import Batch
from tests.batches import LIPS, SHEETS, client_job
from tests.edits import more, put

Change: TypeAlias = Callable[[Batch], Batch]


def two_jobs() -> dict[str, Job]:
    """Two clients with lips; the first has a sheet on hand, and one more may be bought for each.

    The depth of the second is open.
    """
    depth = {"depth": {"least": "9", "most": "9-1/2", "wish": "9-1/4"}}
    cases = {"hill": LIPS["case"], "mill": {**LIPS["case"], **depth}}
    return {
        name: client_job(number, case=cases[name], moulding=LIPS["moulding"], sheet=_stock(there))
        for number, (name, there) in enumerate({"hill": 1, "mill": 0}.items())
    }


def _stock(there: int) -> list[dict[str, Any]]:
    board, back = SHEETS
    return [{**board, "on_hand": there, "limit": 1}, {**back, "limit": 2}]


@cache
def good_batch() -> Batch:
    """The batch itself."""
    return plan_batch(two_jobs(), Limits(work=0.5))


def change(path: str, value: Any) -> Change:
    """A change at a dotted path of the batch."""
    return lambda batch: put(batch, path, value)


def in_job(number: int, path: str, value: Any) -> Change:
    """A change of a job as its plans have it; the hash is brought up to date."""

    def made(batch: Batch) -> Batch:
        for plan in ("plan", "built"):
            batch = put(batch, f"jobs.{number}.{plan}.job.{path}", value)
        digest = batch.jobs[number].plan.job.hash
        for plan in ("plan", "built"):
            batch = put(batch, f"jobs.{number}.{plan}.job_hash", digest)
        return batch

    return made


def in_built(number: int, path: str, value: Any) -> Change:
    """A change of the option of a job as it is built."""
    return lambda batch: put(batch, f"jobs.{number}.built.options.0.{path}", value)


def _elsewhere(batch: Batch) -> Batch:
    """A part said to be on another sheet than it is."""
    shared = batch.jobs[0].built.options[0].shared
    assert shared is not None
    part = next(iter(shared.sheets))
    return in_built(0, f"shared.sheets.{part}", len(batch.sheets) + 1)(batch)


def _part_forgotten(batch: Batch) -> Batch:
    """A part of a job of which nobody says on which sheet it is."""
    shared = batch.jobs[0].built.options[0].shared
    assert shared is not None
    rest = dict(list(shared.sheets.items())[1:])
    return in_built(0, "shared.sheets", rest)(batch)


def both(*changes: Change) -> Change:
    """Several changes, one after the other."""

    def made(batch: Batch) -> Batch:
        for one in changes:
            batch = one(batch)
        return batch

    return made


def _bought(batch: Batch) -> int:
    """Place of a sheet that is bought and carries parts of the first job, among the sheets."""
    return next(
        at
        for at, sheet in enumerate(batch.sheets)
        if not sheet.on_hand and sheet.pieces[0].part.startswith("hill/")
    )


def _cent_moved(batch: Batch) -> Batch:
    """Two cents more for one job and two less for the other: more than rounding may shift."""
    cents = Decimal("0.10")
    return both(change("jobs.0.share", more(cents)), change("jobs.1.share", more(-cents)))(batch)


BATCH: dict[Code, tuple[Change, frozenset[Code]]] = {
    Code.BATCH_NAMES: (change("jobs.1.name", "hill"), frozenset()),
    Code.BATCH_OPTION: (change("jobs.0.option", "9 shelves"), frozenset()),
    Code.BATCH_SHOP: (change("shop.kerf", more(1)), frozenset()),
    Code.BATCH_PARTS: (change("parts.0.case", "hill"), frozenset()),
    Code.BATCH_STOCK: (
        in_job(0, "sheets.1.price", Decimal("40.00")),
        frozenset({Code.STOCK_PRICE}),
    ),
    Code.BATCH_LIMIT: (
        both(in_job(0, "sheets.1.limit", 1), in_job(1, "sheets.1.limit", 0)),
        frozenset({Code.STOCK_LIMIT, Code.BATCH_STOCK}),
    ),
    Code.BATCH_ON_HAND: (
        in_job(0, "sheets.0.on_hand", 0),
        frozenset({Code.STOCK_ON_HAND, Code.BATCH_STOCK}),
    ),
    Code.BATCH_POOL: (change("pools.0.thickness", more(1)), frozenset()),
    Code.BATCH_POOL_FIGURES: (change("pools.0.count", more(1)), frozenset()),
    Code.BATCH_SHARE: (_cent_moved, frozenset({Code.BATCH_BUILT})),
    Code.BATCH_ALONE: (change("jobs.0.alone_sheets", more(1)), frozenset()),
    Code.BATCH_SAVING: (change("saving", more(Decimal("1.00"))), frozenset()),
    Code.BATCH_CARRIED: (change("jobs.1.sheets", ()), frozenset()),
    Code.BATCH_BUILT: (_elsewhere, frozenset()),
    Code.BATCH_SIZES: (change("sizes.away", more(1)), frozenset()),
    Code.SHARED_OWN: (in_built(0, "sheet_count", 1), frozenset()),
    Code.SHARED_PARTS: (_part_forgotten, frozenset({Code.BATCH_BUILT})),
}
