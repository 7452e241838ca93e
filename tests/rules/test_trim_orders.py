"""What cannot be in an order of trim: refused, and its nearest neighbour is not."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from tests.trims import CLASSICAL, PLAIN, trim_job

OLD = [{"name": "old", "side": "hinge", "width": "2-1/2", "thickness": "3/4"}]

CASES: dict[str, tuple[str, dict[str, Any], dict[str, Any], dict[str, Any], str]] = {
    # what: kind, trim, doorway that will not do, doorway that will, words
    "wall by the hinge": (
        "hung", PLAIN, {"wall_by_hinge": "3-5/8"}, {"wall_by_hinge": "3-11/16"},
        "reaches 3-11/16 in beyond the opening, and the wall there is 3-5/8 in wide",
    ),
    "wall by the latch, less what lies over the gap": (  # 3-1/2 - 2-5/8 = 7/8
        "hung", PLAIN, {"wall_by_latch": "13/16"}, {"wall_by_latch": "7/8"},
        "reaches 7/8 in beyond the opening",
    ),
    "ceiling": (  # 80-1/8 + 3/16 + 3-1/2 = 83-13/16
        "hung", PLAIN, {"ceiling": "83-3/4"}, {"ceiling": "83-13/16"},
        "its top comes 83-13/16 in above the floor and the ceiling is 83-3/4 in",
    ),
    "bearing at the latch": (  # 30 - 1/8 - 27-1/2 + 1/4 + 1/2 = 3-1/8; half an inch wider: 3-5/8
        "hung", PLAIN, {"widths": ["30-1/2"]}, {"widths": ["30-3/8"]},
        "must cover 3-1/8 in and bear 1/2 in on the wall, and is 3-1/2 in wide; 3-5/8 in",
    ),
    "scribe": (  # (32 - 29) / 2 = 1-1/2
        "built-in", {"scribe": "strip 1-1/2"}, {"widths": ["32-1/16"]}, {"widths": ["32"]},
        "the gap at each side is 1-17/32 in at its widest and the strip 1-1/2 in wide",
    ),
    "scribe over the case": (
        "built-in", {"scribe": "strip 1-1/2", "scribe_head": True},
        {"heights": ["80-9/16"]}, {"heights": ["80-1/2"]},
        "the gap over the case is 1-9/16 in",
    ),
    "old casing that is not listed": (
        "hung", {"set": "old"}, {}, {"trim": OLD}, "puts back the trim that the doorway lists",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_a_place_that_will_not_do_and_the_nearest_that_will(name: str) -> None:
    kind, trim, bad, good, words = CASES[name]
    with pytest.raises(ValidationError) as error:
        trim_job(kind, trim, doorway=bad)
    assert words in str(error.value)
    assert trim_job(kind, trim, doorway=good).cases[0].trim is not None


ORDERS: dict[str, tuple[str, dict[str, Any], dict[str, Any], str]] = {
    # what: kind, what will not do, what will, words
    "no casing": ("hung", {"set": "plain"}, PLAIN, "needs one: name the [[moulding]] of the legs"),
    "casing without a set": (
        "wall", {"set": "none", "casing": "casing 2-1/4"}, {"set": "none"}, 'but set is "none"',
    ),
    "mitre of two widths": (
        "hung", {**PLAIN, "head": "head 4-1/2"},
        {**PLAIN, "head": "head 4-1/2", "corners": "butt"}, "do not meet in a mitre",
    ),
    "flutes on plain legs": (
        "hung", {**PLAIN, "flutes": 3}, {**CLASSICAL, "flutes": 3}, "cut in pilasters",
    ),
    "plinth narrower than the casing": (
        "hung", {**CLASSICAL, "plinth": "strip 1-1/2"}, {**CLASSICAL, "plinth": "block 4"},
        "it is 1-1/2 in wide and 3/4 in thick, less than the casing, 3-1/2 in x 3/4 in",
    ),
    "block narrower than the head": (
        "hung", {**CLASSICAL, "head": "head 4-1/2", "block": "block 4"},
        {**CLASSICAL, "block": "block 4"}, "it is 4 in wide and 1 in thick, less than the casing",
    ),
    "band": (
        "standing", {"band": "edge 1/2"}, {"band": "band 7/8"},
        "it is 1/2 in wide and the edge 23/32 in",
    ),
    "baseboard on a hung case": (
        "hung", {"baseboard": "base 3-1/2"}, {"room_baseboard": "5"}, "a hung case has no foot",
    ),
    "strips on a standing case": (
        "standing", {"scribe": "strip 1-1/2"}, {}, "close a built-in case to its walls",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", ORDERS)
def test_an_order_that_cannot_be_and_the_nearest_that_can(name: str) -> None:
    kind, bad, good, words = ORDERS[name]
    with pytest.raises(ValidationError) as error:
        trim_job(kind, bad)
    assert words in str(error.value)
    assert trim_job(kind, good).cases[0].trim is not None


def test_two_cases_of_one_doorway_have_no_new_casing() -> None:
    narrow = {"width": "13", "depth": "5"}
    two = [
        {"name": name, "kind": "hung", "doorway": "place", "height": "79", "shelves": 2, **narrow}
        for name in ("left", "right")
    ]
    with pytest.raises(ValidationError, match="no new casing is worked out for a pair"):
        trim_job("hung", {}, case={**two[0], "trim": PLAIN}, more=[{**two[1], "trim": PLAIN}])
    assert len(trim_job("hung", {"set": "none"}, case=two[0], more=[two[1]]).cases) == 2


def test_a_case_left_to_its_doorway_is_checked_with_its_true_size() -> None:
    """A width that the doorway gives leaves the gap that the swing needs, not that of a trial."""
    job = trim_job("hung", PLAIN, case={"width": None, "height": None})
    (case,) = job.cases
    assert isinstance(case.width, int)
    assert case.trim is not None
