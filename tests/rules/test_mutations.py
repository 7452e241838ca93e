"""Each rule of the checker finds the one change that breaks it, and the good plan is clean."""

from __future__ import annotations

import pytest

from solver.checking.check import check
from solver.checking.findings import Code
from tests.mutations import MUTATIONS, Mutation
from tests.mutations_batch import BATCH
from tests.mutations_front import FRONT
from tests.mutations_have import HAVE
from tests.sample_plans import good_plan


def test_the_good_plan_has_no_findings() -> None:
    assert check(good_plan()) == ()


@pytest.mark.parametrize("mutation", MUTATIONS, ids=lambda m: m.code.value)
def test_exactly_the_broken_rule_is_found(mutation: Mutation) -> None:
    found = {finding.code for finding in check(mutation.change(good_plan()))}

    assert found == {mutation.code} | mutation.also


def test_every_code_has_its_mutation() -> None:
    elsewhere = {*BATCH, *FRONT, *HAVE}
    assert {mutation.code for mutation in MUTATIONS} | elsewhere == set(Code)


@pytest.mark.parametrize("mutation", MUTATIONS, ids=lambda m: m.code.value)
def test_a_finding_names_the_place_and_both_values(mutation: Mutation) -> None:
    for finding in check(mutation.change(good_plan())):
        assert finding.text.startswith(finding.where)
        assert finding.needs in finding.text
        assert finding.has in finding.text
        assert finding.needs != finding.has
