"""Cells: pasted from a spreadsheet, CSV and TSV, with headers in any wording and without."""

from __future__ import annotations

import pytest

from solver.listing.columns import HEADERS, column_of, header_of
from solver.listing.read import read_listing, read_rows
from solver.units import parse_length, parse_mass
from tests.listings import sizes, ticks


@pytest.mark.parametrize("separator", ["\t", ",", ";", "|"])
def test_columns_are_found_in_any_order_with_any_separator(separator: str) -> None:
    rows = [
        ["Qty", "Group", "Item", "High", "Deep", "Wide", "Weight"],
        ["2", "clocks", "bracket clock", "14 1/4", "7 1/2", "9", "17 lb"],
    ]
    text = "\n".join(separator.join(row) for row in rows)
    (item,) = read_listing(text, "in").items
    assert (item.name, item.count, item.group) == ("bracket clock", 2, "clocks")
    assert sizes(item) == ticks("9", "14.25", "7.5")
    assert item.weight == parse_mass("17 lb", "in")


@pytest.mark.parametrize(
    ("header", "kind", "unit"),
    [
        ("Item", "name", ""),
        ("Description", "name", ""),
        ("OBJECT", "name", ""),
        ("w", "width", ""),
        ("Width (in)", "width", "in"),
        ("Breadth", "width", ""),
        ("Width in mm", "width", "mm"),
        ("H mm", "height", "mm"),
        ("H [cm]", "height", "cm"),
        ("Tall", "height", ""),
        ("Depth, in", "depth", "in"),
        ("Deep", "depth", ""),
        ("Dia.", "diameter", ""),
        ("Qty.", "count", ""),
        ("No.", "count", ""),
        ("pcs", "count", ""),
        ("How many", "count", ""),
        ("Weight (lb)", "weight", "lb"),
        ("kg", "weight", "kg"),
        ("Dimensions", "size", ""),
        ("may_lie", "may_lie", ""),
        ("May lie", "may_lie", ""),
        ("Where", "where", ""),
        ("Colour", "unknown", ""),
        ("", "empty", ""),
    ],
)
def test_a_header_is_understood(header: str, kind: str, unit: str) -> None:
    column = column_of(header)
    assert (column.kind, column.unit) == (kind, unit)


def test_every_wording_of_a_header_is_recognised() -> None:
    for word, kind in HEADERS.items():
        assert column_of(word.upper()).kind == kind


def test_a_row_with_a_figure_in_it_is_no_header() -> None:
    assert header_of(["name", "width", "height", "depth"]) is not None
    assert header_of(["width", "height", "9"]) is None
    assert header_of(["jug", "red"]) is None


def test_a_unit_in_the_header_holds_for_cells_without_one() -> None:
    text = "name,Width (cm),H (cm),depth cm,Weight (kg)\njug,15,23,4 in,1.2\n"
    (item,) = read_listing(text, "in").items
    assert sizes(item) == ticks("15 cm", "23 cm", "4 in")
    assert item.weight == parse_mass("1.2 kg", "in")


@pytest.mark.parametrize(
    ("header", "cell"),
    [
        ("size", "6 x 9 x 4"),
        ("Dimensions (in)", "6 x 9 x 4"),
        ("size (H x W x D)", "9 x 6 x 4"),
        ("D x W x H", "4 x 6 x 9"),
        ("measurements", '6"w x 4"d x 9"h'),
    ],
)
def test_one_column_may_hold_all_three_sizes(header: str, cell: str) -> None:
    (item,) = read_rows([["name", header, "qty"], ["jug", cell, "2"]], "in").items
    assert sizes(item) == ticks("6", "9", "4")
    assert item.count == 2


def test_a_diameter_column_gives_width_and_depth() -> None:
    (item,) = read_listing("name,dia,h\nvase,6,9\n", "in").items
    assert sizes(item) == ticks("6", "9", "6")


