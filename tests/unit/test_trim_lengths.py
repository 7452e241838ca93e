"""The trade's arithmetic of casing, plinths, baseboard, strips and bands, worked by hand."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from solver.carcass.trim_face import doorway_trim, plinth_height
from solver.job.job import Job
from solver.trim.moulding_pieces import trim_cuts
from solver.units import Ticks, inches
from tests.trims import CLASSICAL, PLAIN, trim_job

T = inches("23/32")
"""Thickness of the default plywood."""


def lengths(job: Job) -> dict[str, Ticks]:
    case = job.cases[0]
    cuts = trim_cuts(job, case, (2,), inches(6))
    return {cut.id.removeprefix("case/trim-"): cut.length for cut in cuts}


def hung(trim: dict[str, Any], **doorway: Any) -> dict[str, Ticks]:
    return lengths(trim_job("hung", {"hide_gap": False, **trim}, doorway=doorway))


# --- Round a doorway: 30 wide, 80 and 80-1/8 high, reveal 3/16, casing 3-1/2 -----------------


def test_with_corner_blocks() -> None:
    """Leg = opening + reveal - plinth; head = opening + 2 reveals; a corner block 1/4 in wider
    than the casing, centred on it, takes 1/8 off each leg and 1/4 off the head."""
    found = hung({**CLASSICAL, "plinth_height": "6"})
    less = inches("1/8")
    assert found["leg-hinge"] == inches(80) + inches("3/16") - inches(6) - less
    assert found["leg-latch"] == inches("80-1/8") + inches("3/16") - inches(6) - less
    assert found["head"] == inches(30) + 2 * inches("3/16") - inches("1/4")


def test_mitred() -> None:
    """Mitred: add two casing widths to the head, and one to each leg."""
    found = hung(PLAIN)
    assert found["leg-hinge"] == inches(80) + inches("3/16") + inches("3-1/2")
    assert found["head"] == inches(30) + 2 * inches("3/16") + 2 * inches("3-1/2")


def test_butted_the_head_lies_on_the_legs() -> None:
    found = hung({**PLAIN, "corners": "butt", "head": "head 4-1/2"})
    assert found["leg-hinge"] == inches(80) + inches("3/16")
    assert found["head"] == inches(30) + 2 * inches("3/16") + 2 * inches("3-1/2")


def test_the_leg_at_the_latch_covers_the_gap_and_a_little_of_the_case() -> None:
    """30 - 1/8 - 27-1/2 = 2-3/8 of gap, and 1/4 in on the case: the head is shorter by that."""
    covers = inches(30) - inches("1/8") - inches("27-1/2") + inches("1/4")
    found = lengths(trim_job("hung", PLAIN))
    assert found["head"] == inches(30) + inches("3/16") - covers + 2 * inches("3-1/2")


def test_heights_go_with_their_side_when_hinged_right() -> None:
    left, right = hung(PLAIN), hung(PLAIN, hinge_side="right")
    assert (left["leg-hinge"], left["leg-latch"]) == (right["leg-latch"], right["leg-hinge"])


def test_new_casing_takes_the_place_of_the_old_in_the_swing() -> None:
    old = {"name": "old", "side": "hinge", "width": "2-1/2", "thickness": "3/4"}
    behind = {**old, "name": "far", "face": "behind"}
    job = trim_job("hung", CLASSICAL, doorway={"trim": [old, behind]})
    strips = doorway_trim(job, job.cases[0], job.doorways[0])
    assert [s.name for s in strips] == ["far", "casing leg, hinge side", "casing leg, latch side"]
    assert strips[1].thickness == inches("3/4") + inches("1/8"), "as thick as its plinth"
    assert strips[1].reveal == inches("3/16") - inches("1/8"), "as near as its plinth"


# --- On a case's own edges ----------------------------------------------------------------------


def test_on_the_sides_of_a_case() -> None:
    """Inside 30 - 2t; the legs stand 3/16 back on the sides' edges, the head on the top's."""
    found = lengths(trim_job("wall", {**PLAIN, "casing": "casing 2-1/4"}))
    assert found["head"] == inches(30) - 2 * (T - inches("3/16")) + 2 * inches("2-1/4")
    assert found["leg-left"] == inches(40) - T + inches("3/16") + inches("2-1/4")


def test_round_an_alcove_the_casing_frames_the_case_wherever_it_stands() -> None:
    found = lengths(trim_job("built-in", {**PLAIN, "corners": "butt"}))
    assert found["head"] == inches(29) - 2 * (T - inches("3/16")) + 2 * inches("3-1/2")
    assert found["leg-left"] == inches(79) - T + inches("3/16")


@pytest.mark.parametrize(
    ("trim", "height"),
    [
        ({}, "5-5/8"),  # 1-1/2 x 3-3/4, a whole eighth already
        ({"room_baseboard": "7-1/4"}, "7-1/2"),  # 1/4 in over the base
        ({"plinth_height": "8"}, "8"),
    ],
)
def test_plinths_are_higher_than_the_base(trim: dict[str, Any], height: str) -> None:
    stock = {"plinth": "block 4"} if not trim else {}
    order = trim_job("hung", {**CLASSICAL, **trim, **stock}).cases[0].trim
    assert order is not None
    width = inches("3-3/4")
    found = order.plinth_height or plinth_height(order, width, "in")
    assert found == inches(height)
    if not trim:
        assert 1.5 * width <= found <= 2 * width


# --- Foot, walls, edges ------------------------------------------------------------------------


def test_baseboard_round_the_foot_as_in_a_published_case() -> None:
    """issuhub.com 5674 p. 20: ends 11 = 10-1/4 + 3/4, front 31-1/2 = 30 + 2 x 3/4; ours 1/2."""
    found = lengths(trim_job("standing", {"baseboard": "base 3-1/2"}))
    assert found["base-front"] == inches(30) + 2 * inches("1/2")
    assert found["base-left"] == found["base-right"] == inches(6) + inches("7/32") + inches("1/2")


def test_legs_on_a_case_stand_on_the_baseboard_and_must_not_reach_past_it() -> None:
    """Sides 23/32 thick, the leg 3/16 back: 17/32 of it is there for casing."""
    trim = {"set": "plain", "casing": "edge 1/2", "baseboard": "base 3-1/2", "corners": "butt"}
    found = lengths(trim_job("standing", trim))
    assert found["leg-left"] == inches(60) - T + inches("3/16") - inches("3-1/2")
    with pytest.raises(ValidationError, match="casing 17/32 in wide or less, or no baseboard"):
        trim_job("standing", {**trim, "casing": "casing 2-1/4"})


def test_baseboard_of_an_alcove_runs_between_the_legs_of_its_casing() -> None:
    trim = {**PLAIN, "corners": "butt", "baseboard": "base 3-1/2"}
    found = lengths(trim_job("built-in", trim))
    assert found["base-front"] == inches(29) - 2 * (T - inches("3/16"))


def test_strips_and_front_of_an_alcove() -> None:
    trim = {"scribe": "strip 1-1/2", "scribe_head": True, "baseboard": "base 3-1/2"}
    found = lengths(trim_job("built-in", trim))
    assert found["scribe-left"] == found["scribe-right"] == inches(79)
    assert found["scribe-head"] == found["base-front"] == inches("30-1/4"), "wall to wall"


def test_bands_on_every_edge_that_has_no_lip() -> None:
    found = lengths(trim_job("standing", {"band": "band 7/8"}))
    inner = inches(30) - 2 * T
    sides = dict.fromkeys(("band-side-left", "band-side-right"), inches(60))
    boards = dict.fromkeys(("band-top", "band-bottom", "band-shelf-1", "band-shelf-2"), inner)
    assert found == {**sides, **boards}
    lip = {"lip": {"moulding": "strip 1-1/2", "above": "1/2"}}
    with_lips = lengths(trim_job("standing", {"band": "band 7/8"}, case=lip))
    assert set(found) - set(with_lips) == {"band-shelf-1", "band-shelf-2"}


def test_what_is_cut_is_longer_by_what_is_left_to_fit() -> None:
    job = trim_job("hung", {**PLAIN, "over": "3/4"})
    for cut in trim_cuts(job, job.cases[0], (2,), inches(6)):
        assert cut.cut == cut.length + inches("3/4")
