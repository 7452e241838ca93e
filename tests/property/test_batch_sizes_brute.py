"""Open sizes of several jobs at once against trying every choice of them."""

from __future__ import annotations

from decimal import Decimal
from itertools import product
from typing import Any

import pytest

from solver.batch.batch_sizes import JointPricing
from solver.batch.built_jobs import together_of
from solver.batch.plan_batch import _plan_each, plan_batch
from solver.checking.batch import check_batch
from solver.job.job import Job
from solver.outcome import Limits, Verdict
from tests.builders import make_job

SHEET = [
    {"name": "s", "material": "ply", "length": 1240, "width": 620, "thickness": 18, "price": 40}
]


def small_job(width: int, depth: dict[str, Any], price: int = 40, thing: int = 150) -> Job:
    """A case without a back; its depth is open on a step of 10 mm."""
    case = {
        "width": width,
        "height": 500,
        "depth": depth,
        "shelves": 1,
        "back": "none",
    }
    return make_job(
        unit="mm",
        case=case,
        sheet=[{**SHEET[0], "price": price}],
        shop={"cutting_step": 10, "kerf": 3, "edge_trim": 0},
        item=[{"name": "jug", "width": 100, "height": 120, "depth": thing}],
    )


# Each job of 400 mm takes two strips: both sides of 500 mm, and three boards. Out of 620 mm come
# three strips of 200 mm with their kerfs, or two of 210 mm and more.
SAVING = {
    name: small_job(400, {"least": 200, "most": 220, "wish": 220}) for name in ("a", "b", "c")
}
BATCHES = {
    "cheaper only together": SAVING,
    "other wishes": {
        "a": small_job(560, {"least": 180, "most": 220, "wish": 180}),
        "b": small_job(560, {"least": 180, "most": 220, "wish": 220}),
    },
    "a thing that needs depth": {
        "a": small_job(400, {"least": 160, "most": 220, "wish": 160}, thing=195),
        "b": small_job(500, {"least": 160, "most": 210, "wish": 210}),
    },
    "nothing shared": {
        "a": small_job(400, {"least": 190, "most": 220, "wish": 220}),
        "b": small_job(400, {"least": 190, "most": 220, "wish": 220}, price=55),
    },
}


def best_by_trying(jobs: dict[str, Job]) -> tuple[Decimal, int]:
    """Least price of all sizes that fit, and of those the least distance from the wishes [tick]."""
    limits = Limits(work=1.0)
    together = together_of(jobs, _plan_each(jobs, limits, lambda _: None), limits)
    first = next(iter(jobs.values()))
    pricing = JointPricing(together, first.shop, first.unit, limits)
    searches = [client.search for client in together.clients]
    found = []
    for point in product(*(range(len(a.values)) for s in searches for a in s.grid.axes)):
        parts = together.split(point)
        if all(s.fitting.as_much(p) is Verdict.YES for s, p in zip(searches, parts, strict=True)):
            priced = pricing.at(point)
            assert priced.cost == priced.bound  # each cutting is proven: small lists
            found.append((priced.cost[0], together.distance(point)))
    return min(found)


@pytest.mark.parametrize("name", BATCHES)
def test_the_sizes_are_the_cheapest_and_of_these_the_nearest(name: str) -> None:
    jobs = BATCHES[name]

    batch = plan_batch(jobs, Limits(work=1.0))

    assert check_batch(batch) == ()
    assert batch.sizes is not None
    assert batch.sizes.proven
    assert batch.sizes.away_bound == batch.sizes.away
    assert (batch.cost.total, batch.sizes.away) == best_by_trying(jobs)


def test_a_sheet_is_saved_that_no_job_saves_by_itself() -> None:
    """Alone each takes a sheet; six strips come out of two: 200 + 200 + 210 + 2 x 3 <= 620 mm."""
    batch = plan_batch(SAVING, Limits(work=1.0))

    assert batch.alone == 3 * 40
    assert batch.cost.total == 2 * 40
    assert batch.sizes is not None
    assert batch.sizes.moved == ("a", "b", "c")
    assert batch.sizes.away == (20 + 20 + 10) * 320
    alone = [job.plan.options[0].open_sizes[0].chosen // 320 for job in batch.jobs]
    built = [job.built.options[0].open_sizes[0].chosen // 320 for job in batch.jobs]
    assert alone == [220, 220, 220]
    assert sorted(built) == [200, 200, 210]
