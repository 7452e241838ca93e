"""Tiny jobs with open sizes, every choice of them, and the layout problem at each."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from itertools import product
from typing import Any

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from solver.carcass.outline import back_counted
from solver.carcass.settled_job import CaseSize, settle
from solver.errors import CannotBeDoneError
from solver.job.case import Case, SizeRange
from solver.job.job import Job
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.sizing.purchase import Buyer
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks
from tests.strategies import tiny_jobs

tiny = settings(
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
    derandomize=True,
)
STEP = {"in": TICKS_PER_INCH, "mm": 25 * TICKS_PER_MM}
"""Sizes move on whole inches, or 25 mm, so that all of them can be tried [tick]."""


@st.composite
def open_jobs(draw: st.DrawFn) -> Job:
    """A tiny job with one to three sizes left open by up to three steps, and sheets with prices."""
    job = draw(tiny_jobs(may_lie=True, group=False))
    (case,) = job.cases
    step = STEP[job.unit]
    names = draw(st.lists(st.sampled_from(["width", "height", "depth"]), min_size=1, unique=True))
    opened = {name: _range(draw, getattr(case, name), step) for name in names}
    shelves = sorted({case.shelf_counts[0], draw(st.integers(1, 3))})
    sides = draw(st.sampled_from([(96, 48), (48, 24), (60, 30), (36, 36)]))
    sheets = tuple(
        sheet.model_copy(
            update={
                "length": sides[0] * TICKS_PER_INCH,
                "width": sides[1] * TICKS_PER_INCH,
                "price": Decimal("40.00") if sheet.material == case.material else Decimal("9.00"),
            }
        )
        for sheet in job.sheets
    )
    cases = (case.model_copy(update={**opened, "shelves": tuple(shelves)}),)
    shop = job.shop.model_copy(update={"cutting_step": step})
    return job.model_copy(update={"cases": cases, "sheets": sheets, "shop": shop})


def _range(draw: st.DrawFn, size: Any, step: Ticks) -> SizeRange:
    least = size - size % step
    steps = draw(st.integers(1, 3))
    wish = draw(st.one_of(st.none(), st.integers(0, steps).map(lambda n: least + n * step)))
    return SizeRange(least=least, most=least + steps * step, wish=wish)


def values(size: int | SizeRange, step: Ticks) -> list[Ticks]:
    """The sizes on the step; the one that is given [tick]."""
    return list(range(size.least, size.most + 1, step)) if isinstance(size, SizeRange) else [size]


def depths(job: Job, case: Case) -> list[Ticks]:
    """Inside depths on the step, the ends and the wish [tick]."""
    assert case.depth is not None
    if not isinstance(case.depth, SizeRange):
        return [case.depth - back_counted(job, case)]
    back, step = back_counted(job, case), STEP[job.unit]
    least, most = case.depth.least - back, case.depth.most - back
    steps = range(-(-least // step) * step, most + 1, step)
    return sorted({least, most, case.depth.wished - back, *steps})


def choices(
    job: Job, shelves: int, buyer: Buyer
) -> Iterator[tuple[CaseSize, LayoutProblem, Decimal]]:
    """Every choice of sizes that can be cut: its layout problem, and price or area [square tick].

    Prices come from the cutting, which has tests of its own.
    """
    (case,) = job.cases
    step, counts = STEP[job.unit], {case.name: (shelves,)}
    sizes = product(values(case.width, step), values(case.height, step), depths(job, case))
    for width, height, depth in sizes:
        size = CaseSize(width, height, depth)
        settled = settle(job, counts, {case.name: size})
        try:
            stock = buyer.stock(counts, {case.name: depth}, settled)
        except CannotBeDoneError:
            continue
        problem = build(settled, counts, {case.name: depth}, share=True)
        yield size, problem, stock.price + stock.area_unpriced


def away(job: Job, case: Case, size: CaseSize) -> Ticks:
    """How far open sizes are from the wish, all together [tick]."""
    back = back_counted(job, case)
    pairs = ((case.width, size.width), (case.height, size.height), (case.depth, size.depth + back))
    return sum(abs(has - open_.wished) for open_, has in pairs if isinstance(open_, SizeRange))
