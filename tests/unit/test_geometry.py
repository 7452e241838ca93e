"""Inside sizes, parts, lips and load limits of a case."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from solver.carcass.boards_of_case import (
    Box,
    box,
    case_parts,
    lip_pieces,
    lip_sizes,
    load_limit,
    mass_of,
)
from solver.job.job import Job
from solver.plan.stocked import Part
from solver.units import inches, mm, parse_mass
from tests.builders import make_job

T, BACK = inches("23/32"), inches("7/32")
"""Thickness of the default plywood in an inch job."""


def sizes(job: Job) -> Box:
    return box(job, job.cases[0], inches(8))


def parts(job: Job, *counts: int) -> dict[str, Part]:
    found = case_parts(job, job.cases[0], counts or (3,), inches(8))
    return {part.id: part for part in found}


# --- Sizes --------------------------------------------------------------------------------


def test_outside_sizes_less_boards_are_inside_sizes() -> None:
    found = sizes(make_job(case={"raised_bottom": "3"}))
    assert found.inside_width == inches(30) - 2 * T
    assert found.inside_height == inches(60) - 2 * T - inches(3)
    assert found.floor == inches(3) + T
    assert found.outside_depth == inches(8) + BACK


def test_inside_sizes_and_boards_are_outside_sizes() -> None:
    found = sizes(make_job(case={"sizes": "inside", "raised_bottom": "3"}))
    assert (found.inside_width, found.inside_height) == (inches(30), inches(60))
    assert found.outside_width == inches(30) + 2 * T
    assert found.outside_height == inches(60) + 2 * T + inches(3)


def test_a_case_without_a_back_is_as_deep_as_its_shelves() -> None:
    found = sizes(make_job(case={"back": "none"}))
    assert (found.back, found.outside_depth) == (0, inches(8))


@pytest.mark.parametrize("uprights", [0, 1, 2, 6])
def test_bays_and_uprights_close_across_the_case(uprights: int) -> None:
    """Seven bays do not share the width in whole ticks; the last takes what is left."""
    found = sizes(make_job(case={"uprights": uprights}))
    at = T
    for x, width in found.bays:
        assert x == at
        at += width + T
    assert at == found.outside_width
    widths = [width for _, width in found.bays]
    assert len(widths) == uprights + 1
    assert 0 <= widths[-1] - widths[0] < uprights + 1
    assert len(set(widths[:-1])) <= 1


# --- Parts --------------------------------------------------------------------------------


def test_parts_of_the_plain_case_with_butt_joints() -> None:
    found = parts(make_job())
    wide, high = inches(30), inches(60)
    across = wide - 2 * T
    assert {name: (part.length, part.width) for name, part in found.items()} == {
        "case/side-left": (high, inches(8)),
        "case/side-right": (high, inches(8)),
        "case/top": (across, inches(8)),
        "case/bottom": (across, inches(8)),
        "case/shelf-1": (across, inches(8)),
        "case/shelf-2": (across, inches(8)),
        "case/shelf-3": (across, inches(8)),
        "case/back": (high - inches("1/8"), wide - inches("1/8")),
    }


def test_dadoes_lengthen_what_they_hold_and_nothing_else() -> None:
    butt = parts(make_job(case={"uprights": 1}), 3, 3)
    dado = parts(make_job(case={"uprights": 1, "joint": "dado", "dado": "7/32"}), 3, 3)
    longer = {name: dado[name].length - butt[name].length for name in butt}
    held = {"top", "bottom", "upright-1"} | {
        f"bay-{b}-shelf-{k}" for b in (1, 2) for k in (1, 2, 3)
    }
    assert {name for name, more in longer.items() if more} == {f"case/{name}" for name in held}
    assert {longer[f"case/{name}"] for name in held} == {2 * inches("7/32")}


def test_a_raised_bottom_has_a_toe_of_its_height() -> None:
    toe = parts(make_job(case={"raised_bottom": "3-1/2"}))["case/toe"]
    assert (toe.length, toe.width) == (inches(30) - 2 * T, inches("3-1/2"))


def test_uprights_stand_between_bottom_and_top() -> None:
    upright = parts(make_job(case={"uprights": 1}), 3, 3)["case/upright-1"]
    assert upright.length == inches(60) - 2 * T


def test_each_bay_has_shelves_of_its_own_count() -> None:
    found = parts(make_job(case={"uprights": 1}), 2, 1)
    shelves = [name for name in found if "shelf" in name]
    assert shelves == ["case/bay-1-shelf-1", "case/bay-1-shelf-2", "case/bay-2-shelf-1"]


def test_a_shelf_on_pins_is_shorter_by_its_clearance_and_says_so() -> None:
    shelf = parts(make_job(case={"fixing": "pins", "pin_clearance": "1/8"}))["case/shelf-1"]
    assert shelf.length == inches(30) - 2 * T - inches("1/8")
    assert [(a.what, a.length) for a in shelf.allowances] == [("pin clearance", -inches("1/8"))]


def test_the_back_keeps_its_grain_upright_and_says_its_inset() -> None:
    wide = make_job(case={"width": "80", "back_inset": "1/4"})
    back = parts(wide)["case/back"]
    assert (back.length, back.width) == (inches(60) - inches("1/4"), inches(80) - inches("1/4"))
    assert [(a.length, a.width) for a in back.allowances] == [(-inches("1/4"), -inches("1/4"))]


def test_a_part_without_grain_is_as_long_as_its_longer_side() -> None:
    sheets = [
        {"name": "m", "material": "MDF", "length": "97", "width": "49", "thickness": "3/4",
         "grain": "any"},
        {"name": "b", "material": "hardboard", "length": "96", "width": "48",
         "thickness": "1/8", "grain": "any"},
    ]  # fmt: skip
    job = make_job(case={"width": "12", "depth": "20", "back_inset": "0"}, sheet=sheets)
    found = {p.id: p for p in case_parts(job, job.cases[0], (0,), inches(20))}
    top = found["case/top"]
    assert (top.length, top.width, top.grain) == (inches(20), inches("10-1/2"), "any")


# --- Lips ---------------------------------------------------------------------------------


def lipped(**case: Any) -> Job:
    moulding = {"name": "lip", "thickness": "3/4", "width": "1-1/2", "lengths": [{"length": "96"}]}
    lip = {"moulding": "lip", "above": "1/2"}
    return make_job(case={"lip": lip, **case}, moulding=[moulding])


def test_a_lip_covers_the_edge_and_hangs_below_with_the_rest() -> None:
    job = lipped()
    below = inches("1-1/2") - T - inches("1/2")
    assert lip_sizes(job, job.cases[0]) == (inches("3/4"), inches("1/2"), below)
    plain = make_job()
    assert lip_sizes(plain, plain.cases[0]) == (0, 0, 0)


def test_a_lip_is_taken_off_the_shelf_not_off_the_finished_depth() -> None:
    found = parts(lipped())
    assert found["case/shelf-1"].width == inches(8) - inches("3/4")
    assert found["case/top"].width == inches(8)


def test_a_lip_is_as_long_as_its_shelf_between_the_sides() -> None:
    fixed, pins = lipped(joint="dado"), lipped(fixing="pins", pin_clearance="1/16")
    clear = inches(30) - 2 * T
    assert lip_pieces(fixed, fixed.cases[0], (2,)) == (
        ("case/lip-1", "lip", clear),
        ("case/lip-2", "lip", clear),
    )
    assert lip_pieces(pins, pins.cases[0], (1,)) == (("case/lip-1", "lip", clear - inches("1/16")),)


def test_no_lip_no_pieces() -> None:
    job = make_job()
    assert lip_pieces(job, job.cases[0], (3,)) == ()


# --- Loads --------------------------------------------------------------------------------

POUND = Fraction("453.59237")


def test_a_given_shelf_load_replaces_the_standard_one() -> None:
    job = make_job(look={"shelf_load": "25 lb"})
    assert load_limit(job, inches(72), inches(12)) == parse_mass("25 lb", "in")


def thing(**more: Any) -> Job:
    item = {"name": "urn", "width": "6", "height": "9", "depth": "6", **more}
    return make_job(items=[item])


def test_a_weighed_thing_weighs_what_was_said() -> None:
    job = thing(weight="2 lb")
    assert mass_of(job, job.items[0]) == (parse_mass("2 lb", "in"), False)


def test_an_unweighed_thing_takes_the_standard_load_of_its_footprint() -> None:
    job = thing()  # 6 x 6 in. is a quarter of a square foot: 10 lb
    assert mass_of(job, job.items[0]) == (int(10 * POUND), True)


def test_a_guessed_footprint_counts_with_its_allowance() -> None:
    job = make_job(
        items=[{"name": "urn", "width": "5", "height": "9", "depth": "5", "guessed": True}],
        look={"guess_allowance": "1"},
    )
    assert mass_of(job, job.items[0]) == (int(10 * POUND), True)


def test_a_shelf_full_of_unweighed_things_is_never_over_its_own_limit() -> None:
    job = thing(width="7.3", depth="11.9", count=4)
    each, _ = mass_of(job, job.items[0])
    width, depth = 4 * job.items[0].width, job.items[0].depth
    assert 4 * each <= load_limit(job, width, depth)


def test_the_smallest_thing_weighs_at_least_a_gram() -> None:
    job = make_job(unit="mm", items=[{"name": "bead", "width": 1, "height": 1, "depth": 1}])
    assert job.items[0].width == mm(1)
    assert mass_of(job, job.items[0]) == (1, True)
