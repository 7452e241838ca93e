"""With the look first: open sizes against trying everything: look, then price, then the wish."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from solver.job.job import Job
from solver.layout.layout_problem import LayoutProblem
from solver.outcome import Limits
from solver.sizing.choose_sizes import choose_sizes
from solver.sizing.purchase import Buyer
from tests.eye_brute import Best, best
from tests.eye_contents import TooLargeError
from tests.eye_pairs import FIRST
from tests.eye_rhythm import falls_by_half_an_inch, is_not_steeper
from tests.open_jobs import away, choices, open_jobs, tiny

LIMITS = Limits(work=2.0, seconds=3600)
RHYTHMS = ("steady", "even", "symmetric", "to-fit", "graduated")


@dataclass(frozen=True)
class Tried:
    """One choice of sizes: all but the rhythm's last figure, that figure, price and distance."""

    before: tuple[object, ...]
    rhythm: int
    price: tuple[Decimal, int]


@settings(tiny, max_examples=12)
@given(open_jobs(), st.sampled_from(RHYTHMS))
def test_the_look_comes_first_then_the_price_then_the_wish(job: Job, rhythm: Any) -> None:
    look = job.look.model_copy(update={"prefer": "look", "rhythm": rhythm})
    job = job.model_copy(update={"look": look})
    shelves = job.cases[0].shelf_counts[0]
    tried = everything(job, shelves)
    assume(tried)
    first = min((one.before, one.rhythm) for one in tried)
    like = [one for one in tried if one.before == first[0]]

    counts = {job.cases[0].name: (shelves,)}
    sized = choose_sizes(job, counts, Buyer(job, LIMITS), LIMITS, share=True)

    assert sized.price_proven
    step = job.head.marking_step
    has = sized.stock.price + sized.stock.area_unpriced, sized.distance
    if rhythm in ("steady", "graduated") and look.step is None:
        # the engine finds the least range to within a marking step, and one more is as good
        assert has <= min(one.price for one in like if one.rhythm == first[1])
        assert has >= min(one.price for one in like if one.rhythm <= first[1] + 2 * step)
    else:
        assert has == min(one.price for one in like if one.rhythm <= first[1] + step)


def everything(job: Job, shelves: int) -> list[Tried]:
    """All choices of sizes at which there is a layout."""
    found = []
    for size, problem, price in choices(job, shelves, Buyer(job, LIMITS)):
        try:
            one = best(problem)
        except TooLargeError:
            assume(condition=False)
        if one is not None:
            assume(len(one.ways) == 1)  # whether there is a steady fall can be read in two ways
            found.append(_tried(problem, one, (price, away(job, job.cases[0], size))))
    return found


def _tried(problem: LayoutProblem, one: Best, price: tuple[Decimal, int]) -> Tried:
    (way,) = one.ways
    rhythm = [(name, value) for name, value in way.values.items() if name in RHYTHMS]
    before = [value for name, value in way.values.items() if name in (*FIRST, "rises")]
    asked = problem.wishes.rhythm
    wanted = asked == "graduated" and problem.wishes.step is None
    few = wanted and not falls_by_half_an_inch(problem, way.layout)
    missed = (not is_not_steeper(problem, way.layout), few, asked not in dict(rhythm))
    *early, last = rhythm
    return Tried((one.loss, *before, *missed, *early), last[1], price)
