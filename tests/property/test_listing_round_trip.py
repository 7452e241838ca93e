"""What is written in one of the forms that people use is read back as it was meant."""

from __future__ import annotations

import csv
import io

from hypothesis import given
from hypothesis import strategies as st

from solver.job.inventory import Item
from solver.listing.read import read_listing, read_rows
from solver.units import TICKS_PER_INCH, Unit, format_length
from tests.listings import sizes

SIXTEENTH = TICKS_PER_INCH // 16
LENGTHS = st.integers(2, 60 * 16).map(lambda count: count * SIXTEENTH)
TRIPLES = st.tuples(LENGTHS, LENGTHS, LENGTHS)
WORDS = st.sampled_from(["jug", "clock", "tin", "blue", "enamel", "brass", "Émile’s", "old"])
NAMES = st.lists(WORDS, min_size=1, max_size=3).map(" ".join)
COUNTS = st.integers(1, 99)
FORMS = (
    "{n} x {name} {w} x {h} x {d}",
    '{name} ({n}) {w}" w x {h}" h x {d}" d',
    "{name}: {w} x {h} x {d} in, qty {n}",
    "{n} {name} - {d} deep, {w} wide, {h} high",
    "• {name} {w} by {h} by {d}, {n} off",
    "{name} W {w} x H {h} x D {d}, x{n}",
    "{w} x {h} x {d} {name}, qty {n}",
    "{name}\t{w}\t{h}\t{d}\t{n}",
    "{n},{name},{w},{h},{d}",
)


@given(NAMES, COUNTS, TRIPLES, st.sampled_from(FORMS))
def test_each_form_of_line_is_read_back(
    name: str, count: int, size: tuple[int, int, int], form: str
) -> None:
    width, height, depth = (format_length(side, "in") for side in size)
    text = form.format(n=count, name=name, w=width, h=height, d=depth)
    (item,) = read_listing(text, "in").items
    assert (item.name, item.count) == (name, count)
    assert sizes(item) == size


HOSTILE = st.text(
    st.characters(exclude_categories=["Cc", "Cf", "Cs", "Co", "Cn", "Zs", "Zl", "Zp"]),
    min_size=1,
    max_size=60,
).filter(lambda name: any(char.isalpha() for char in name) and name[0] not in "#/~≈")
COLUMNS = ["name", "width", "height", "depth", "qty"]


@given(
    st.lists(
        st.tuples(HOSTILE, TRIPLES), min_size=1, max_size=5, unique_by=lambda r: r[0].casefold()
    ),
    st.permutations(COLUMNS),
    st.sampled_from([",", ";", "\t"]),
    st.sampled_from(["in", "mm"]),
)
def test_any_name_survives_a_csv_with_columns_in_any_order(
    rows: list[tuple[str, tuple[int, int, int]]], order: list[str], separator: str, unit: Unit
) -> None:
    file = io.StringIO()
    writer = csv.DictWriter(file, order, delimiter=separator, quoting=csv.QUOTE_ALL)
    writer.writeheader()
    for name, size in rows:
        shown = [f"{format_length(side, 'in')} in" for side in size]
        writer.writerow(dict(zip(COLUMNS, [name, *shown, "2"], strict=True)))
    items = read_listing(file.getvalue(), unit).items
    assert [(item.name, sizes(item)) for item in items] == rows
    assert all(item.count == 2 for item in items)


@given(NAMES, TRIPLES)
def test_an_item_written_as_cells_is_the_same_item(name: str, size: tuple[int, int, int]) -> None:
    item = Item(name=name, width=size[0], height=size[1], depth=size[2])
    cells = [item.name, *(format_length(side, "in") for side in sizes(item))]
    assert read_rows([["name", "w", "h", "d"], cells], "in").items == (item,)
