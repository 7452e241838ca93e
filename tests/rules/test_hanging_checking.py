"""The checker's own statics agree with the planner's on any case; every change is found."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.checking.check import check
from solver.checking.findings import Code
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from tests.builders import make_job
from tests.edits import put
from tests.leaves import branches, leaves
from tests.mutations_hanging import MORE, hung_with_sheets, sagging, with_sheets
from tests.sample_plans import good_plan

GOOD = good_plan()
MADE = {"wall": with_sheets(GOOD), "hung": hung_with_sheets(GOOD), "sagging": sagging(GOOD)}


@pytest.mark.parametrize("made", MADE.values(), ids=MADE.keys())
def test_plans_with_sheets_and_mends_have_no_findings(made: Plan) -> None:
    assert check(made) == ()


@pytest.mark.parametrize("what", MORE)
def test_exactly_that_is_found(what: str) -> None:
    code, change = MORE[what]

    assert {finding.code for finding in check(change(GOOD))} == {code}


@pytest.fixture(scope="module")
def butted() -> Plan:
    """A case whose boards are screwed: fasteners have places."""
    things = [{"name": "jug", "width": "6", "height": "9", "depth": "4", "count": 3}]
    job = make_job(case={"width": "30", "height": "60", "depth": "10", "shelves": 2}, items=things)
    return plan_job(job, Limits(work=0.5), near=False)


@pytest.mark.parametrize(
    "change",
    [
        lambda at: (at[0], at[1] + 1, *at[2:]),  # off the marking step
        lambda at: (*at[:-1], at[-1] - 1016),  # not evenly: 1/8 in off
        lambda at: at[:-1],
    ],
)
def test_fasteners_lie_evenly_and_on_marking_steps(
    butted: Plan, change: Callable[[tuple[int, ...]], tuple[int, ...]]
) -> None:
    path = "options.0.hanging.cases.0.joints.0.from_front"
    assert check(butted) == ()
    assert {f.code for f in check(put(butted, path, change))} == {Code.HANG_JOINTS}


HUNG = MADE["hung"]
SAID = HUNG.options[0].hanging
LEAVES = [(f"options.0.hanging.{path}", value) for path, value in leaves(SAID)]
LISTS = [(f"options.0.hanging.{path}", value) for path, value in branches(SAID)]


def other(value: object) -> st.SearchStrategy[object]:
    """Another value of the kind, as a file could have it."""
    if isinstance(value, bool):
        return st.booleans()
    if isinstance(value, int):
        return st.integers(-(10**9), 10**9)
    if isinstance(value, float):
        return st.floats(allow_nan=True)
    return st.text(max_size=5) if isinstance(value, str) else st.just(value)


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_a_broken_sheet_never_raises(data: st.DataObject) -> None:
    if data.draw(st.booleans()):
        path, value = data.draw(st.sampled_from(LEAVES))
        changed = data.draw(other(value))
    else:
        path, old = data.draw(st.sampled_from(LISTS))
        changed = data.draw(st.sampled_from([(), old + old, old[:1], old[1:]]))
    for finding in check(put(HUNG, path, changed)):
        assert finding.text
