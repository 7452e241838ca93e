"""What a case, its stock and its doorway may be, and what is refused."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from pydantic import ValidationError

from solver.carcass.outline import depth_wanted
from solver.job.case import Case, CountRange, SizeRange
from solver.job.doorway import Doorway
from solver.job.job import Job
from solver.job.materials import MouldingStock, SheetStock
from solver.units import inches, mm
from tests.builders import make_job

INCH = {"unit": "in"}


def case(**more: Any) -> Case:
    return make_job(case=more).cases[0]


def sheet(**more: Any) -> SheetStock:
    plain = {"name": "s", "material": "ply", "length": 96, "width": 48, "thickness": "23/32"}
    return SheetStock.model_validate({**plain, **more}, context=INCH)


# --- Ranges -------------------------------------------------------------------------------


def test_a_size_left_open_wishes_for_its_most_unless_told() -> None:
    assert SizeRange(least=mm(200), most=mm(300)).wished == mm(300)
    assert SizeRange(least=mm(200), most=mm(300), wish=mm(250)).wished == mm(250)


@pytest.mark.parametrize(
    ("least", "most", "wish"), [(300, 200, None), (200, 300, 199), (200, 300, 301)]
)
def test_a_size_range_out_of_order_is_refused(least: int, most: int, wish: int | None) -> None:
    with pytest.raises(ValidationError, match="least <= wish <= most"):
        SizeRange(least=mm(least), most=mm(most), wish=None if wish is None else mm(wish))


def test_a_count_range_out_of_order_is_refused() -> None:
    with pytest.raises(ValidationError, match="least <= most"):
        CountRange(least=5, most=4)


@pytest.mark.parametrize(
    ("shelves", "counts"),
    [
        (0, (0,)),
        (4, (4,)),
        ([5, 4], (4, 5)),
        ([4, 4, 6], (4, 6)),
        ({"least": 3, "most": 5}, (3, 4, 5)),
    ],
)
def test_shelf_counts_are_ascending_and_each_once(shelves: Any, counts: tuple[int, ...]) -> None:
    assert case(shelves=shelves).shelf_counts == counts


@pytest.mark.parametrize("shelves", [-1, 31, [], [4, 31], 2.5, "four"])
def test_a_shelf_count_that_cannot_be_is_refused(shelves: Any) -> None:
    with pytest.raises(ValidationError, match="shelves"):
        case(shelves=shelves)


# --- Cases --------------------------------------------------------------------------------


def test_bays_are_one_more_than_uprights() -> None:
    assert case(uprights=2).bay_count == 3


def test_a_dado_counts_only_where_the_joint_is_one() -> None:
    assert case(joint="dado", dado="3/8").dado_depth == inches("3/8")
    assert case(joint="butt", dado="3/8").dado_depth == 0


@pytest.mark.parametrize(
    "wrong",
    [
        {"kind": "floating"},
        {"fixing": "glued"},
        {"joint": "mitre"},
        {"uprights": 20},
        {"width": 0},
        {"above_floor": "-1"},
        {"colour": "blue"},
    ],
    ids=lambda wrong: next(iter(wrong)),
)
def test_a_case_that_cannot_be_is_refused(wrong: dict[str, Any]) -> None:
    with pytest.raises(ValidationError, match=next(iter(wrong))):
        case(**wrong)


def depth(**more: Any) -> SizeRange | int:
    job: Job = make_job(case=more)
    return depth_wanted(job, job.cases[0])


def test_an_outside_depth_includes_the_planted_back() -> None:
    back = inches("7/32")
    assert depth(depth="9") == inches(9) - back
    assert depth(depth="9", sizes="inside") == inches(9)
    assert depth(depth="9", back="none") == inches(9)


def test_an_outside_depth_range_includes_the_planted_back_throughout() -> None:
    back, wanted = inches("7/32"), {"least": "9", "most": "12", "wish": "11"}
    assert depth(depth=wanted) == SizeRange(
        least=inches(9) - back, most=inches(12) - back, wish=inches(11) - back
    )


def test_a_depth_left_out_is_that_of_the_deepest_thing_rounded_up() -> None:
    items: list[dict[str, Any]] = [
        {"name": "tin", "width": "4", "height": "4", "depth": "6-1/32"},
        {"name": "jug", "width": "4", "height": "4", "depth": "6", "guessed": True},
    ]
    look = {"front_margin": "1", "guess_allowance": "1/64"}
    job = make_job(case={"depth": None}, items=items, look=look)
    assert depth_wanted(job, job.cases[0]) == inches("7-1/16")


# --- Stock --------------------------------------------------------------------------------


def test_a_sheet_keeps_its_grain_and_is_to_be_bought_unless_told() -> None:
    plain = sheet()
    assert (plain.grain, plain.price, plain.on_hand, plain.limit) == ("length", None, 0, None)


def test_inch_and_metric_sizes_may_stand_in_one_sheet() -> None:
    mixed = sheet(thickness="18 mm", price=92)
    assert (mixed.length, mixed.thickness) == (inches(96), mm(18))
    assert mixed.price == Decimal("92.00")


@pytest.mark.parametrize(
    "wrong",
    [
        {"price": -1},
        {"price": "9.999"},
        {"price": "dear"},
        {"on_hand": -1},
        {"limit": 1.5},
        {"grain": "width"},
        {"length": 0},
        {"thickness": None},
        {"name": ""},
    ],
    ids=str,
)
def test_a_sheet_that_cannot_be_is_refused(wrong: dict[str, Any]) -> None:
    with pytest.raises(ValidationError, match=next(iter(wrong))):
        sheet(**wrong)


def test_a_moulding_without_a_length_is_refused() -> None:
    lip = {"name": "lip", "thickness": "3/4", "width": "1-1/2", "lengths": []}
    with pytest.raises(ValidationError, match="lengths"):
        MouldingStock.model_validate(lip, context=INCH)


def test_sheets_of_one_material_must_be_of_one_thickness() -> None:
    sheets = [
        {"name": name, "material": "ply", "length": 96, "width": 48, "thickness": thickness}
        for name, thickness in (("full", "3/4"), ("half", "23/32"))
    ]
    with pytest.raises(ValidationError, match="one thickness"):
        make_job(sheet=sheets)


def test_two_sheets_of_one_name_are_refused() -> None:
    one = {"name": "ply", "material": "ply", "length": 96, "width": 48, "thickness": "3/4"}
    with pytest.raises(ValidationError, match=r"given twice: 'ply'"):
        make_job(sheet=[one, one])


# --- Doorways -----------------------------------------------------------------------------


def test_the_least_of_the_measured_sizes_counts() -> None:
    measured = {
        "name": "pantry",
        "widths": ["28-3/8", "28-1/4", "28-5/16"],
        "heights": ["80-5/16", "80-1/4"],
        "opens_to": 90,
        **dict.fromkeys(("hinge_gap", "head_gap", "floor_gap", "running_clearance"), "1/8"),
        "scribe": "3/4",
    }
    doorway = Doorway.model_validate(measured, context=INCH)
    assert doorway.clear_width == inches("28-1/4")
    assert doorway.clear_height == inches("80-1/4")


def test_a_case_in_a_doorway_that_nobody_measured_is_refused() -> None:
    with pytest.raises(ValidationError, match="doorway"):
        case(doorway="larder")
