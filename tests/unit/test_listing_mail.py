"""A mailed list: what is set aside, what belongs together over lines, what must not be hidden."""

from __future__ import annotations

import pytest

from solver.listing.line_readings import GREETING, QUESTION, REMARK, SIGN_OFF
from solver.listing.read import read_listing
from solver.units import inches
from tests.listings import sizes, ticks

MAIL = """\
Hi Tom,

thank you for coming. Most of it was my father's.

- 6 folding cameras, 6 x 5 x 3
- half a dozen tins 3 x 4 x 3

The alcove is 44 wide, 84 high and 11 deep.
Could it be done with 5 shelves?

Best regards,
Anna
Tel. 555-0142
"""


def test_what_a_mail_says_besides_its_things_is_set_aside_with_a_reason() -> None:
    listing = read_listing(MAIL, "in")
    assert [(item.name, item.count) for item in listing.items] == [
        ("folding cameras", 6),
        ("tins", 6),
    ]
    reasons = [GREETING, GREETING, REMARK, QUESTION, SIGN_OFF, SIGN_OFF, SIGN_OFF]
    assert [line.skipped for line in listing.aside] == reasons
    listing.raise_if_unreadable()


@pytest.mark.parametrize(
    "line",
    [
        "teapot",
        "3 jugs",
        "our wedding photo",
        "We also have three clocks",
        "those are four by now, I found another one",
        "Dear old teddy",
        "- the crock, which I still have to measure",
        "2 more of the same",
        "jug ?? x ?? x ??",
    ],
)
def test_a_line_that_may_hold_a_thing_is_not_set_aside(line: str) -> None:
    listing = read_listing(f"clock 9 x 12 x 5\n{line}\njug 6 x 9 x 6\n", "in")
    assert [one.text for one in listing.unreadable] == [line]


def test_a_name_and_the_sizes_on_the_line_below_are_one_thing() -> None:
    listing = read_listing("2 theodolites\n   10 wide, 15 high, 10 deep\nmap case\n", "in")
    (item,) = listing.items
    assert (item.name, item.count, sizes(item)) == ("theodolites", 2, ticks("10", "15", "10"))
    assert listing.lines[0].skipped == "its sizes are on the next line"
    assert [line.text for line in listing.unreadable] == ["map case"]


def test_sizes_in_a_heading_hold_for_what_has_none_of_its_own() -> None:
    text = (
        "Cameras - all of these are 6 x 5 x 4:\n* 3 folding cameras\n* plate camera 9 x 10 x 11\n"
    )
    folding, large = read_listing(text, "in").items
    assert (folding.count, sizes(folding)) == (3, ticks("6", "5", "4"))
    assert sizes(large) == ticks("9", "10", "11")


def test_what_a_list_says_of_its_sizes_holds_below() -> None:
    (jug,) = read_listing("All sizes are height x width x depth.\njug 9 x 6 x 4\n", "in").items
    assert sizes(jug) == ticks("6", "9", "4")
    (vase,) = read_listing("Sizes in cm\nvase 14 x 30 x 12\n", "mm").items
    assert sizes(vase) == ticks("14 cm", "30 cm", "12 cm")


@pytest.mark.parametrize("heading", ["== Toys ==", "## Toys", "Toys:", "2. Toys:"])
def test_headings_of_every_kind_are_those_of_the_things_below(heading: str) -> None:
    text = f"Clocks:\nclock 9 x 12 x 5\n{heading}\nbear 3 x 4 x 3\n"
    assert [item.heading for item in read_listing(text, "in").items] == ["Clocks", "Toys"]


@pytest.mark.parametrize(
    ("line", "height"),
    [
        ("jug, 8-10 in tall, 6 in dia", "10"),
        ("jug 6 x 9 x 4, with lid 12", "12"),
        ("jug 6 x 9 (11 with lid) x 4", "11"),
        ("tureen 14 wide, 8 high (10 1/2 with the lid), 10 deep", "10.5"),
    ],
)
def test_the_larger_size_counts_and_is_told(line: str, height: str) -> None:
    (reading,) = read_listing(line, "in").lines
    assert reading.item is not None
    assert reading.item.height == inches(height)
    assert any("taken" in note for note in reading.notes)
