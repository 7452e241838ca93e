"""The checker on plans broken at random: it never raises, and hardly a figure goes unread."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.checking.check import check
from tests.edits import put
from tests.figures import WORDS, kind_of, other
from tests.leaves import branches, leaves
from tests.sample_plans import good_plan

GOOD = good_plan()
LEAVES = [(f"options.0.{path}", value) for path, value in leaves(GOOD.options[0])]
LISTS = [(f"options.0.{path}", value) for path, value in branches(GOOD.options[0])]
NOT_HERE = "nothing of the kind in this plan, and no figure that could stand in its place"

FREE = {
    "name": "what an option is called",
    "advice_note": "for people",
    "why": "a feasible option may say why it is not better",
    "stages.N.proven": "less may be claimed than was proven",
    "stages.N.note": "for people",
    "stages.N.sentence": "for people",
    "cases.N.bays.N.openings.N.items.N.x": "there is room to either side",
    "cases.N.bays.N.openings.N.items.N.z": "there is room behind",
    "parts.N.allowances.N.what": "for people",
    "mouldings.N.pieces.N.start": "there is room at the end of the stick",
    "cost.total_is": "a total of more than stock may be as high",
    "tags.N": "for people",
    "collision": NOT_HERE,
    "band": NOT_HERE,
    "have": NOT_HERE,
    "strength": NOT_HERE,
    "hanging": NOT_HERE,
    "cases.N.swing": NOT_HERE,
    "shared": NOT_HERE,
}
"""Figures that may be otherwise in a plan just as good, and why."""


def one_of_each_kind() -> dict[str, tuple[str, Any]]:
    """The first figure of each kind: of the stages that is one which is proven."""
    return {kind_of(path): (path, value) for path, value in reversed(LEAVES)}


ONE_OF_EACH = one_of_each_kind()


@pytest.mark.parametrize("kind", [kind for kind in ONE_OF_EACH if kind not in FREE])
def test_no_figure_can_be_changed_without_a_finding(kind: str) -> None:
    path, value = ONE_OF_EACH[kind]
    changed = other(path, value)
    if kind == "status":
        changed = type(value)(changed)

    assert check(put(GOOD, path, changed))


def test_every_figure_said_to_be_free_is_in_the_plan() -> None:
    assert set(FREE) <= set(ONE_OF_EACH)


numbers = st.one_of(
    st.integers(-3, 3), st.integers(-(10**9), 10**9), st.floats(allow_nan=True), st.none()
)


def another(path: str, value: Any) -> st.SearchStrategy[Any]:
    """Any value that a file could have in its place."""
    if isinstance(value, bool):
        return st.booleans()
    if isinstance(value, int):
        return st.one_of(st.integers(-3, 3), st.integers(-(10**9), 10**9), st.just(value + 1))
    if isinstance(value, float):
        return st.floats(allow_nan=True)
    if "stages" in path and path.endswith(("value", "bound")):
        return st.one_of(numbers, st.text(max_size=5))
    if path.rpartition(".")[2] in WORDS or value is None:
        return st.just(value)
    return st.one_of(st.text(max_size=5), st.just("hall"), st.just("book"))


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_the_checker_never_raises(data: st.DataObject) -> None:
    plan = GOOD
    for _ in range(data.draw(st.integers(1, 3))):
        if data.draw(st.booleans()):
            path, value = data.draw(st.sampled_from([x for x in LEAVES if "price" not in x[0]]))
            if path.startswith("options.0.cost"):
                continue
            changed = data.draw(another(path, value))
        else:
            path, old = data.draw(st.sampled_from(LISTS))
            changed = data.draw(st.sampled_from([(), old + old, old[:1], old[1:]]))
        try:
            plan = put(plan, path, changed)
        except IndexError:
            continue  # an earlier change took that part of the plan away
    for finding in check(plan):
        assert finding.text
