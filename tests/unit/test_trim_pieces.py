"""Pieces of trim as listed: what travels and why, where they lie, the toe, old casing."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest

from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.plan.trimming import TrimPiece, TrimSet
from solver.planning.plan_job import plan_job
from solver.trim.trim_sets import trim_sets
from solver.units import inches
from tests.trims import CLASSICAL, EVERY, PLAIN, trim_job

OLD = [
    {"name": "left casing", "side": "hinge", "width": "2-1/2", "thickness": "3/4", "reveal": "1/4"},
    {"name": "right casing", "side": "latch", "width": "4", "thickness": "3/4", "covers": "2-5/8"},
]
MORE: dict[str, tuple[str, dict[str, Any], dict[str, Any]]] = {
    "classical": ("hung", CLASSICAL, {}),
    "right": ("hung", PLAIN, {"hinge_side": "right"}),
    "old": ("hung", {"set": "old"}, {"trim": OLD}),
    "pin behind": ("hung", PLAIN, {"pin": {"behind": "3/4"}}),
    "set back": ("hung", PLAIN, {"set_back": "1/2"}),
    "strips": (*EVERY["built-in, strips"], {}),
}


@cache
def planned(name: str) -> Plan:
    kind, trim, doorway = MORE[name]
    return plan_job(trim_job(kind, trim, doorway=doorway), Limits(seconds=20))


def listed(name: str) -> TrimSet:
    plan = planned(name)
    (found,) = trim_sets(plan.job, plan.options[0])
    return found


def pieces(name: str) -> dict[str, TrimPiece]:
    return {one.id.removeprefix("case/").removeprefix("trim-"): one for one in listed(name).pieces}


def test_what_hides_the_gap_travels_clear_of_floor_and_head() -> None:
    found = pieces("classical")
    stays, travels = found["leg-hinge"], found["leg-latch"]
    assert (stays.travels, travels.travels) == (False, True)
    # the latch's height is 1/8 more; it hangs 3/4 off the floor and 1/16 under its block
    assert travels.length == stays.length + inches("1/8") - inches("3/4") - inches("1/16")
    assert found["plinth-latch"].travels
    assert not any(found[k].travels for k in ("plinth-hinge", "block-latch", "head"))


def test_pieces_of_a_set_lie_against_each_other() -> None:
    """Leg on plinth, block on leg, head between the blocks; the plinth wider by 1/8 each way."""
    found = pieces("classical")
    plinth, leg, block, head = (
        found[k] for k in ("plinth-hinge", "leg-hinge", "block-hinge", "head")
    )
    at = [(one.x, one.y) for one in (plinth, leg, block, head)]
    assert all(x is not None and y is not None for x, y in at)
    (px, py), (lx, ly), (bx, by), (hx, hy) = ((x or 0, y or 0) for x, y in at)
    assert (py, ly, by) == (0, plinth.length, plinth.length + leg.length)
    assert lx - px == lx - bx == inches("1/8")
    assert lx + leg.width == -inches("3/16"), "a reveal back from the jamb"
    assert hx == bx + block.width
    # the last of the head is where the latch's block begins: two heights, 1/8 apart
    other = found["block-latch"]
    assert hx + head.length == other.x
    assert hy == inches("80-1/8") + inches("3/16")


def test_hinged_right_the_latch_is_at_the_left() -> None:
    found = pieces("right")
    latch, hinge = found["leg-latch"].x, found["leg-hinge"].x
    assert latch is not None
    assert hinge is not None
    assert latch < 0 < inches(30) <= hinge


def test_old_casing_goes_back_and_is_not_bought() -> None:
    found = listed("old")
    assert [piece.got for piece in found.pieces] == ["there", "there"]
    left, right = found.pieces
    assert left.length == inches(80) + inches("1/4")
    assert (left.travels, right.travels) == (False, True)
    assert planned("old").options[0].mouldings == ()
    assert any("number each piece" in note for note in found.notes)


def test_casing_that_binds_is_told_with_the_reveal_that_clears() -> None:
    """The case 3/4 in proud of the pin, which is level with the jamb's face: at 90 degrees its
    corner reaches 3/4 in past that, so casing on the wall stands 3/4 in back, or one step more."""
    (told,) = (n for n in listed("pin behind").notes if n.startswith("casing leg, hinge side"))
    assert "BINDS" in told
    assert any(f"on the wall {back} in back it clears" in told for back in ("3/4", "13/16"))


@pytest.mark.parametrize(("name", "says"), [("set back", True), ("classical", False)])
def test_casing_of_a_case_that_is_not_flush_is_packed_out(name: str, says: bool) -> None:
    words = " ".join(listed(name).notes)
    assert ("1/2 in behind the wall's face: pack casing" in words) == says


def test_the_toe_is_listed_as_the_part_that_it_is() -> None:
    toe = next(piece for piece in listed("strips").pieces if piece.name == "toe")
    assert toe.id in {part.id for part in planned("strips").options[0].parts}
    assert (toe.got, toe.width) == ("sheet", inches(3))
