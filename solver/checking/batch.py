"""Rules on a batch: its jobs, the stock they share, and who pays what.

Each job's plan is checked as any plan; here it is what the jobs have in common, restated
from their plans alone.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from decimal import Decimal

from solver.checking import batch_jobs, pieces, stock_cost, strip_slack, trim
from solver.checking.batch_jobs import WHERE, stock_of
from solver.checking.check import check, of_purchase, of_settings, of_sheets, of_sticks
from solver.checking.findings import Code, Finding, finding
from solver.checking.stock_cost import sheet_where
from solver.checking.structure import view
from solver.checking.views import same
from solver.outcome import Status
from solver.plan.joint_purchase import Batch, BatchJob, Pool
from solver.plan.stocked import Part, Sheet, Stick

SHOP_KEYS = ("kerf", "edge_trim", "margin", "stages", "trimming", "first_cut")


def check_batch(batch: Batch) -> tuple[Finding, ...]:
    """Check a batch from itself alone: every plan in it, then all that the jobs share.

    What they share cannot be checked where the names of the jobs do not tell them apart.
    """
    plans = [plan for job in batch.jobs for plan in (job.plan, job.built)]
    of_plans = [finding for plan in plans for finding in check(plan)]
    confused = tuple(names(batch))
    rules = () if confused else RULES
    return (*of_plans, *confused, *(f for rule in rules for f in rule(batch)))


def names(batch: Batch) -> Iterator[Finding]:
    """Jobs have names of their own, without a stroke, so that ids tell whose a part is."""
    has = Counter(job.name for job in batch.jobs)
    for name, times in has.items():
        if times > 1 or "/" in name:
            yield finding(
                Code.BATCH_NAMES, WHERE, f"name {name!r}", "that of one job, without /", f"{times}"
            )


def one_option(batch: Batch) -> Iterator[Finding]:
    """Each plan, by itself and as built, has one option, the same, with everything in it."""
    for job in batch.jobs:
        options = (*job.plan.options, *job.built.options)
        has = [option.name for option in options if option.fits_all]
        yield from same(Code.BATCH_OPTION, f"{WHERE}, {job.name}", "options", [job.option] * 2, has)


def shop(batch: Batch) -> Iterator[Finding]:
    """All jobs are cut with the kerf, trim, margin and stages of the batch."""
    needs = tuple(getattr(batch.shop, key) for key in SHOP_KEYS)
    for job in batch.jobs:
        has = tuple(getattr(job.plan.job.shop, key) for key in SHOP_KEYS)
        what = "kerf, edge trim, margin [tick], stages and first cut"
        yield from same(Code.BATCH_SHOP, f"{WHERE}, {job.name}", what, needs, has)


def listed(batch: Batch) -> Iterator[Finding]:
    """The parts are those of the jobs' options, with the name of the job before id and case."""
    needs = {part.id: part for job in batch.jobs for part in _parts(job)}
    has = {part.id: part for part in batch.parts}
    if len(has) != len(batch.parts):
        yield finding(Code.BATCH_PARTS, WHERE, "ids of parts", "all different", "some twice")
    for ident in sorted(needs.keys() | has.keys()):
        if needs.get(ident) != has.get(ident):
            yield finding(
                Code.BATCH_PARTS,
                f"{WHERE}, part {ident}",
                "part",
                "as in its job" if ident in needs else "left off",
                "other" if ident in has else "missing",
            )


def _parts(job: BatchJob) -> list[Part]:
    return [
        part.model_copy(update={"id": f"{job.name}/{part.id}", "case": f"{job.name}/{part.case}"})
        for option in job.built.options[:1]
        for part in option.parts
    ]


def sheets(batch: Batch) -> Iterator[Finding]:
    """Every sheet is cut as any sheet is, and every part once."""
    parts = {part.id: part for part in batch.parts}
    yield from pieces.each_once(batch.sheets, parts, WHERE)
    yield from of_sheets(batch.sheets, parts, batch.shop, WHERE, batch.unit)
    yield from of_settings(batch.settings, batch.sheets, WHERE)


