"""Any batch passes the checker, costs no more than apart, and its shares add up to the cent."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.batch.plan_batch import plan_batch
from solver.checking.batch import check_batch
from solver.outcome import Limits
from solver.plan.joint_purchase import shares
from tests.batches import LIPS, SHEETS, client_job

PRICES = st.sampled_from(["92.00", "0.01", "41.37", None])


@settings(max_examples=5, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 30), PRICES, st.booleans()), min_size=1, max_size=4))
def test_a_batch_of_any_jobs(asked: list[tuple[int, str | None, bool]]) -> None:
    jobs = {}
    for at, (number, price, lipped) in enumerate(asked):
        board = {**SHEETS[0], "price": price, "on_hand": number % 2}
        if price is None:
            del board["price"]
        more = {"case": LIPS["case"], "moulding": LIPS["moulding"]} if lipped else {}
        jobs[f"job {at}"] = client_job(number, sheet=[board, SHEETS[1]], **more)

    batch = plan_batch(jobs, Limits(work=0.3))

    assert check_batch(batch) == ()
    assert batch.cost.total <= sum(job.alone for job in batch.jobs)
    assert sum(job.share for job in batch.jobs) == batch.cost.total
    assert batch.cost.stock_bound <= batch.cost.total


@given(
    st.decimals(0, 99999, places=2),
    st.lists(st.integers(0, 10**15), min_size=1, max_size=30),
)
def test_shares_add_up_and_are_within_a_cent_of_exact(total: Decimal, weights: list[int]) -> None:
    found = shares(total, weights)

    assert sum(found) == total
    if sum(weights):
        for share, weight in zip(found, weights, strict=True):
            assert abs(share * sum(weights) - total * weight) < Decimal("0.01") * sum(weights)
