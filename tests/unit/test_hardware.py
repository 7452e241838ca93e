"""Hardware and consumables: counted by hand on small cases, whole packs."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.costing import hardware_catalogue
from solver.costing.finish_materials import area_of, millilitres
from solver.costing.hardware import fastened_cases, hardware_list, shelf_pin_holes
from solver.costing.hardware_catalogue import Need, packed_lines
from solver.errors import InputError
from solver.job.finish_and_overrides import HardwareOrder
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.bought import HardwareLine, Use
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from solver.units import inches, mm
from tests.builders import make_job
from tests.trims import CLASSICAL, trim_job

LITRES_PER_GALLON = Fraction("3.785411784")


@cache
def planned(kind: str) -> Plan:
    jobs = {
        "standing": make_job(case={"shelves": 3}),
        "pins": make_job(
            unit="mm",
            case={"shelves": 4, "fixing": "pins", "kind": "wall", "first_hole": "96"},
        ),
        "hung": trim_job("hung", {**CLASSICAL, "flutes": 3}),
    }
    return plan_job(jobs[kind], Limits(seconds=20))


def listed(kind: str, **job: Any) -> dict[str, HardwareLine]:
    plan = planned(kind)
    asked = plan.job.model_copy(update=job)
    return {line.key.split(",")[0]: line for line in hardware_list(asked, plan.options[0])}


# --- Counts -------------------------------------------------------------------------------------


def test_screws_of_a_plain_case() -> None:
    """Top, bottom and three shelves, two ends each, three screws to an end at 8 in deep."""
    found = listed("standing")
    assert found["joint screw"].need == (1 + 1 + 3) * 2 * 3
    assert dict(found["joint screw"].uses)[Use("case", "shelf ends", "shelf")] == 3 * 2 * 3
    assert "pilot 3/32 in" in found["joint screw"].how


def test_the_back_is_fastened_at_the_spacing_of_its_sheet() -> None:
    """30 and 60 in at 6 in: 5 + 10 on two sides each; 28-9/16 inside: 4 along each shelf."""
    assert listed("standing")["back staple"].need == 2 * (5 + 10) + 3 * 4


def test_four_pins_carry_each_of_four_shelves() -> None:
    assert listed("pins")["shelf pin"].need == 4 * 4


def test_a_hung_case_has_hinges_screws_catches_stop_and_shims() -> None:
    found = listed("hung")
    hinges = found["hinge"].need
    assert hinges >= 3
    assert found["hinge screw"].need == hinges * 4
    assert (found["catch"].need, found["bumper"].need, found["limit stop"].need) == (2, 2, 1)
    assert found["shim"].need == 2 * hinges
    assert found["corner block"].need == found["plinth block"].need == 2
    assert "strap" not in found


def test_a_standing_case_has_two_straps_and_none_of_a_door() -> None:
    found = listed("standing")
    assert found["strap"].need == 2
    assert not {"hinge", "catch", "limit stop", "wall screw"} & found.keys()


# --- Holes for pins -----------------------------------------------------------------------------


def test_pin_holes_from_the_end_that_everything_is_marked_from() -> None:
    """1500 high, 18 mm boards: top's underside 1482; the shelf over 100 clear and 18 thick."""
    plan = planned("pins")
    (found,) = shelf_pin_holes(plan.job, plan.options[0])
    t = plan.job.thickness(plan.job.cases[0].material)
    assert found.first == mm(96) - mm(5) // 2
    assert found.pitch == mm(32)
    last = mm(96) + (found.count - 1) * mm(32)
    top = mm(1500) - t
    assert top - last - t >= plan.job.look.clear_least > top - last - t - mm(32)
    assert found.total == 4 * found.count
    undersides = [shelf.underside for shelf in plan.options[0].cases[0].bays[0].shelves]
    assert all((u - mm(96)) % mm(32) == 0 and u <= last for u in undersides)


def test_fixed_shelves_have_no_pin_holes() -> None:
    plan = planned("standing")
    assert shelf_pin_holes(plan.job, plan.options[0]) == ()


# --- Finish -------------------------------------------------------------------------------------


