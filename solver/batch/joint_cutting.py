"""The parts of several jobs cut together, and never dearer than each job by itself."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from solver.batch.shared_stock import ChosenJob, SheetPool, StickPool
from solver.cutting.cutting_answer import Answer, Stock
from solver.cutting.cutting_problem import CuttingProblem, StickProblem
from solver.cutting.solve_sheets import solve_cutting
from solver.job.job import Shop
from solver.outcome import Limits, Status
from solver.plan.joint_purchase import Pool, part_of
from solver.plan.plan import money
from solver.plan.stocked import Sheet, Stick
from solver.sticks.solve_sticks import solve_sticks
from solver.units import Unit

ZERO = Decimal("0.00")


@dataclass(frozen=True)
class PoolPurchase:
    """Sheets or sticks of one pool as cut, and what is proven about them.

    Attributes
    ----------
    alone, alone_count
        Price and number where each job buys by itself.
    """

    pool: SheetPool | StickPool
    stock: tuple[Sheet | Stick, ...]
    count: int
    count_bound: int
    price: Decimal
    bound: Decimal
    status: Status
    alone: Decimal
    alone_count: int

    @property
    def is_sheets(self) -> bool:
        """Whether it is of sheets, not of mouldings."""
        return isinstance(self.pool, SheetPool)

    @property
    def sheets(self) -> list[Sheet]:
        """Its sheets."""
        return [one for one in self.stock if isinstance(one, Sheet)]

    @property
    def sticks(self) -> list[Stick]:
        """Its sticks."""
        return [one for one in self.stock if isinstance(one, Stick)]

    def shown(self, first: int) -> Pool:
        """Return the pool as the batch states it; its stock is numbered from `first`."""
        return Pool(
            material=self.pool.material,
            kind="sheets" if isinstance(self.pool, SheetPool) else "mouldings",
            thickness=self.pool.thickness,
            jobs=self.pool.jobs,
            count=self.count,
            count_bound=self.count_bound,
            price=self.price,
            bound=self.bound,
            alone=self.alone,
            alone_count=self.alone_count,
            status=self.status,
            stock=tuple(range(first, first + len(self.stock))),
        )


def sheet_problem(pool: SheetPool, shop: Shop, unit: Unit) -> CuttingProblem:
    """Return the cutting problem of a pool of sheets."""
    return CuttingProblem(
        parts=pool.parts,
        sheets=pool.sheets,
        kerf=shop.kerf,
        edge_trim=shop.edge_trim,
        margin=shop.margin,
        stages=shop.stages,
        trimming=shop.trimming,
        first_cut=shop.first_cut,
        unit=unit,
    )


def stick_problem(pool: StickPool, shop: Shop, unit: Unit) -> StickProblem:
    """Return the cutting problem of a pool of mouldings."""
    return StickProblem(pool.pieces, pool.sticks, shop.kerf, unit, shop.margin)


def cut_sheets(
    pool: SheetPool,
    shop: Shop,
    unit: Unit,
    built: Sequence[ChosenJob],
    apart: Sequence[ChosenJob],
    limits: Limits,
) -> PoolPurchase:
    """Cut a pool together; where the search found nothing better, keep each job's own sheets.

    Parameters
    ----------
    built, apart
        The jobs as they are built, and as planned each by itself, perhaps at other sizes.
    """
    answer = solve_cutting(sheet_problem(pool, shop, unit), limits)
    return _bought(pool, answer, _own_sheets(pool, built), _own_sheets(pool, apart))


def cut_sticks(
    pool: StickPool,
    shop: Shop,
    unit: Unit,
    built: Sequence[ChosenJob],
    apart: Sequence[ChosenJob],
    limits: Limits,
) -> PoolPurchase:
    """Cut a moulding together; see :func:`cut_sheets`."""
    answer = solve_sticks(stick_problem(pool, shop, unit), limits)
    return _bought(pool, answer, _own_sticks(pool, built), _own_sticks(pool, apart))


def _bought(
    pool: SheetPool | StickPool,
    answer: Answer,
    own: Sequence[Sheet | Stick],
    alone: Sequence[Sheet | Stick],
) -> PoolPurchase:
    stock = answer.stock if _weight(answer.stock) <= _weight(own) else own
    price, count = _price(stock), sum(not one.on_hand for one in stock)
    met = answer.priced and price == answer.cost_bound
    return PoolPurchase(
        pool=pool,
        stock=tuple(stock),
        count=count,
        count_bound=min(count, answer.count_bound),
        price=price,
        bound=min(price, answer.cost_bound),
        status=Status.OPTIMAL if met else answer.status,
        alone=_price(alone),
        alone_count=sum(not one.on_hand for one in alone),
    )


def _price(stock: Sequence[Sheet | Stick]) -> Decimal:
    return sum((s.price for s in stock if s.price is not None and not s.on_hand), ZERO)


def _weight(stock: Sequence[Sheet | Stick]) -> tuple[Decimal, int, int]:
    """Return what answers are compared by: price, area bought, then number."""
    bought = [one for one in stock if not one.on_hand]
    area = sum(s.length * (s.width if isinstance(s, Sheet) else 1) for s in bought)
    return _price(stock), area, len(bought)


def _renamed(stock: Stock, job: str) -> Stock:
    """Return a sheet or stick of a job's own plan with the batch's names for parts."""
    pieces = tuple(p.model_copy(update={"part": part_of(job, p.part)}) for p in stock.pieces)
    return stock.model_copy(update={"pieces": pieces})


def _own_sheets(pool: SheetPool, chosen: Sequence[ChosenJob]) -> list[Sheet]:
    """Return sheets of the jobs' own plans, with the batch's names for parts and stock."""
    return [
        _renamed(sheet, one.name).model_copy(update={"stock": _stock_name(pool, sheet)})
        for one in chosen
        if one.name in pool.jobs
        for sheet in one.option.sheets
        if sheet.material == pool.material
    ]


def _stock_name(pool: SheetPool, sheet: Sheet) -> str:
    """Return the name of the stock of that size in the pool: jobs may name a size differently."""
    alike = [s for s in pool.sheets if (s.length, s.width) == (sheet.length, sheet.width)]
    named = [s for s in alike if s.stock == sheet.stock]
    return (named or alike)[0].stock


def _own_sticks(pool: StickPool, chosen: Sequence[ChosenJob]) -> list[Stick]:
    return [
        _renamed(stick, one.name)
        for one in chosen
        if one.name in pool.jobs
        for stick in one.option.mouldings
        if stick.stock == pool.material
    ]


def weights_by_job(pool: SheetPool | StickPool) -> Mapping[str, int]:
    """Return the weights by job that share a pool's price: area of parts or length of moulding."""
    sizes = (
        [(part.id, part.length * part.width) for part in pool.parts]
        if isinstance(pool, SheetPool)
        else [(piece.id, piece.length) for piece in pool.pieces]
    )
    return {
        name: sum(size for ident, size in sizes if ident.startswith(f"{name}/"))
        for name in pool.jobs
    }


def total(found: Sequence[PoolPurchase]) -> Decimal:
    """Return the price of all pools together."""
    return sum((one.price for one in found), money(0))
