"""Housings from both sides of an upright leave a third of it: intake, parts, notes, checker."""

from __future__ import annotations

from typing import Any

import pytest

from solver.carcass.boards_of_case import case_parts
from solver.carcass.housings import deepest
from solver.checking.check import check
from solver.checking.findings import Code
from solver.intake.load import load, read_json
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from solver.units import inches
from tests.builders import make_job
from tests.edits import both, in_job, in_option, more, put
from tests.mutations import BAY_2, NOT_SHARED
from tests.sample_plans import good_plan
from tests.two_bays_job import BAY, DADO, MARK_1, T, mm


def housed(unit: str = "in", thickness: Any = "23/32", **case: Any) -> Job:
    """A job of two bays whose shelves are housed."""
    length, width = ("96", "48") if unit == "in" else ("2440", "1220")
    sheet = {"name": "s", "material": "ply", "length": length, "width": width}
    asked = {"uprights": 1, "joint": "dado", "back": "none", **case}
    return make_job(unit=unit, case=asked, sheet=[{**sheet, "thickness": thickness}])


def refused(**asked: Any) -> str:
    with pytest.raises(ValueError, match="upright") as fault:
        housed(**asked)
    return str(fault.value)


# --- As read ------------------------------------------------------------------------------


def test_a_depth_left_out_leaves_a_third() -> None:
    # 23/32 less a third of it is 46/96, half of that 7.67/32: 7/32 on the router's step.
    assert housed().cases[0].dado == inches("7/32")
    # 18 mm less 6 mm is 2 x 6 mm, and 6 mm stay, a third to the tick.
    assert housed("mm", "18").cases[0].dado == mm(6)
    # 17.5 mm less 5.83 mm is 2 x 5.83 mm: 5.5 mm on the step.
    assert housed("mm", "17.5").cases[0].dado == mm(5.5)


def test_a_board_thick_enough_keeps_the_usual_depth() -> None:
    # 1-1/8 less 2 x 3/8 is 3/8, a third; 27 mm less 2 x 9 is 9.
    assert housed(thickness="1-1/8").cases[0].dado == inches("3/8")
    assert housed("mm", "27").cases[0].dado == mm(9)


@pytest.mark.parametrize(
    "case", [{"uprights": 0}, {"fixing": "pins"}, {"shelves": 0}, {"joint": "butt"}]
)
def test_without_shelves_housed_from_both_sides_the_depth_is_the_usual_one(
    case: dict[str, Any],
) -> None:
    assert housed(**case).cases[0].dado == inches("3/8")


def test_an_upright_that_is_only_possible_counts() -> None:
    assert housed(uprights=[0, 1]).cases[0].dado == inches("7/32")


def test_the_thinnest_board_of_a_band_counts() -> None:
    # 17 mm less 5.67 mm is 2 x 5.67 mm: 5.5 mm, where 19 mm would bear 6 mm.
    job = housed("mm", {"least": "17", "most": "19"})

    assert job.cases[0].dado == mm(5.5)
    assert load(job.measured({"ply": mm(17)}).model_dump(by_alias=True)).cases[0].dado == mm(5.5)


def test_a_written_depth_is_kept_or_refused() -> None:
    assert housed("mm", "18", dado="6").cases[0].dado == mm(6)
    assert "6.1 mm deep from both sides of an upright of 18 mm leaves 5.8 mm of it" in refused(
        unit="mm", thickness="18", dado="6.1"
    )
    text = refused(dado="3/8")
    assert "case 'case' dado: 3/8 in deep from both sides of an upright of 23/32 in" in text
    assert "leaves nothing of it" in text
    assert "give 7/32 in at most, or leave it out" in text


def test_a_board_too_thin_for_useful_housings_is_butted() -> None:
    # A third of 3/8 is 1/8, the least useful housing.
    assert housed(thickness="3/8").cases[0].dado == inches("1/8")
    text = refused(thickness="11/32")
    assert "case 'case' joint: shelves housed from both sides of an upright of 11/32 in" in text
    assert "leave joint out: butt, glued and screwed" in text