@pytest.mark.parametrize(
    ("line", "name", "size", "count", "weight"),
    [
        ("jug\t6\t9\t4", "jug", ("6", "9", "4"), 1, None),
        ("jug\t6\t9\t4\t3\t2 lb", "jug", ("6", "9", "4"), 3, "2 lb"),
        ("jug,6,9,4,3", "jug", ("6", "9", "4"), 3, None),
        ("6,9,4,jug", "jug", ("6", "9", "4"), 1, None),
        ("3,jug,6,9,4", "jug", ("6", "9", "4"), 3, None),
        ("jug;6,5;9;4,25;3", "jug", ("6.5", "9", "4.25"), 3, None),
        ('"jug, blue",6,9,4', "jug, blue", ("6", "9", "4"), 1, None),
        ('jug,"6 x 9 x 4",3', "jug", ("6", "9", "4"), 3, None),
        ('"6"" jug",6,9,4', '6" jug', ("6", "9", "4"), 1, None),
        ('jug,6",9",4"', "jug", ("6", "9", "4"), 1, None),
        ("jug   6   9   4", "jug", ("6", "9", "4"), 1, None),
        ("big jug 6 9 4", "big jug", ("6", "9", "4"), 1, None),
        ("jug\t150 mm\t9\t4", "jug", ("150 mm", "9", "4"), 1, None),
    ],
)
def test_columns_without_a_header_are_guessed_and_echoed(
    line: str, name: str, size: tuple[str, str, str], count: int, weight: str | None
) -> None:
    (reading,) = read_listing(line, "in").lines
    item = reading.item
    assert item is not None, reading.problems
    assert (item.name, item.count) == (name, count)
    assert sizes(item) == ticks(*size)
    assert item.weight == (parse_mass(weight, "in") if weight else None)
    assert any(n.startswith(("columns taken for", "read as width")) for n in reading.notes)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("jug,6,9,4,2,7", "5 figures, and what each of them is cannot be told"),
        ("jug,6,9,4,2.5", "4 figures, and what each of them is cannot be told"),
        ("jug\t6\t9", "2 sizes found; width, height and depth are needed"),
        ("6\t9\t4\t3", "what it is called is missing"),
    ],
)
def test_cells_that_cannot_be_told_apart_ask_for_a_header(line: str, said: str) -> None:
    (reading,) = read_listing(line, "in").lines
    assert said in "; ".join(reading.problems)


@pytest.mark.parametrize(
    ("cell", "said"),
    [
        ("", "the depth is missing"),
        ("-", "depth '-' is not a length"),
        ("9-Jan", "depth '9-Jan' is not a length"),
        ("=B2*2", "depth '=B2*2' is not a length"),
        ("1,200", "1,200 may mean 1200 or 1.200"),
        ("#REF!", "holds the spreadsheet error #REF!"),
        ("0", "the depth is less than 1 mm"),
        ("9" * 1001, "the depth cell has 1001 characters"),
    ],
)
def test_a_bad_cell_is_named(cell: str, said: str) -> None:
    listing = read_rows([["name", "w", "h", "d"], ["jug", "6", "9", cell]], "in")
    assert said in "; ".join(listing.lines[1].problems)


@pytest.mark.parametrize(
    ("kind", "cell", "said"),
    [
        ("qty", "0", "the count '0' is not a whole number"),
        ("qty", "-1", "the count '-1' is not a whole number"),
        ("qty", "2.5", "the count '2.5' is not a whole number"),
        ("qty", "10001", "from 1 to 10000"),
        ("weight", "heavy", "'heavy' is not a weight"),
        ("weight", "0", "is nothing"),
        ("where", "attic", "the place 'attic' is not low, eye, top"),
        ("may lie", "perhaps", "write yes or no"),
        ("rows", "7", "the number of rows '7' is not a whole number from 1 to 6"),
        ("stack", "51", "the stack '51' is not a whole number from 1 to 50"),
        ("gap", "wide", "'wide' is not a length"),
    ],
)
def test_a_bad_wish_is_named(kind: str, cell: str, said: str) -> None:
    rows = [["name", "w", "h", "d", kind], ["jug", "6", "9", "4", cell]]
    assert said in "; ".join(read_rows(rows, "in").lines[1].problems)