def moulded(batch: Batch) -> Iterator[Finding]:
    """Every stick is cut as any stick is, and every lip once."""
    lips = {
        f"{job.name}/{ident}": lip
        for job in batch.jobs
        for option in job.built.options[:1]
        for case in view(job.built, option).cases
        for ident, lip in trim.moulded(case).items()
    }
    lengths = {ident: length for ident, (_, length) in lips.items()}
    names = {ident: name for ident, (name, _) in lips.items()}
    yield from strip_slack.each_once(batch.mouldings, lengths, WHERE)
    ordered = names, batch.shop.margin
    yield from of_sticks(batch.mouldings, lengths, WHERE, batch.unit, ordered)


def figures(batch: Batch) -> Iterator[Finding]:
    """Counts, prices and the least slack are those of the sheets and sticks."""
    yield from strip_slack.least(
        batch.sheets, batch.mouldings, batch.least_slack, WHERE, batch.unit
    )
    bought = stock_cost.Bought(
        WHERE, batch.sheets, batch.mouldings, batch.sheet_count, batch.sheet_bound, batch.cost
    )
    yield from of_purchase(bought)
    for job in batch.jobs:
        where, currency = f"{WHERE}, {job.name}", job.plan.job.head.currency
        yield from same(Code.COST_CURRENCY, where, "currency", batch.cost.currency, currency)
    met = not batch.cost.complete or batch.cost.total == batch.cost.stock_bound
    if batch.status is Status.OPTIMAL and not met:
        yield finding(
            Code.STATUS_OPTIMAL,
            WHERE,
            "bound of an optimal batch",
            str(batch.cost.total),
            str(batch.cost.stock_bound),
        )


def _users(batch: Batch, one: Sheet | Stick) -> list[BatchJob]:
    """Jobs that have parts on a sheet or stick."""
    names = {piece.part.split("/")[0] for piece in one.pieces}
    return [job for job in batch.jobs if job.name in names]


def stock(batch: Batch) -> Iterator[Finding]:
    """What is bought is sold to each job on it in that size at that price.

    What is on hand is on hand in one of the jobs that share the material.
    """
    for number, one in _everything(batch):
        where = sheet_where(WHERE, number, one)
        users, pool = _users(batch, one), _pool_of(batch, number, one)
        if one.on_hand:
            sharing = [job for job in batch.jobs if pool is not None and job.name in pool.jobs]
            ok = any(_there(job, one) for job in sharing)
        else:
            ok = all(one.price in _sold(job, one) for job in users)
        if not ok:
            needs = "listed by a job that shares it" if one.on_hand else "sold so to all jobs on it"
            yield finding(Code.BATCH_STOCK, where, "size and price", needs, str(one.price))


def _everything(batch: Batch) -> Iterator[tuple[int, Sheet | Stick]]:
    yield from enumerate(batch.sheets, start=1)
    yield from enumerate(batch.mouldings, start=1)


def _lines(job: BatchJob, one: Sheet | Stick) -> list[tuple[Decimal | None, int, int | None]]:
    """Price, number on hand and limit of that size in a job."""
    if isinstance(one, Sheet):
        size = one.material, one.length, one.width
        return [
            (s.price, s.on_hand, s.limit)
            for s in job.plan.job.sheets
            if (s.material, s.length, s.width) == size
        ]
    return [
        (s.price, s.on_hand, s.limit)
        for moulding in job.plan.job.mouldings
        for s in moulding.lengths
        if (moulding.name, s.length) == (one.stock, one.length)
    ]


def _sold(job: BatchJob, one: Sheet | Stick) -> list[Decimal | None]:
    return [price for price, _, limit in _lines(job, one) if limit != 0]


def _there(job: BatchJob, one: Sheet | Stick) -> int:
    return sum(on_hand for _, on_hand, _ in _lines(job, one))


