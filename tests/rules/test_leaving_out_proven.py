"""Leaving things out is called proven fewest only where no other open size leaves out fewer."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.outcome import Limits
from solver.planning.plan_option import plan_option
from solver.sizing.option_sizes import Sizing
from solver.sizing.purchase import Buyer
from tests.builders import make_job

COUNTS = {"case": (1,)}


URN = -(-12 * 254 * 15 * 254 // 100)
"""Front of an urn of 12 x 15 in, rounded up [mm2]."""


@pytest.mark.parametrize(("bound", "proven"), [((0, URN, 0), True), ((0, 0, 0), False)])
def test_fewest_at_these_sizes_is_proven_where_the_bound_is_of_all_sizes(
    bound: tuple[int, int, int], proven: bool
) -> None:
    # two openings of less than 20 in for three things of 15 in height and 12 in width each:
    # a shelf 20 in wide takes one of them, so that one finds no place
    job = make_job(
        case={
            "width": 20,
            "height": 40,
            "depth": {"least": 8, "most": 9},
            "shelves": 1,
            "kind": "standing",
        },
        items=[{"name": "urn", "width": 12, "height": 15, "depth": 5, "count": 3}],
    )
    limits = Limits()
    buyer = Buyer(job, limits)
    sizing = Sizing(job, buyer, limits)
    sizing.take(COUNTS, replace(sizing.of(COUNTS, share=True), left_bound=bound))

    option = plan_option(job, COUNTS, buyer, limits, lambda _: None, sizing)

    (left,) = [one for one in option.changes if one.what == "leave out"]
    assert left.leaves == {"urn": 1}
    assert left.proven is proven
