"""What documents take from a plan: hanging sheets, joints, fixings, cautions; open sizes too."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any

import pytest
from pydantic import ValidationError

from solver.plan.hanging import HangSheet, Joint
from solver.strength.fasteners import screw_places, screw_text
from solver.strength.hang_sheet import hanging_of
from solver.units import TICKS_PER_INCH, Unit, inches, mm
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


METRIC_DOOR = {
    "name": "door",
    "widths": [770],
    "heights": [2030],
    "hinge_side": "left",
    "swing": "out",
    "old_mortises": [150, 1000, 1700],
}


def metric_sheet(**case: Any) -> HangSheet:
    books = {"name": "book", "width": 40, "height": 240, "depth": 150, "weight": "800 g"}
    stick = {"name": "lip", "width": 38, "thickness": 19, "lengths": [{"length": 2400}]}
    hung = {"kind": "hung", "doorway": "door", "width": 720, "height": 1980, "depth": 190}
    job = make_job(
        unit="mm",
        case={**hung, "shelves": 5, "lip": {"moulding": "lip", "above": 10}, **case},
        items=[{**books, "count": 8}],
        doorway=[METRIC_DOOR],
        moulding=[stick],
    )
    return carried(job)


def test_a_metric_job_is_told_what_to_do_in_millimetres() -> None:
    """Sources name what they say in their own units; what is to be done is in the job's.

    Only what is sold by its inch size has that beside it, in brackets.
    """
    for sheet in (metric_sheet(), metric_sheet(kind="wall"), metric_sheet(kind="standing")):
        words = [*sheet.to_get, *sheet.instead, *(one.what for one in sheet.figures)]
        words += [one.says for one in sheet.figures]
        inch, beside = re.compile(r"[0-9] in\b"), re.compile(r" mm \([0-9/-]+ in\)")
        assert not [line for line in words if inch.search(beside.sub("", line))]


def test_screws_of_a_metric_job_have_their_shank_in_millimetres() -> None:
    # ASME B18.6.1: a #10 is 0.190 in, 4.8 mm
    assert any("4.8 mm (#10)" in line for line in metric_sheet().to_get)


def test_a_lip_moves_as_the_wood_handbook_says() -> None:
    """D C_T dM, 4 per cent of moisture; the largest listed coefficient where the wood is unknown:
    northern red oak, 0.00369, Wood Handbook FPL-GTR-190 Table 13-5."""
    moves = next(one for one in metric_sheet().figures if one.key == "lip-moves")

    assert moves.value == pytest.approx(38 * 0.00369 * 4)


@pytest.mark.parametrize(
    ("given", "then"), [("Germany", "write 'DE'"), ("gb", "write 'GB'"), ("Narnia", "leave it out")]
)
def test_a_country_in_words_is_told_its_letters(given: str, then: str) -> None:
    with pytest.raises(ValidationError, match=then):
        make_job(site={"country": given})


@pytest.mark.parametrize(
    ("leaf", "unit", "words"),
    [
        (inches("4-1/2"), "in", "leaf 4-1/2 in high"),
        (inches("4-1/2"), "mm", "leaf 114 mm (4-1/2 in) high"),  # 4.5 x 25.4 = 114.3
        (inches(4), "mm", "leaf 102 mm (4 in) high"),  # 4 x 25.4 = 101.6
        (inches(5), "mm", "leaf 127 mm (5 in) high"),
        (mm(100), "mm", "leaf 100 mm high"),  # an old mortise as measured, of no inch size
    ],
)
def test_a_metric_hinge_is_named_as_it_is_sold(leaf: int, unit: Unit, words: str) -> None:
    these = carried(hung_job()).hinge
    assert these is not None
    assert these.model_copy(update={"leaf": leaf}).leaf_words(unit) == words
