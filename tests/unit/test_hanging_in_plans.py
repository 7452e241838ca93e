"""What documents take from a plan: hanging sheets, joints, fixings, cautions; open sizes too."""

from __future__ import annotations

from itertools import pairwise

import pytest

from solver.hanging import HangSheet, Joint
from solver.strength.joints import screw_places, screw_text
from solver.strength.sheet import hanging_of
from solver.units import TICKS_PER_INCH, inches, mm
from tests.builders import make_job
from tests.unit.test_strength_of_plans import hung_job, long_shelf, planned


def carried(job: object) -> HangSheet:
    option = planned(job)  # type: ignore[arg-type]
    assert option.hanging is not None
    return option.hanging.cases[0]


def joint(sheet: HangSheet, part: str) -> Joint:
    return next(one for one in sheet.joints if one.part == part)


def test_a_plan_carries_the_sheet_of_every_case_and_the_cautions() -> None:
    option = planned(hung_job())

    assert option.hanging is not None
    assert [one.case for one in option.hanging.cases] == [one.name for one in option.cases]
    assert option.hanging.cautions
    assert option.hanging.of(option.cases[0].name) is option.hanging.cases[0]
    with pytest.raises(KeyError):
        option.hanging.of("no such case")


def test_a_plan_of_before_gives_the_same_worked_out() -> None:
    job = hung_job()
    option = planned(job)

    assert hanging_of(job, option.model_copy(update={"hanging": None})) == option.hanging


def test_five_shelves_of_seven_inches_take_three_screws_in_each_of_ten_ends() -> None:
    # 7 in deep before the back of 7/32: 3 to 10 in of depth, the first 1-1/4 in from each edge
    shelf = joint(carried(hung_job(case={"depth": "7-7/32"})), "shelf")

    assert (shelf.ends, shelf.fasteners) == (10, 3)
    assert shelf.from_front == (inches("1-1/4"), inches("3-1/2"), inches("5-3/4"))


def test_shelves_on_pins_take_two_pins_at_each_end_and_dadoes_glue_alone() -> None:
    pins = joint(carried(long_shelf(fixing="pins")), "shelf")
    dado = joint(carried(long_shelf(joint="dado", dado="1/4")), "shelf")

    assert (pins.fasteners, pins.fastener) == (2, "shelf pin")
    assert (dado.fasteners, dado.also) == (0, "glue in the dado")


def test_places_of_screws_keep_order_and_margins() -> None:
    for depth in (inches(3), inches(6), inches("11-1/4"), inches(15)):
        places = screw_places(depth, inches("3/4"), TICKS_PER_INCH // 16)
        assert all(a < b for a, b in pairwise(places))
        first, last = places[0] - inches("3/4"), depth - (places[-1] - inches("3/4"))
        assert min(first, last) >= min(inches("5/4"), depth // 4) - TICKS_PER_INCH // 16


def test_a_screw_bites_at_least_an_inch_and_a_quarter_of_the_end() -> None:
    assert screw_text(inches("3/4"), "in") == "#8 x 2 in screw"
    assert screw_text(mm(18), "mm") == "4 x 50 mm screw"


def test_a_back_is_fastened_all_round_and_to_every_fixed_shelf() -> None:
    # 28 x 78 in with a fastener every 6 in: 2 (5 + 13) round; five shelves of 26-1/2 clear,
    # ends counted with the edges: 5 - 1 each
    back = carried(hung_job()).back

    assert back is not None
    assert (back.around, back.across) == (2 * (5 + 13), 5 * 4)


def test_sizes_that_were_open_are_weighed_as_chosen() -> None:
    stone = {"name": "stone", "width": "5", "height": "5", "depth": "5", "weight": "20 lb"}
    lip = {"moulding": "lip", "above": "1/4"}
    case = {
        "width": {"least": "20", "most": "24"},
        "height": "20",
        "depth": "8",
        "shelves": 1,
        "kind": "wall",
        "lip": lip,
    }
    stick = {"name": "lip", "width": "1-1/2", "thickness": "3/4", "lengths": [{"length": "96"}]}
    job = make_job(case=case, items=[stone], moulding=[stick])

    assert carried(job).empty > 0
