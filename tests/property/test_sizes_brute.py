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

from hypothesis import given, settings

from solver.carcass.settled_job import CaseSize, settle, settled_job
from solver.errors import CannotBeDoneError
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Option
from solver.planning.plan_job import plan_job
from solver.sizing.purchase import Buyer
from solver.units import TICKS_PER_MM, Ticks
from tests.brute_force import solve
from tests.open_jobs import STEP, away, depths, open_jobs, tiny, values, with_count

ROUGH = Limits(work=2.0, seconds=3600)


@dataclass(frozen=True, order=True)
class Tried:
    """One choice of sizes, as the order of wishes compares them."""

    left: int
    price: Decimal
    distance: Ticks


def everything(job: Job, shelves: int) -> dict[CaseSize, Tried]:
    """Every choice of sizes that can be cut, tried."""
    (case,) = job.cases
    step, buyer, counts = STEP[job.unit], Buyer(job, ROUGH), {case.name: (shelves,)}
    found = {}
    for width, height, depth in product(
        values(case.width, step), values(case.height, step), depths(job, case)
    ):
        size = CaseSize(width, height, depth)
        one = settle(job, counts, {case.name: size})
        best = solve(with_count(one, shelves))
        try:
            price = buyer.stock(counts, {case.name: depth}, one).price
        except CannotBeDoneError:
            continue
        if best is not None:
            found[size] = Tried(best.left_out, price, away(job, case, size))
    return found


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