def test_a_job_dumped_and_loaded_keeps_its_depth() -> None:
    job = housed()

    assert load(job.model_dump(by_alias=True)) == job


def test_the_deepest_leaves_a_third_to_the_tick() -> None:
    for sheet in ("1/2", "5/8", "23/32", "47/64", "3/4"):
        job = housed(thickness=sheet)
        depth, thick = deepest(job, job.cases[0]), inches(sheet)
        assert 3 * (thick - 2 * depth) >= thick > 3 * (thick - 2 * (depth + 1))


# --- What follows -------------------------------------------------------------------------


def test_shelves_are_cut_for_the_lessened_depth() -> None:
    job = housed()
    parts = {one.id: one for one in case_parts(job, job.cases[0], (3, 3), inches(8))}
    bay = (inches(30) - 3 * inches("23/32")) // 2

    assert parts["case/bay-1-shelf-1"].length == bay + 2 * inches("7/32")
    assert parts["case/top"].length == inches(30) - 2 * inches("23/32") + 2 * inches("7/32")


def test_a_plan_says_why_its_dadoes_are_shallow_and_is_good() -> None:
    plan = plan_job(housed(), Limits(seconds=20))
    # 23/32 less 2 x 7/32 is 9/32.
    note = (
        "case 'case': each dado is 7/32 in deep, not the usual 3/8 in, so that shelves housed "
        "opposite each other leave 9/32 in of an upright, a third of it at least"
    )

    assert check(plan) == ()
    assert all(note in option.notes for option in plan.options if option.cases)


# --- The checker --------------------------------------------------------------------------


def codes(plan: Plan) -> set[Code]:
    return {finding.code for finding in check(plan)}


def test_a_third_is_enough_and_a_tick_less_is_not() -> None:
    assert T - 2 * DADO == T / 3
    found = check(in_job("cases.0.dado", more(1))(good_plan()))
    (web,) = (one for one in found if one.code is Code.LAYOUT_HOUSINGS)

    assert web.where.endswith("case 'hall', upright 1")


def moved_by(up: int) -> Plan:
    """The good plan with deeper dadoes, and both shelves of its right bay so much higher."""

    def raised(old: int) -> int:
        return old + up

    change = both(
        NOT_SHARED,
        in_job("cases.0.dado", more(1)),
        *(
            in_option(f"{BAY_2}.shelves.{k}.{face}", raised)
            for k in (0, 1)
            for face in ("underside", "top")
        ),
    )
    return change(good_plan())


def test_boards_that_overlap_by_a_tick_are_opposite_and_boards_apart_are_not() -> None:
    assert Code.LAYOUT_HOUSINGS in codes(moved_by(mm(T) - 1))
    assert Code.LAYOUT_HOUSINGS in codes(moved_by(1 - mm(T)))
    assert Code.LAYOUT_HOUSINGS not in codes(moved_by(mm(T)))
    assert Code.LAYOUT_HOUSINGS not in codes(moved_by(-mm(T)))
    assert MARK_1 + T < BAY  # the boards moved by their thickness meet no other


def test_butt_joints_and_pins_have_no_housings() -> None:
    deep = in_job("cases.0.dado", mm(9))
    assert Code.LAYOUT_HOUSINGS in codes(deep(good_plan()))
    for field, value in (("joint", "butt"), ("fixing", "pins")):
        plan = both(deep, in_job(f"cases.0.{field}", value))(good_plan())
        assert Code.LAYOUT_HOUSINGS not in codes(plan)


def test_a_plan_of_before_is_read_and_then_found_bad() -> None:
    before = put(good_plan(), "job.cases.0.dado", mm(9))
    plan = read_json(Plan, before.to_json())

    assert Code.LAYOUT_HOUSINGS in codes(plan)
