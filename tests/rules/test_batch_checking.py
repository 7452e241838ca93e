"""Each rule on batches finds the one change that breaks it, and the good batch is clean."""

from __future__ import annotations

import pytest

from solver.batch.plan_batch import plan_batch
from solver.checking.batch import check_batch
from solver.checking.findings import Code
from solver.outcome import Limits
from solver.plan.joint_purchase import Batch
from tests.edits import put
from tests.mutations_batch import BATCH, good_batch, two_jobs


def test_the_good_batch_has_no_findings() -> None:
    assert check_batch(good_batch()) == ()


def test_the_good_batch_has_all_that_the_rules_look_at() -> None:
    batch = good_batch()

    assert any(sheet.on_hand for sheet in batch.sheets)
    assert len(batch.mouldings) > 0
    assert {len(pool.jobs) for pool in batch.pools} == {2}


@pytest.mark.parametrize("code", BATCH, ids=lambda code: code.value)
def test_exactly_the_broken_rule_is_found(code: Code) -> None:
    change, also = BATCH[code]

    found = {finding.code for finding in check_batch(change(good_batch()))}

    assert found == {code} | also


def test_a_batch_dearer_than_each_by_itself_is_refused() -> None:
    """Buying the same sheets together can cost no more, whatever the sum says."""
    batch = good_batch()
    dearer = put(put(batch, "alone", batch.cost.total - 1), "saving", -1)

    assert Code.BATCH_SAVING in {finding.code for finding in check_batch(dearer)}


def test_a_batch_survives_being_written_and_read() -> None:
    batch = good_batch()

    assert Batch.model_validate_json(batch.to_json()) == batch


def test_the_same_jobs_give_the_same_batch() -> None:
    again = plan_batch(two_jobs(), Limits(work=0.5))

    assert again.to_json(timing=False) == good_batch().to_json(timing=False)
