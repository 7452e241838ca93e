"""A list as a whole: skipped lines, numbering, equal names, and all faults at once."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from solver.errors import InputError, ManyInputsError
from solver.listing.read import read_listing, read_rows
from solver.units import Unit, parse_length, parse_mass

LISTS = Path(__file__).parents[2] / "fixtures" / "inventories"


def test_the_messy_list_is_read_as_a_person_reads_it() -> None:
    listing = read_listing((LISTS / "messy.txt").read_text("utf-8"), "in")
    listing.raise_if_unreadable()
    with (LISTS / "messy.expected.csv").open(encoding="utf-8") as file:
        wanted = list(csv.DictReader(file))
    assert len(listing.items) == len(wanted)
    for item, row in zip(listing.items, wanted, strict=True):
        assert item.name == row["name"]
        for side in ("width", "height", "depth"):
            assert getattr(item, side) == parse_length(row[side], "in"), (item.name, side)
        assert item.count == int(row["count"])
        assert item.weight == (parse_mass(row["weight"], "in") if row["weight"] else None)
        assert item.guessed == (row["guessed"] == "yes")


@pytest.mark.parametrize(
    ("other", "unit"), [("collection.tsv", "in"), ("collection-metric.csv", "mm")]
)
def test_the_same_list_in_another_form_holds_the_same_things(other: str, unit: Unit) -> None:
    first = read_listing((LISTS / "collection.csv").read_text("utf-8"), "in")
    second = read_listing((LISTS / other).read_text("utf-8"), unit)
    for one, two in zip(first.items, second.items, strict=True):
        assert (one.name, one.count) == (two.name, two.count)
        assert (one.width, one.height, one.depth) == (two.width, two.height, two.depth)


def test_blank_lines_comments_headings_and_totals_are_listed_with_their_reason() -> None:
    text = "# mine\n\nKitchen:\njug 6 x 9 x 4\nTotal 1\n// end\n"
    listing = read_listing(text, "in")
    reasons = ["comment", "blank", "a title", None, "a total", "comment"]
    assert [line.skipped for line in listing.lines] == reasons
    assert [line.number for line in listing.lines] == [1, 2, 3, 4, 5, 6]


@pytest.mark.parametrize(
    "text", ["Total", "TOTAL: 14", "Total 14 items", "Subtotal, 3", "Grand total 40 lb", "Sum\t\t7"]
)
def test_a_line_of_totals_is_skipped(text: str) -> None:
    (reading,) = read_listing(text, "in").lines
    assert reading.skipped == "a total"


def test_a_thing_whose_name_begins_with_total_is_no_total() -> None:
    listing = read_listing("Total eclipse print 6 x 9 x 1\nTotal eclipse poster 6 x 9\n", "in")
    assert [item.name for item in listing.items] == ["Total eclipse print"]
    assert listing.lines[1].problems


def test_a_number_sign_before_a_number_is_numbering_and_with_a_space_a_comment() -> None:
    listing = read_listing("#3 jug 6 x 9 x 4\n# 3 jug 6 x 9 x 4\n#3 of the list\n", "in")
    assert listing.items[0].name == "jug"
    assert listing.lines[0].notes[0] == "#3 taken for its number in the list"
    assert listing.lines[1].skipped == "comment"
    assert listing.lines[2].problems


def test_line_ends_of_every_system_are_counted_alike() -> None:
    lines = ["jug 6 x 9 x 4", "", "mug 3 x 4 x 3"]
    read = [read_listing(end.join(lines), "in").lines for end in ("\n", "\r\n", "\r")]
    assert read[0] == read[1] == read[2]
    assert [line.number for line in read[0]] == [1, 2, 3]


def test_line_numbers_in_front_are_taken_off_where_they_run_from_one() -> None:
    listing = read_listing("1. jug 6 x 9 x 4\n2. mug 3 x 4 x 3\n3) cup 3 x 3 x 3\n", "in")
    assert [(item.name, item.count) for item in listing.items] == [
        ("jug", 1),
        ("mug", 1),
        ("cup", 1),
    ]


def test_a_number_in_front_that_may_be_a_count_is_asked_about() -> None:
    listing = read_listing("2. jug 6 x 9 x 4\n2. mug 3 x 4 x 3\n", "in")
    assert [line.number for line in listing.doubtful] == [1, 2]
    assert "is 2 a line number or the count?" in listing.lines[0].doubts[0].question


def test_the_same_thing_twice_is_added_up() -> None:
    listing = read_listing("2 x jug 6 x 9 x 4\nmug 3 x 4 x 3\n3 x Jug 6 x 9 x 4\n", "in")
    assert [(item.name, item.count) for item in listing.items] == [("jug", 5), ("mug", 1)]
    assert listing.lines[2].notes[-1] == "added to line 1: 5 in all"


def test_another_size_of_the_same_name_is_renamed() -> None:
    text = "jug 6 x 9 x 4\njug 6 x 9 x 5\njug (2) 6 x 9 x 5\njug 6 x 9 x 7, 2 lb\n"
    listing = read_listing(text, "in")
    assert [(item.name, item.count) for item in listing.items] == [
        ("jug", 1),
        ("jug (2)", 3),
        ("jug (3)", 1),
    ]
    assert listing.lines[1].notes[-1] == "renamed jug (2): size differs from line 1"


def test_the_same_size_with_another_weight_is_another_thing() -> None:
    listing = read_listing("jug 6 x 9 x 4, 1 lb\njug 6 x 9 x 4, 2 lb\n", "in")
    assert [item.name for item in listing.items] == ["jug", "jug (2)"]
    assert listing.lines[1].notes[-1] == "renamed jug (2): weight differs from line 1"


def test_a_new_name_is_never_one_that_is_taken() -> None:
    rows = [["name", "w", "h", "d"], ["jug (2)", "1", "1", "1"]]
    rows += [["jug", "6", "9", str(depth)] for depth in (4, 5, 6)]
    names = [item.name for item in read_rows(rows, "in").items]
    assert names == ["jug (2)", "jug", "jug (3)", "jug (4)"]


def test_a_sum_of_counts_above_the_most_is_an_error() -> None:
    listing = read_listing("9999 x jug 6 x 9 x 4\n2 x jug 6 x 9 x 4\n", "in")
    assert listing.lines[1].problems == ("with line 1 there are 10001; at most 10000",)


def test_all_unreadable_lines_are_reported_at_once() -> None:
    listing = read_listing("jug 6 x 9\nmug 3 x 4 x 3\nteapot\n", "in", "list.txt")
    with pytest.raises(ManyInputsError) as caught:
        listing.raise_if_unreadable()
    said = str(caught.value)
    assert "2 lines cannot be read, 1 read (casewright check shows them); a line that" in said
    assert 'list.txt line 1: "jug 6 x 9": the depth is missing' in said
    assert 'list.txt line 3: "teapot": no sizes are found' in said
    assert [error.where for error in caught.value.errors] == ["list.txt line 1", "list.txt line 3"]


def test_a_long_line_is_quoted_in_part() -> None:
    (reading,) = read_listing("j" * 300, "in").lines
    assert str(reading.error()).startswith(f'line 1: "{"j" * 120}…":')


@pytest.mark.parametrize("text", ["", "\n\n", "# nothing\n"])
def test_a_list_without_things_is_an_error(text: str) -> None:
    with pytest.raises(InputError, match="there are no things in the list"):
        read_listing(text, "in").raise_if_unreadable()


@pytest.mark.parametrize(
    "text",
    ["ju\x00g 6 x 9 x 4", "ju\x1bg 6 x 9 x 4", "ju\u202eg 6 x 9 x 4", "ju\ud800g 6 x 9 x 4"],
)
def test_control_characters_are_taken_out_of_names(text: str) -> None:
    listing = read_listing(text, "in")
    assert [item.name for item in listing.items] == ["jug"]
    assert "control characters removed" in listing.lines[0].notes


@pytest.mark.slow
def test_ten_thousand_lines_are_read_in_a_time_a_person_waits() -> None:
    text = "\n".join(f"3 x jug {n} 6 1/2 x 9 x 4, 2 lb" for n in range(10_000))
    assert len(read_listing(text, "in").items) == 10_000
