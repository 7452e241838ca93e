"""With the look first: open sizes against trying everything, rhythm, then headroom, then price."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import assume, given, settings

from solver.carcass.settled_job import CaseSize, settle
from solver.errors import CannotBeDoneError
from solver.job.job import Job
from solver.job.job import Look as LookOfJob
from solver.outcome import Limits
from solver.sizing.choose_sizes import choose_sizes
from solver.sizing.purchase import Buyer
from tests.brute_front import Look, looks
from tests.open_jobs import STEP, away, depths, open_jobs, tiny, values, with_count

LIMITS = Limits(work=2.0, seconds=3600)


@pytest.fixture(autouse=True, scope="module")
def _no_slack() -> Iterator[None]:
    """Nothing is given back, so that the best is one value."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(LookOfJob, "rhythm_slack", 0)
        patch.setattr(LookOfJob, "headroom_slack", 0)
        yield


@settings(tiny, max_examples=8)
@given(open_jobs())
def test_the_look_comes_first_then_the_price_then_the_wish(job: Job) -> None:
    look = job.look.model_copy(update={"prefer": "look"})
    site = job.ground.model_copy(update={"sag": "none"})
    job = job.model_copy(update={"look": look, "site": site})
    shelves = job.cases[0].shelf_counts[0]
    tried = everything(job, shelves)
    assume(tried)
    rhythm = min(best for *_, best, _ in tried)
    fine = [one for one in tried if one[2] == rhythm]
    even = min(one[3] for one in fine)
    expected = min((price, far) for price, far, _, one in fine if one == even)

    counts = {job.cases[0].name: (shelves,)}
    sized = choose_sizes(job, counts, Buyer(job, LIMITS), LIMITS, share=True)

    assert sized.look_proven
    assert sized.price_proven
    assert (sized.stock.price, sized.distance) == expected


def everything(job: Job, shelves: int) -> list[tuple[Decimal, int, Fraction, tuple[int, int]]]:
    """Price, distance, best rhythm, and most even headroom with it, of sizes that let all fit."""
    (case,) = job.cases
    step, buyer, counts = STEP[job.unit], Buyer(job, LIMITS), {case.name: (shelves,)}
    found = []
    for width, height, depth in product(
        values(case.width, step), values(case.height, step), depths(job, case)
    ):
        size = CaseSize(width, height, depth)
        settled = settle(job, counts, {case.name: size})
        some: set[Look] = looks(with_count(settled, shelves))
        try:
            price = buyer.stock(counts, {case.name: depth}, settled).price
        except CannotBeDoneError:
            continue
        if some:
            rhythm, *even = min(some)
            found.append((price, away(job, case, size), rhythm, (even[0], even[1])))
    return found
