"""Each job as it is built in a batch: at the sizes chosen together, cut from the common stock."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from decimal import Decimal

from solver.batch.batch_sizes import Client, SizesChosen, Together
from solver.carcass.settled_job import settled_job
from solver.changes.saving_changes import with_room
from solver.job.case import SizeRange
from solver.job.job import Job
from solver.outcome import Limits, Progress, Status
from solver.plan.joint_purchase import part_of
from solver.plan.plan import Cost, Option, Plan, Stage
from solver.plan.stocked import SharedStock, Sheet, Stick
from solver.planning.band_parts import with_band
from solver.planning.plan_option import plan_option
from solver.sizing.choose_sizes import ChosenSizes, size_search
from solver.sizing.option_sizes import Sizing
from solver.sizing.purchase import Buyer
from solver.sizing.size_grid import Grid, Point

WORK = 0.25
"""Work for a stage when a job is laid out again, as a share of that in a plan [-]."""
OF_BATCH = "its share of what the batch buys"
"""Note on the price of a job in a batch."""


def together_of(jobs: Mapping[str, Job], plans: Mapping[str, Plan], limits: Limits) -> Together:
    """Return the search over the sizes of every job, with the shelf counts it is recommended."""
    return Together(tuple(_client(name, jobs[name], plans[name], limits) for name in plans))


def _client(name: str, job: Job, plan: Plan, limits: Limits) -> Client:
    option = plan.options[0]
    counts, share = option.shelf_counts, not option.lines_given_up
    search = size_search(job, counts, Buyer(job, limits), limits, share=share)
    point = _point_of(search.grid, option)
    if point is None:  # a size that is on no step: the job is taken as it was planned
        fixed = settled_job(job, option)
        search = size_search(fixed, counts, Buyer(fixed, limits), limits, share=share)
        point = ()
    return Client(name, job, counts, search, point)


def _point_of(grid: Grid, option: Option) -> Point | None:
    """Return the sizes of a finished option as a choice; None where one is not among them."""
    chosen = {(size.case, size.what): size.chosen for size in option.open_sizes}
    point = []
    for axis in grid.axes:
        value = chosen[axis.case, axis.what] - axis.added
        if value not in axis.values:
            return None
        point.append(axis.values.index(value))
    return tuple(point)


def any_open(jobs: Mapping[str, Job]) -> bool:
    """Whether any size of any job is open."""
    return any(
        isinstance(size, SizeRange)
        for job in jobs.values()
        for case in job.cases
        for size in (case.width, case.height, case.depth)
    )


def laid_out(
    together: Together, sizes: SizesChosen, limits: Limits, say: Progress
) -> dict[str, Option]:
    """Lay out the jobs whose sizes differ from those in their own plans, two at a time."""
    nearest = sizes.proven and sizes.away <= sizes.away_bound
    limits = replace(limits, work=limits.work * WORK)
    moved = [
        (client, own)
        for client, own in zip(together.clients, together.split(sizes.point), strict=True)
        if own != client.point
    ]

    def lay(pair: tuple[Client, Point]) -> Option:
        client, own = pair
        say(f"placing shelves of {client.name} at the sizes chosen together")
        return _laid(client, own, limits, say, nearest=nearest)

    with ThreadPoolExecutor(max_workers=2) as pool:
        return dict(zip((c.name for c, _ in moved), pool.map(lay, moved), strict=True))


def _laid(client: Client, point: Point, limits: Limits, say: Progress, *, nearest: bool) -> Option:
    job, search = client.job, client.search
    buyer = Buyer(job, limits)
    settled, depths = search.grid.settled(point)
    stock, distance = buyer.stock(client.counts, depths, settled), search.grid.distance(point)
    sized = ChosenSizes(
        job=settled,
        depths=depths,
        stock=stock,
        bound=stock.bound,
        price_proven=True,  # of the batch, as its own stages say
        sheet_bound=stock.sheet_bound,
        distance=distance,
        nearest=distance if nearest else 0,
        left=search.fitting.left.loss,
        left_bound=search.fitting.left.bound,
        axes=search.grid.axes,
        point=point,
    )
    sizing = Sizing(job, buyer, limits)
    sizing.take(client.counts, sized)
    option = plan_option(job, client.counts, buyer, limits, say, sizing)
    return with_band(job, with_room(option), limits)


@dataclass(frozen=True)
class Share:
    """What a job pays of the batch.

    Attributes
    ----------
    sheets, mouldings
        Its share of their price.
    complete
        Whether everything bought has a price.
    proven
        Whether the batch cannot cost less at any sizes.
    """

    sheets: Decimal
    mouldings: Decimal
    complete: bool
    proven: bool

    @property
    def total(self) -> Decimal:
        """All that it pays."""
        return self.sheets + self.mouldings

    @property
    def bound(self) -> Decimal:
        """Proven lower bound on its share."""
        return self.total if self.proven else Decimal("0.00")


def built_plan(
    name: str,
    alone: Plan,
    option: Option,
    share: Share,
    stock: tuple[Sequence[Sheet], Sequence[Stick]],
) -> Plan:
    """Return the plan of a job as it is built in the batch.

    Parameters
    ----------
    option
        The job laid out at its sizes.
    stock
        Sheets and sticks of the batch.
    """
    sheets, sticks = (_carrying(name, some) for some in stock)
    price = Stage(
        name="price",
        value=f"{share.total:.2f}",
        bound=f"{share.bound:.2f}",
        unit="money",
        proven=share.proven,
        note=OF_BATCH,
    )
    status = option.status if share.proven else min(option.status, Status.FEASIBLE, key=_strength)
    built = option.model_copy(
        update={
            "status": status,
            "stages": tuple(price if s.name == "price" else s for s in option.stages),
            "sheets": (),
            "settings": (),
            "sets": (),
            "mouldings": (),
            "sheet_count": 0,
            "sheet_bound": 0,
            "cost": Cost(
                currency=alone.job.head.currency,
                sheets=share.sheets,
                mouldings=share.mouldings,
                stock_bound=share.bound,
                total=share.total,
                complete=share.complete,
            ),
            "scores": option.scores and option.scores.model_copy(update={"board_used": 0.0}),
            "advice": (),
            "advice_note": None,
            "least_slack": None,
            "shared": SharedStock(name=name, sheets=sheets, mouldings=sticks),
            "tags": alone.options[0].tags,
        }
    )
    return alone.model_copy(update={"options": (built,)})


def _strength(status: Status) -> int:
    return (Status.UNKNOWN, Status.INFEASIBLE, Status.FEASIBLE, Status.OPTIMAL).index(status)


def _carrying(name: str, stock: Sequence[Sheet | Stick]) -> dict[str, int]:
    """Number of the sheet, or stick, that carries each part of a job."""
    prefix = part_of(name, "")
    return {
        piece.part.removeprefix(prefix): number
        for number, one in enumerate(stock, start=1)
        for piece in one.pieces
        if piece.part.startswith(prefix)
    }