@pytest.mark.parametrize(
    ("kind", "cell", "field", "value"),
    [
        ("qty", "3.0", "count", 3),
        ("qty", "x3", "count", 3),
        ("qty", "3 pcs", "count", 3),
        ("qty", "three", "count", 3),
        ("qty", "", "count", 1),
        ("may lie", "yes", "may_lie", True),
        ("may lie", "✓", "may_lie", True),
        ("may lie", "no", "may_lie", False),
        ("rows", "2", "rows", 2),
        ("stack", "3", "stack", 3),
        ("gap", "0", "gap", 0),
        ("where", "Top shelf", "where", "top"),
        ("where", "0", "where", 0),
        ("group", "tea & co", "group", "tea & co"),
        ("guessed", "y", "guessed", True),
        ("weight", "2 lb each", "weight", parse_mass("2 lb", "in")),
    ],
)
def test_a_wish_is_read_from_its_column(kind: str, cell: str, field: str, value: object) -> None:
    rows = [["name", "w", "h", "d", kind], ["jug", "6", "9", "4", cell]]
    (item,) = read_rows(rows, "in").items
    assert getattr(item, field) == value


def test_a_guess_in_one_cell_marks_the_thing() -> None:
    (item,) = read_rows([["name", "w", "h", "d"], ["jug", "~6", "9", "4"]], "in").items
    assert item.guessed
    assert item.width == parse_length("6", "in")


def test_rows_below_a_header_that_is_not_understood_are_not_guessed() -> None:
    listing = read_listing("name,w,w,h\njug,6,6,9\n", "in")
    assert listing.items == ()
    assert listing.lines[1].skipped == "not read, since the header above is not understood"


@pytest.mark.parametrize(
    ("header", "said"),
    [
        ("name,w,w,h", "two columns for the width"),
        ("name,w,h,qty", "no column for the depth"),
        ("name,l,w,h", "length and width are both columns"),
        ("w,h,d,qty", "no column for the name"),
    ],
)
def test_a_header_that_lacks_something_is_an_error(header: str, said: str) -> None:
    listing = read_listing(f"{header}\njug,6,9,4\n", "in")
    assert said in "; ".join(listing.lines[0].problems)


def test_columns_are_echoed_with_those_that_are_not_used() -> None:
    listing = read_listing("Item,H mm,W mm,D mm,Colour\njug,9,6,4,red\n", "in")
    assert listing.lines[0].skipped == "header"
    assert listing.lines[0].notes == (
        "Item: name",
        "H mm: height in mm",
        "W mm: width in mm",
        "D mm: depth in mm",
        "column 'Colour' is not used",
    )


def test_a_cell_too_many_is_an_error_and_empty_ones_are_not() -> None:
    listing = read_listing("name,w,h,d\njug, blue,6,9,4\nmug,6,9,4,,\n", "in")
    assert "5 cells under 4 headers" in listing.lines[1].problems[0]
    assert listing.lines[2].item is not None


def test_a_quoted_cell_may_run_over_lines_and_a_stray_quote_does_not_swallow_the_rest() -> None:
    listing = read_listing('name,w,h,d\n"jug,\nblue",6,9,4\nmug,6,9,3\n', "in")
    assert [line.number for line in listing.lines] == [1, 2, 4]
    assert [item.name for item in listing.items] == ["jug, blue", "mug"]
    many = "\n".join(f"mug {n},6,9,4" for n in range(30))
    listing = read_listing(f'name,w,h,d\n"jug,6,9,4\n{many}\n', "in")
    assert len(listing.lines) == 32


def test_what_stands_above_the_header_is_skipped_as_a_title() -> None:
    listing = read_listing("The Finch list, 2024\n\nname,w,h,d\njug,6,9,4\n", "in")
    assert [line.skipped for line in listing.lines] == ["above the header", "blank", "header", None]


def test_a_bad_line_with_sizes_above_the_header_is_an_error() -> None:
    listing = read_listing("mug 3 x 4\nname,w,h,d\njug,6,9,4\n", "in")
    assert "the depth is missing" in listing.lines[0].problems[0]


def test_a_second_header_holds_from_there_on() -> None:
    listing = read_listing("name,w,h,d\njug,6,9,4\nd,h,w,name\n3,8,5,mug\n", "in")
    assert listing.lines[2].skipped == "header again"
    assert sizes(listing.items[1]) == ticks("5", "8", "3")
