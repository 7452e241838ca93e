"""Advice on a planned option: only what leaves the cases as they are."""

from __future__ import annotations

import pytest

from solver.changes.saving_changes import with_advice, with_room
from solver.outcome import Limits
from solver.plan.plan import Option, Plan
from solver.sizing.purchase import Buyer
from tests.edits import in_job
from tests.sample_plans import good_plan
from tests.two_bays_job import INSIDE_DEPTH, KERF, MARGIN, mm

LIMITS = Limits(work=4, seconds=3600)


def advised(length: int, width: int) -> Option:
    """The hand-made plan cut from boards of another size [mm], and advised on."""
    plan = _with_boards(good_plan(), length, width)
    option = plan.options[0]
    depths = {"hall": mm(INSIDE_DEPTH)}
    stock = Buyer(plan.job, LIMITS).stock(option.shelf_counts, depths)
    cut = option.model_copy(update={"sheets": stock.sheets, "mouldings": stock.sticks})
    return with_advice(plan.job, with_room(cut), LIMITS)


def _with_boards(plan: Plan, length: int, width: int) -> Plan:
    plan = in_job("sheets.0.length", mm(length))(plan)
    return in_job("sheets.0.width", mm(width))(plan)


@pytest.mark.parametrize(
    ("size", "kind"),
    [((2160, 560), "kerf"), ((2160, 500), "edge trim"), ((2100, 560), "two pieces")],
)
def test_blade_trim_and_sides_in_two_pieces_may_be_advised(
    size: tuple[int, int], kind: str
) -> None:
    option = advised(*size)

    assert kind in [one.what for one in option.advice]
    assert option.advice_note is None
    assert all(one.sheets_saved == 1 and one.slack == mm(MARGIN) for one in option.advice)


def test_a_blade_that_saves_is_found_by_cutting_with_it_at_once() -> None:
    """With that blade in the job the engine buys as few sheets as the advice says."""
    option = advised(2160, 560)
    (blade,) = [one for one in option.advice if one.what == "kerf"]
    assert blade.to is not None
    assert blade.to < mm(KERF)
    job = in_job("shop.kerf", blade.to)(_with_boards(good_plan(), 2160, 560)).job

    stock = Buyer(job, LIMITS).stock(option.shelf_counts, {"hall": mm(INSIDE_DEPTH)})

    bought = sum(not sheet.on_hand for sheet in option.sheets)
    assert stock.sheet_count == bought - blade.sheets_saved


def test_both_sides_of_a_case_are_joined_or_neither() -> None:
    (joined,) = [one for one in advised(2100, 560).advice if one.what == "two pieces"]

    assert joined.parts == ("hall/side-left", "hall/side-right")


@pytest.mark.parametrize("size", [(2160, 560), (2100, 560), (1860, 650), (2440, 1220)])
def test_no_part_is_made_smaller_since_the_case_decides_its_size(size: tuple[int, int]) -> None:
    option = advised(*size)

    assert not {one.what for one in option.advice} & {"shorter", "narrower"}
    assert all("shelf" not in part for one in option.advice for part in one.parts)


def test_an_option_that_nothing_helps_says_for_what_that_is_proven() -> None:
    option = advised(2440, 1220)

    assert option.advice == ()
    assert option.advice_note == (
        "no small change found that saves a sheet; proven for a thinner blade, less edge trim"
        ", parts in two pieces and more of a scarce size"
    )


def test_time_that_is_over_leaves_the_option_as_it_was() -> None:
    option = good_plan().options[0]

    assert with_advice(good_plan().job, option, Limits(seconds=0)) == option


def test_the_slack_is_stated_for_every_sheet_and_stick() -> None:
    bare = good_plan().options[0]
    bare = bare.model_copy(
        update={
            "sheets": tuple(s.model_copy(update={"slack": None}) for s in bare.sheets),
            "mouldings": tuple(s.model_copy(update={"slack": None}) for s in bare.mouldings),
            "least_slack": None,
        }
    )

    assert with_room(bare) == good_plan().options[0]
