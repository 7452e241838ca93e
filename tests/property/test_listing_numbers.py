"""No number of a line vanishes: it is in the reading, in a note, in a doubt or in a problem."""

from __future__ import annotations

import re
from itertools import chain

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.job.inventory import Item
from solver.listing.line_readings import LineReading
from solver.listing.read import read_listing, read_rows
from solver.units import GRAMS_PER_POUND, TICKS_PER_INCH, Unit, format_length

PARTS = st.sampled_from(
    [
        *("{n} ", "{n} x ", "({n}) ", "#{n} ", "{n}) ", "{n}. ", "- {n} ", "set of {n} ", "~{n} "),
        *("jug ", "jugs, ", "old clock ", "No. {n} ", "model {n}, ", "of {n} ", "with {n} legs "),
        *("{n}-day ", "{n} mm ", "{n}mm ", "{n} lb ", "{n} oz, ", ", {n} kg ", "{n} or so "),
        *("{n} x {n} x {n} ", "{n} x {n} ", ", {n} high ", "{n} wide ", "{n} deep, ", "dia {n} "),
        *("{n} by {n} by {n}, ", "with lid {n} ", "({n} with lid) ", "{n}-{n} tall, ", "{n}? "),
        *("stack {n} ", ", shelf {n}", ", rows {n}", "qty {n} ", ", x{n}", "({n} jugs) ", "${n} "),
        *("{n} pcs ", "{n} off ", "{n} of them, ", "@ {n} ", "in {n} ", "{n} of {n} "),
        *("x ", ", ", "; ", "- ", "and ", "each ", "about ", "(", ")", ": "),
    ]
)
NUMBERS = st.integers(2, 97)


@st.composite
def lines(draw: st.DrawFn) -> str:
    """A line of parts, with a number at each place for one."""
    text = "".join(draw(st.lists(PARTS, min_size=1, max_size=7)))
    return re.sub(r"\{n\}", lambda _: str(draw(NUMBERS)), text)


def said(reading: LineReading) -> str:
    """All that is said of a line besides its figures."""
    item = reading.item
    asked = chain.from_iterable(
        (doubt.question, *(choice.label for choice in doubt.choices)) for doubt in reading.doubts
    )
    words = [*reading.notes, *asked, *reading.problems]
    return " ".join([*words, item.name, str(item.apart)] if item else words)


def figures(item: Item) -> set[int]:
    """The whole numbers that the fields of a thing stand for, in the units of the parts."""
    sides = item.width, item.height, item.depth
    found = {side // TICKS_PER_INCH for side in sides} | {side // 320 for side in sides}
    found |= {item.count, item.stack, item.rows, item.order or 0}
    found |= {item.where} if isinstance(item.where, int) else set()
    if item.weight:
        found |= {round(item.weight / GRAMS_PER_POUND), round(item.weight / 1000)}
        ounces = round(item.weight * 16 / GRAMS_PER_POUND)
        found |= {ounces, *divmod(ounces, 16)}
    return found


@settings(max_examples=1500, deadline=None)
@given(lines())
def test_every_number_of_a_line_is_in_the_reading_or_told(text: str) -> None:
    (reading,) = read_listing(text, "in").lines
    if reading.item is None:
        assert reading.problems or reading.skipped, reading
        return
    told = {int(number) for number in re.findall(r"\d+", said(reading))}
    for number in map(int, re.findall(r"\d+", text)):
        assert number in told | figures(reading.item), (number, reading)


LENGTHS = st.integers(2, 60 * 32).map(lambda count: count * TICKS_PER_INCH // 32)
ITEMS = st.builds(
    Item,
    name=st.sampled_from(["jug", "No. 5 crock", "35mm camera", "clock, 8-day", "set of 4 cups"]),
    width=LENGTHS,
    height=LENGTHS,
    depth=LENGTHS,
    count=st.integers(1, 500),
    weight=st.none() | st.integers(1, 90_000),
    heading=st.none() | st.sampled_from(["Kitchen", "1920s and before"]),
    keep=st.sampled_from(["must", "should", "optional"]),
    fragile=st.booleans(),
    may_lie=st.booleans(),
    stack=st.integers(1, 9),
    rows=st.integers(1, 6),
    where=st.none() | st.sampled_from(["low", "eye", "top"]) | st.integers(0, 99),
    guessed=st.booleans(),
)


@given(ITEMS, st.sampled_from(["in", "mm"]))
def test_a_reading_written_back_as_a_row_reads_the_same_again(item: Item, unit: Unit) -> None:
    row = {
        key: "" if value is None else "yes" if value is True else "no" if value is False else value
        for key, value in item.model_dump().items()
        if key not in ("apart", "expected", "picture", "gap", "together", "hero", "order", "group")
    }
    lengths = {"width": item.width, "height": item.height, "depth": item.depth}
    row |= {side: f"{format_length(size, 'in')} in" for side, size in lengths.items()}
    row["weight"] = f"{item.weight} g" if item.weight else ""
    listing = read_rows([list(row), [str(value) for value in row.values()]], unit)
    assert listing.items == (item,)
    assert not listing.doubtful
