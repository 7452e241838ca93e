"""Each rule of the checker finds the one change that breaks it, and the good plan is clean."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli.files.job_file import read_job
from solver.checking.check import check
from solver.checking.findings import Code
from solver.outcome import Limits
from solver.planning.plan_job import plan_job
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


def test_an_upright_at_exactly_half_of_an_even_span_is_no_finding(tmp_path: Path) -> None:
    """Jugs in a case 30 in wide: half the span is a whole tick, and must not miss by a float."""
    path = tmp_path / "job.toml"
    path.write_text(
        '[job]\nunit = "in"\n[[case]]\nname = "a"\nwidth = 30\nheight = 60\nshelves = 2\n'
        '[[item]]\nname = "jug"\nwidth = 6\nheight = 9\ndepth = 4\ncount = 3\n',
        "utf-8",
    )
    plan = plan_job(read_job(str(path)), Limits(seconds=20))
    strength = plan.options[0].strength

    assert strength is not None
    assert any(mend.what == "upright" for shelf in strength.shelves for mend in shelf.mends)
    assert check(plan) == ()