def numbers(batch: Batch) -> Iterator[Finding]:
    """No more is taken or bought than the jobs that share it have, or may buy, together."""
    seen: dict[object, list[Sheet | Stick]] = {}
    for number, one in _everything(batch):
        pool = _pool_of(batch, number, one)
        width = one.width if isinstance(one, Sheet) else 0
        at = None if pool is None else batch.pools.index(pool)
        seen.setdefault((at, one.length, width), []).append(one)
    for some in seen.values():
        sharing = _sharing(batch, some[0])
        there = sum(_there(job, some[0]) for job in sharing)
        taken = sum(one.on_hand for one in some)
        where = f"{WHERE}, {some[0].stock}"
        if taken > there:
            yield finding(
                Code.BATCH_ON_HAND, where, "number taken from those on hand", f"{there}", f"{taken}"
            )
        limits = [limit for job in sharing for _, _, limit in _lines(job, some[0])]
        bought = len(some) - taken
        if None not in limits and bought > sum(limit or 0 for limit in limits):
            most = sum(limit or 0 for limit in limits)
            yield finding(Code.BATCH_LIMIT, where, "number bought", f"at most {most}", f"{bought}")


def _sharing(batch: Batch, one: Sheet | Stick) -> list[BatchJob]:
    pools = [
        p for n, other in _everything(batch) if other is one and (p := _pool_of(batch, n, one))
    ]
    return [job for job in batch.jobs if any(job.name in pool.jobs for pool in pools)]


def _pool_of(batch: Batch, number: int, one: Sheet | Stick) -> Pool | None:
    kind = "sheets" if isinstance(one, Sheet) else "mouldings"
    return next((p for p in batch.pools if p.kind == kind and number in p.stock), None)


def pools(batch: Batch) -> Iterator[Finding]:
    """Every sheet is in one pool, of its material and thickness, with the jobs that are on it."""
    thick = {part.id: part.thickness for part in batch.parts}
    for kind, stock_ in (("sheets", batch.sheets), ("mouldings", batch.mouldings)):
        has = sorted(n for pool in batch.pools if pool.kind == kind for n in pool.stock)
        needs = list(range(1, len(stock_) + 1))
        yield from same(Code.BATCH_POOL, WHERE, f"{kind} in pools", needs, has)
    for pool in batch.pools:
        where, own = f"{WHERE}, {pool.material}", stock_of(batch, pool)
        users = {job.name for one in own for job in _users(batch, one)}
        has_jobs = sorted(pool.jobs)
        yield from same(Code.BATCH_POOL, where, "jobs that share it", sorted(users), has_jobs)
        for one in own:
            made_of = one.material if isinstance(one, Sheet) else one.stock
            yield from same(Code.BATCH_POOL, where, "material", pool.material, made_of)
        for size in {thick[p.part] for one in own for p in one.pieces if p.part in thick}:
            yield from same(Code.BATCH_POOL, where, "thickness [tick]", pool.thickness, size)


def carried(batch: Batch) -> Iterator[Finding]:
    """A job names the sheets and sticks that carry parts of it."""
    for job in batch.jobs:
        needs = _carrying(job, batch.sheets), _carrying(job, batch.mouldings)
        where, has = f"{WHERE}, {job.name}", (job.sheets, job.mouldings)
        yield from same(Code.BATCH_CARRIED, where, "sheets and sticks with parts of it", needs, has)


def _carrying(job: BatchJob, some: Sequence[Sheet | Stick]) -> tuple[int, ...]:
    return tuple(
        number
        for number, one in enumerate(some, start=1)
        if any(piece.part.split("/")[0] == job.name for piece in one.pieces)
    )


RULES = (
    one_option,
    shop,
    listed,
    sheets,
    moulded,
    figures,
    stock,
    numbers,
    pools,
    carried,
    *batch_jobs.MONEY_RULES,
    *batch_jobs.BUILT_RULES,
)
"""All rules on a batch as a whole."""
