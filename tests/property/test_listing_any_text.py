"""Whatever is pasted: every line is accounted for, and no error but the project's is raised."""

from __future__ import annotations

import contextlib

from hypothesis import example, given, settings
from hypothesis import strategies as st

from solver.errors import InputError
from solver.listing.line_readings import Listing
from solver.listing.plain_lines import split_lines
from solver.listing.read import read_listing, read_rows
from solver.units import Unit

PIECES = st.sampled_from(
    [
        *(
            "9 1/2",
            "12",
            "5½",
            "6'",
            '3"',
            "0",
            "-5",
            "1,200",
            "9,5",
            ".5",
            "1/0",
            "7/8",
            "99999999",
        ),
        *(" x ", "×", " by ", "*", "mm", "cm", " in", "lb", " kg", "oz", "#", "?", "~", "about "),
        *("clock", "jug", " w ", " h ", " d ", "wide", "high", "deep", "dia", "long", "W", "H:"),
        *(",", ";", "\t", "|", "\n", "\r\n", " - ", "(", ")", '"', "'", ":", "•", "1.", "2)"),
        *("qty ", "(3)", "x3", "3 off", "three ", "dozen ", "pair of ", "total", "name", "weight"),
        *("may lie", "stack 3", "rows 2", "group: tea", "where: top", "gap 0", "notes: x"),
        *("name,w,h,d,qty\n", "item\tsize\tno.\n", "width", "height", "depth", "size (W x H x D)"),
        *("\x00", "\x1b[31m", "\u202e", "\ud800", "\ufeff", "<b>", "=1+1", "é", "٣", "²", "Ⅷ"),
    ]
)
PASTED = st.lists(PIECES, max_size=40).map("".join) | st.text(max_size=200)
UNITS = st.sampled_from(["in", "mm"])


def accounted_for(listing: Listing) -> None:
    """Each line is an item, skipped with a reason, or has problems; counts add up."""
    for line in listing.lines:
        assert (
            bool(line.item) + bool(line.problems) + (line.skipped is not None and not line.problems)
            == 1
        )
    counted = sum(line.item.count for line in listing.lines if line.item)
    assert counted == sum(item.count for item in listing.items)
    names = [item.name.casefold() for item in listing.items]
    assert len(names) == len(set(names))


@settings(max_examples=400, deadline=None)
@given(PASTED, UNITS)
@example("1" * 5000 + " x 2 x 3", "in")
@example("clock " + "9 x " * 5000, "in")
@example("name,w,h,d\n" + '"' * 999, "mm")
def test_any_text_is_read_without_a_line_lost(text: str, unit: Unit) -> None:
    listing = read_listing(text, unit)
    accounted_for(listing)
    numbers = [line.number for line in listing.lines]
    lines = split_lines(text)
    missing = set(range(1, len(lines) + 1)) - set(numbers)
    assert numbers == sorted(set(numbers))
    assert not missing or '"' in text  # only a quoted cell runs over several lines
    with contextlib.suppress(InputError):
        listing.raise_if_unreadable()


@settings(max_examples=200, deadline=None)
@given(st.lists(st.lists(PASTED, max_size=8), max_size=8), UNITS)
def test_any_rows_are_read_without_a_row_lost(rows: list[list[str]], unit: Unit) -> None:
    listing = read_rows(rows, unit)
    accounted_for(listing)
    assert [line.number for line in listing.lines] == list(range(1, len(rows) + 1))


@settings(max_examples=200, deadline=None)
@given(PASTED, UNITS)
def test_reading_is_the_same_every_time(text: str, unit: Unit) -> None:
    assert read_listing(text, unit) == read_listing(text, unit)


@settings(max_examples=200, deadline=None)
@given(PASTED, UNITS)
def test_items_hold_no_control_characters(text: str, unit: Unit) -> None:
    for item in read_listing(text, unit).items:
        for shown in (item.name, item.group or ""):
            assert all(char.isprintable() or char in "\u200c\u200d" for char in shown), repr(shown)
