"""Open sizes against trying everything: every size, every shelf count, every layout.

On tiny jobs each stage of every option, and of the plan, is what trying all sizes finds: the
least loss of what is left out, the least price of these, the least distance of these from the
wish, and at the sizes chosen the wishes about what stands where.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from hypothesis import assume, given, settings

from solver.carcass.settled_job import CaseSize
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Option
from solver.planning.plan_job import plan_job
from solver.sizing.purchase import Buyer
from solver.units import TICKS_PER_MM, Ticks
from tests.eye_brute import Best, best
from tests.eye_contents import TooLargeError
from tests.eye_pairs import FIRST
from tests.open_jobs import away, choices, open_jobs, tiny

ROUGH = Limits(work=2.0, seconds=3600)


@dataclass(frozen=True, order=True)
class Tried:
    """One choice of sizes, as the order of wishes compares them."""

    loss: tuple[int, int, int]
    price: Decimal
    distance: Ticks


def everything(job: Job, shelves: int) -> dict[CaseSize, tuple[Tried, Best]]:
    """Every choice of sizes that can be cut, tried."""
    found = {}
    for size, problem, price in choices(job, shelves, Buyer(job, ROUGH)):
        try:
            one = best(problem)
        except TooLargeError:
            assume(condition=False)
        if one is not None:
            found[size] = Tried(one.loss, price, away(job, job.cases[0], size)), one
    return found


@settings(tiny, max_examples=8)
@given(open_jobs())
def test_every_stage_is_what_trying_all_sizes_finds(job: Job) -> None:
    for option in plan_job(job, ROUGH, near=False, advice=False).options:
        ((shelves,),) = option.shelf_counts.values()
        tried = everything(job, shelves)
        if not option.cases:
            assert not tried
            continue
        least = min(one for one, _ in tried.values())
        has = {stage.name: stage for stage in option.stages}
        assert option.cost is not None
        assert has["fit"].value == sum(least.loss)
        assert option.cost.total == least.price
        assert Fraction(str(has["size"].value)) * TICKS_PER_MM == least.distance
        assert all(has[name].proven for name in ("fit", "price", "size"))
        assert_wishes(option, [one for at, one in tried.values() if at == least])


def assert_wishes(option: Option, alike: list[Best]) -> None:
    """What stands where is the best at the sizes chosen; those as near to the wish may differ."""
    has = {stage.name: stage.value for stage in option.stages if stage.name in FIRST}
    expected = [one.ways[0].values for one in alike]
    assert any(all(value == some[name] for name, value in has.items()) for some in expected)