def test_the_area_is_faces_and_edges_less_what_is_glued() -> None:
    """2 x sheet area + edges - glued faces (practice of the trade), part by part."""
    plan = planned("standing")
    (held,) = fastened_cases(plan.job, plan.options[0])
    t, inside = inches("23/32"), inches(30) - 2 * inches("23/32")
    depth = inches(8) - inches("7/32")
    boards = [(inches(60), depth)] * 2 + [(inside, depth)] * 5
    back = (inches(60) - inches("1/8"), inches(30) - inches("1/8"))
    area = area_of(held)
    assert area.faces == 2 * sum(a * b for a, b in [*boards, back])
    thin = inches("7/32")
    assert area.edges == 2 * sum(a + b for a, b in boards) * t + 2 * sum(back) * thin
    ends = 5 * 2 * depth * t
    strips = t * (2 * inches(60) + 2 * inside + 3 * inside)
    assert area.glued == 2 * ends + 2 * strips
    assert area.trim == 0


def test_the_same_area_takes_the_same_paint_in_both_units() -> None:
    """350 ft2 a gallon is 350 x 0.3048^2 / 3.785 = 8.59 m2 a litre."""
    metric = round(350 * 0.3048**2 / float(LITRES_PER_GALLON), 4)
    inch = millilitres(Fraction(6), 2, 350, 0.1, "in")
    assert abs(millilitres(Fraction(6), 2, metric, 0.1, "mm") - inch) <= 1


def test_clear_finish_takes_no_primer_and_none_takes_nothing() -> None:
    plan = planned("standing")
    clear = plan.job.finished.model_copy(update={"kind": "clear"})
    none = plan.job.finished.model_copy(update={"kind": "none"})
    assert {"clear finish", "filler"} <= listed("standing", finish=clear).keys()
    assert not {"primer", "paint"} & listed("standing", finish=clear).keys()
    bare = listed("standing", finish=none).keys()
    assert not {"primer", "paint", "clear finish", "filler", "roller sleeve"} & bare


# --- Packs --------------------------------------------------------------------------------------


@given(
    counts=st.lists(st.integers(1, 4000), min_size=1, max_size=4),
    pack=st.none() | st.integers(1, 900),
    spare=st.none() | st.integers(0, 90),
)
def test_whole_packs_hold_need_and_spares_and_no_pack_too_many(
    counts: list[int], pack: int | None, spare: int | None
) -> None:
    orders = [HardwareOrder(key="joint screw", pack=pack, spare=spare)]
    needs = [
        Need(hardware_catalogue.JOINT_SCREW, "#8", n, Use(f"use {k}"), "")
        for k, n in enumerate(counts)
    ]
    (line,) = packed_lines(needs, orders, "in")
    assert line.need == sum(counts) == sum(number for _, number in line.uses)
    assert (line.packs - 1) * line.pack < line.need + line.spare <= line.packs * line.pack
    assert line.pack == (pack or line.pack)
    assert line.spare == (line.spare if spare is None else spare)


@pytest.mark.parametrize("kind", ["standing", "pins", "hung"])
def test_every_line_of_a_plan_adds_up(kind: str) -> None:
    found = planned(kind)
    made = hardware_list(found.job, found.options[0])
    assert len({line.key for line in made}) == len(made)
    for line in made:
        assert line.need == sum(number for _, number in line.uses)
        assert line.packs * line.pack >= line.need + line.spare
        assert line.how
        assert line.source


def test_a_pack_of_a_line_that_is_not_there_is_refused_with_those_that_are() -> None:
    orders = (HardwareOrder(key="joint screws", pack=100),)
    with pytest.raises(InputError, match="'joint screws' is no line of this plan; lines: 'joint"):
        listed("standing", hardware=orders)


def test_two_cases_add_up_in_one_line() -> None:
    two: Job = make_job(case=[{"name": "a"}, {"name": "b"}])
    plan = plan_job(two, Limits(seconds=20))
    screws = next(
        line
        for line in hardware_list(plan.job, plan.options[0])
        if line.key.startswith("joint screw")
    )
    assert screws.need == 2 * listed("standing")["joint screw"].need
