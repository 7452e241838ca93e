"""Open sizes against trying everything: every size, every shelf count, every set of marks.

On tiny jobs each stage of every option, and of the plan, is what trying all sizes finds: the
fewest things left out, the least price of these, the least distance of these from the wish, and
the best rhythm at the sizes chosen.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import product
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from solver.case import Case, SizeRange
from solver.errors import CannotBeDoneError
from solver.job import Job
from solver.outcome import Limits
from solver.plan import Option
from solver.planning.plan import plan_job
from solver.planning.stock import Buyer
from solver.settled import CaseSize, back_counted, settle, settled_job
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks
from tests.brute_force import solve
from tests.strategies import tiny_jobs

tiny = settings(
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
    derandomize=True,
)
STEP = {"in": TICKS_PER_INCH, "mm": 25 * TICKS_PER_MM}
"""Sizes move on whole inches, or 25 mm, so that all of them can be tried [tick]."""
ROUGH = Limits(work=2.0, seconds=3600)


@dataclass(frozen=True, order=True)
class Tried:
    """One choice of sizes, as the order of wishes compares them."""

    left: int
    price: Decimal
    distance: Ticks


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


def _values(size: int | SizeRange, step: Ticks) -> list[Ticks]:
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


def everything(job: Job, shelves: int) -> dict[CaseSize, Tried]:
    """Every choice of sizes that can be cut, tried."""
    (case,) = job.cases
    step, buyer, counts = STEP[job.unit], Buyer(job, ROUGH), {case.name: (shelves,)}
    found = {}
    for width, height, depth in product(
        _values(case.width, step), _values(case.height, step), depths(job, case)
    ):
        size = CaseSize(width, height, depth)
        one = settle(job, counts, {case.name: size})
        best = solve(with_count(one, shelves))
        try:
            price = buyer.stock(counts, {case.name: depth}, one).price
        except CannotBeDoneError:
            continue
        if best is not None:
            found[size] = Tried(best.left_out, price, _away(job, case, size))
    return found


def with_count(job: Job, shelves: int) -> Job:
    """The job with one shelf count."""
    case = job.cases[0].model_copy(update={"shelves": shelves})
    return job.model_copy(update={"cases": (case,)})


def _away(job: Job, case: Case, size: CaseSize) -> Ticks:
    back = back_counted(job, case)
    pairs = ((case.width, size.width), (case.height, size.height), (case.depth, size.depth + back))
    return sum(abs(has - open_.wished) for open_, has in pairs if isinstance(open_, SizeRange))


def stated(option: Option) -> Tried:
    """What an option says of its stages."""
    stages = {stage.name: stage for stage in option.stages}
    assert option.cost is not None
    distance = Fraction(str(stages["size"].value)) * TICKS_PER_MM
    return Tried(int(float(stages["fit"].value or 0)), option.cost.total, int(distance))


@settings(tiny, max_examples=6)
@given(open_jobs())
def test_every_stage_is_what_trying_all_sizes_finds(job: Job) -> None:
    # without a sag limit, which the exhaustive solver does not know
    job = job.model_copy(update={"site": job.ground.model_copy(update={"sag": "none"})})
    for option in plan_job(job, ROUGH).options:
        ((shelves,),) = option.shelf_counts.values()
        tried = everything(job, shelves)
        if not option.cases:
            assert not tried
            continue
        best = min(tried.values())
        assert stated(option) == best
        proven = {stage.name: stage.proven for stage in option.stages}
        assert proven["fit"]
        assert proven["price"]
        assert proven["size"]
        assert_rhythm(job, option)


def assert_rhythm(job: Job, option: Option) -> None:
    """The rhythm is the best at the sizes chosen."""
    ((shelves,),) = option.shelf_counts.values()
    best = solve(with_count(settled_job(job, option), shelves))
    rhythm = next(stage for stage in option.stages if stage.name == "rhythm")
    assert best is not None
    has = Fraction(str(rhythm.value)) * TICKS_PER_MM
    assert has >= best.rhythm - Fraction(1, 2)
    assert not rhythm.proven or abs(has - best.rhythm) <= Fraction(1, 2)
