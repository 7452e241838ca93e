"""Each rule on what is there finds the one change that breaks it; the good plan is clean."""

from __future__ import annotations

import pytest

from solver.checking.check import check
from solver.checking.findings import Code
from solver.plan.plan import Plan
from tests.haves import good_have
from tests.mutations_have import HAVE


def test_the_good_plan_has_no_findings() -> None:
    assert check(good_have()) == ()


def test_the_good_plan_uses_what_is_there_in_every_way() -> None:
    option = good_have().options[0]
    assert option.have is not None

    assert {one.how for one in option.have.used} == {"as it is", "cut down", "fixed"}
    assert any(one.rests for one in option.have.used)
    assert any(sheet.on_hand for sheet in option.sheets)
    assert any(stick.on_hand for stick in option.mouldings)
    assert option.have.left
    assert option.have.again == ("alcove/top", "alcove/bottom")


@pytest.mark.parametrize("code", HAVE, ids=lambda code: code.value)
def test_exactly_the_broken_rule_is_found(code: Code) -> None:
    change, also = HAVE[code]

    found = {finding.code for finding in check(change(good_have()))}

    assert found == {code} | also


def test_a_plan_survives_being_written_and_read() -> None:
    plan = good_have()

    assert Plan.model_validate_json(plan.to_json()) == plan
