"""Whatever is there, the plan passes the checker and never buys more than without it."""

from __future__ import annotations

from functools import cache
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.checking.check import check
from solver.job.job import Job
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from tests.batches import client_job
from tests.haves import WORK, with_rows

NAMES = ("side-left", "side-right", "top", "bottom", "shelf-1", "shelf-2", "shelf-9", "back")
KINDS = ("side", "shelf", "back")
LENGTHS = st.sampled_from(["12 in", "28-9/16 in", "29 in", "60 in", "59.993 in", "75 in"])
WIDTHS = st.sampled_from(["5 in", "9-1/4 in", "9.26 in", "10 in", "29-7/8 in", "31 in"])

sized = st.fixed_dictionaries({"length": LENGTHS, "width": WIDTHS})
rows = st.one_of(
    st.fixed_dictionaries(
        {
            "what": st.sampled_from(["cut", "spoiled"]),
            "name": st.sampled_from([f"alcove/{name}" for name in (*NAMES, *KINDS)]),
            "size": st.one_of(st.none(), sized),
            "count": st.integers(1, 3),
        }
    ),
    st.fixed_dictionaries(
        {
            "what": st.just("short"),
            "name": st.sampled_from([f"alcove/{name}" for name in NAMES]),
            "size": sized,
        }
    ),
    st.fixed_dictionaries(
        {
            "what": st.just("offcut"),
            "material": st.sampled_from(["oak ply 18", "oak ply 6"]),
            "size": sized,
            "count": st.integers(1, 2),
            "clean": st.sampled_from([None, True, False]),
        }
    ),
    st.fixed_dictionaries(
        {
            "what": st.just("fixed"),
            "name": st.sampled_from(["alcove/shelf-1", "alcove/shelf-2"]),
            "size": st.just(None),
        }
    ),
)


def _row(row: dict[str, Any]) -> dict[str, Any]:
    kept = {key: value for key, value in row.items() if key != "size" and value is not None}
    return {**kept, **(row["size"] or {})}


def _job(margin: str) -> Job:
    return client_job(1, shop={"margin": margin})


@cache
def _without(margin: str) -> Plan:
    return plan_job(_job(margin), WORK, near=False)


@settings(max_examples=30, deadline=None)
@given(st.lists(rows, min_size=1, max_size=6), st.sampled_from(["0", "1/32 in", "1/4 in"]))
def test_any_list_is_planned_around(there: list[dict[str, Any]], margin: str) -> None:
    plan = plan_job(with_rows(_job(margin), *map(_row, there)), WORK, near=False)

    assert check(plan) == ()
    cost, before = plan.options[0].cost, _without(margin).options[0].cost
    assert cost is not None
    assert before is not None
    assert cost.total <= before.total
    assert cost.stock_bound <= cost.total
