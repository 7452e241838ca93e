"""Plain lines as clients write them, one form at a time."""

from __future__ import annotations

from typing import Any

import pytest

from solver.listing.read import read_listing
from solver.units import Unit, parse_length, parse_mass
from tests.listings import faults, line, questions, sizes, thing, ticks


@pytest.mark.parametrize(
    ("text", "name", "count", "size"),
    [
        (
            "3 x mantel clock 9 1/2 x 12 1/4 x 5 1/2, 6 lb",
            "mantel clock",
            3,
            ("9.5", "12.25", "5.5"),
        ),
        (
            'mantel clock (3) 9-1/2" w x 12-1/4" h x 5-1/2" d',
            "mantel clock",
            3,
            ("9.5", "12.25", "5.5"),
        ),
        ('2 enamel jugs: 6" x 9" x 6"', "enamel jugs", 2, ("6", "9", "6")),
        ("tea caddy - 150 x 120 x 90 mm - qty 4", "tea caddy", 4, ("150mm", "120mm", "90mm")),
        ("barometer, 5 wide, 36 high, 3 deep, 4.5 lb", "barometer", 1, ("5", "36", "3")),
        ("box W 9 1/2, H 12, D 5", "box", 1, ("9.5", "12", "5")),
        ("box w: 9; h: 12; d: 5", "box", 1, ("9", "12", "5")),
        ("stick W5 H36 D3", "stick", 1, ("5", "36", "3")),
        (
            "cream jug, 4-1/8 high, 3-1/2 wide, 2-7/8 deep",
            "cream jug",
            1,
            ("3.5", "4.125", "2.875"),
        ),
        ("“Émile’s” jug – 9½ × 12¼″ × 5⅜, x3", "“Émile’s” jug", 3, ("9.5", "12.25", "5.375")),
        ("clock 9 by 12 by 5 in.", "clock", 1, ("9", "12", "5")),
        ("clock 9*12*5", "clock", 1, ("9", "12", "5")),
        ("clock,9x12x5", "clock", 1, ("9", "12", "5")),
        ("9 x 12 x 5 mantel clock", "mantel clock", 1, ("9", "12", "5")),
        ("vase 6 dia x 9 high", "vase", 1, ("6", "9", "6")),
        ("vase ø6 x 9", "vase", 1, ("6", "9", "6")),
        ("plate 10 dia x 1 deep", "plate", 1, ("10", "10", "1")),
        ("jug (HxWxD) 12 x 9 x 5", "jug", 1, ("9", "12", "5")),
        ("jug DxWxH: 5 x 9 x 12", "jug", 1, ("9", "12", "5")),
        ("LP box 12 long, 13 high, 5 deep", "LP box", 1, ("12", "13", "5")),
        ('barograph 1\' 2 1/2" x 8 3/4" x 8 1/2"', "barograph", 1, ("14.5", "8.75", "8.5")),
        ("• teapot 9 x 6 x 5", "teapot", 1, ("9", "6", "5")),
        ("- teapot 9 x 6 x 5", "teapot", 1, ("9", "6", "5")),
        ("vitamin D 5 x 4 x 3", "vitamin D", 1, ("5", "4", "3")),
        ("7 inch plate 7 x 7 x 1", "7 inch plate", 1, ("7", "7", "1")),
        ("3 x 78 rpm records 10 x 10 x 1", "78 rpm records", 3, ("10", "10", "1")),
        ('2 x 4" plate 9 x 9 x 1', '4" plate', 2, ("9", "9", "1")),
        ("3 x 6 dia x 9 high vase", "vase", 3, ("6", "9", "6")),
        ("jug 9,5 x 12,25 x 5,5 cm", "jug", 1, ("9.5cm", "12.25cm", "5.5cm")),
        ("storm glass 95mm x 31.5cm x 95mm", "storm glass", 1, ("95mm", "315mm", "95mm")),
    ],
)
def test_a_line_is_read(text: str, name: str, count: int, size: tuple[str, str, str]) -> None:
    item = thing(text)
    assert (item.name, item.count) == (name, count)
    assert sizes(item) == ticks(*size)


@pytest.mark.parametrize(
    ("given", "count"),
    [
        ("3 x jug {}", 3),
        ("3x jug {}", 3),
        ("3 × jug {}", 3),
        ("3 jugs {}", 3),
        ("three jugs {}", 3),
        ("Twelve jugs {}", 12),
        ("a dozen jugs {}", 12),
        ("- 3 jugs {}", 3),
        ("two of the jugs {}", 2),
        ("about 20 jugs {}", 20),
        ("a pair of jugs {}", 2),
        ("set of 4 jugs {}", 4),
        ("jugs, three, {}", 3),
        ("jugs @ 3, {}", 3),
        ("jugs (half a dozen) {}", 6),
        ("jugs {}, three of them", 3),
        ("half a dozen jugs {}", 6),
        ("3 off jug {}", 3),
        ("3 pcs jug {}", 3),
        ("jug (3) {}", 3),
        ("jug (x3) {}", 3),
        ("jug x3: {}", 3),
        ("jug qty 3 {}", 3),
        ("jug {}, qty: 3", 3),
        ("jug {}, quantity 3", 3),
        ("jug {}, x3", 3),
        ("jug {}, 3 off", 3),
        ("jug {} (3)", 3),
        ("jug {}, qty three", 3),
        ("1950 jug {}, qty 3", 3),
        ("jug {}", 1),
    ],
)
def test_a_count_is_read(given: str, count: int) -> None:
    item = thing(given.format("6 x 9 x 4"))
    assert item.count == count
    assert sizes(item) == ticks("6", "9", "4")


@pytest.mark.parametrize(
    ("given", "weight"),
    [
        ("jug 6 x 9 x 4, 6 lb", "6 lb"),
        ("jug 6 x 9 x 4, 6 lbs each", "6 lb"),
        ("jug 6 x 9 x 4 6 lb", "6 lb"),
        ("jug 6 x 9 x 4, 2 lb 12 oz", "2 lb 12 oz"),
        ("jug 6 x 9 x 4 (12 oz)", "12 oz"),
        ("jug 6 x 9 x 4 - 1.2 kg", "1.2 kg"),
        ("jug 6 x 9 x 4, 450 g", "450 g"),
        ("jug 6 x 9 x 4, weight 6", "6 lb"),
        ("jug 6 x 9 x 4, weighs 1/2 lb", "0.5 lb"),
        ("jug, 6 lb, 6 x 9 x 4", "6 lb"),
        ("12 oz bottle 6 x 9 x 4", None),
    ],
)
def test_a_weight_is_read_beside_the_sizes_but_not_out_of_the_name(
    given: str, weight: str | None
) -> None:
    assert thing(given).weight == (parse_mass(weight, "in") if weight else None)


def test_the_name_keeps_a_weight_that_belongs_to_it() -> None:
    assert thing("12 oz bottle 6 x 9 x 4").name == "12 oz bottle"


@pytest.mark.parametrize(
    ("words", "field", "value"),
    [
        ("may lie", "may_lie", True),
        ("can lie flat", "may_lie", True),
        ("stack 3", "stack", 3),
        ("stackable", "stack", 2),
        ("rows 2", "rows", 2),
        ("2 rows", "rows", 2),
        ("group: tea", "group", "tea"),
        ("where: top", "where", "top"),
        ("shelf 3", "where", 3),
        ("eye level", "where", "eye"),
        ("low", "where", "low"),
        ("top shelf", "where", "top"),
        ("gap 0", "gap", 0),
        ("gap 1/4", "gap", parse_length("1/4", "in")),
        ("guess", "guessed", True),
        ("approx.", "guessed", True),
    ],
)
def test_wishes_after_the_sizes_are_read(words: str, field: str, value: Any) -> None:
    assert getattr(thing(f"jug 6 x 9 x 4, {words}"), field) == value


@pytest.mark.parametrize(
    "text",
    [
        "~ jug 6 x 9 x 4",
        "jug ~6 x 9 x 4",
        "jug about 6 x 9 x 4",
        "jug approx. 6 x 9 x 4",
        "jug 6 x 9? x 4",
        "jug 6 x 9 x 4 ?",
        "jug, ~6 wide, 9 high, 4 deep",
    ],
)
def test_a_mark_of_doubt_makes_the_sizes_guessed(text: str) -> None:
    item = thing(text)
    assert item.guessed
    assert item.name == "jug"


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("low table 6 x 9 x 4", "low table"),
        ("top hat 6 x 9 x 4", "top hat"),
        ("stack of 3 bowls 6 x 9 x 4", "stack of 3 bowls"),
        ("may lie box 6 x 9 x 4", "may lie box"),
        ("book about birds 6 x 9 x 4", "book about birds"),
        ("jug, blue, 6 x 9 x 4", "jug, blue"),
        ("<b>jug</b> 6 x 9 x 4", "<b>jug</b>"),
        ("=SUM(A1) 6 x 9 x 4", "=SUM(A1)"),
        ("[red]jug[/red] 6 x 9 x 4", "[red]jug[/red]"),
        ("茶壺 6 x 9 x 4", "茶壺"),
        ("🏺 6 x 9 x 4", "🏺"),
    ],
)
def test_words_of_the_name_stay_in_it(text: str, name: str) -> None:
    item = thing(text)
    assert item.name == name
    assert not item.may_lie
    assert (item.where, item.stack, item.count) == (None, 1, 1)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("jug", "no sizes are found"),
        ("jug 6 x 9", "the depth is missing (read: width 6 in, height 9 in)"),
        ("jug 6 wide, 9 high", "the depth is missing"),
        ("jug 9 high", "the width and depth are missing"),
        ("globe 12 diameter", "the height is missing"),
        ("6 x 9 x 4", "the name is missing"),
        ("jug 6 x 9 x 4 x 3", "4 sizes in a row; is one of them the count?"),
        ("jug 6 x 9 x 4, mug 3 x 4 x 3", "the sizes are given twice"),
        ("jug 1,200 x 9 x 4", "1,200 may mean 1200 or 1.200"),
        ("jug 6 x 9 x 4,5", "4,5 may be one size or two figures"),
        ("jug 6 x 9 x 4 1/2 lb", "which figure is the weight?"),
        ("jug -6 x 9 x 4", "a size is negative"),
        ("jug 0 x 9 x 4", "the width is less than 1 mm"),
        ("jug 12 high x 9 x 4", "only some sizes are labelled"),
        ("jug 6 wide, 7 wide, 4 high", "the width is given twice"),
        ("vase 6 dia x 9 high x 4 wide", "beside a diameter one size is needed"),
        ("jug 6 x 9 x 1'", "some sizes have a unit and some have none"),
        ("several vases 6 x 9 x 4", "how many are 'several'?"),
        ("jug 6 x 9 x 4, qty 0", "the count '0' is not a whole number from 1"),
        ("jug 6 x 9 x 4, qty -2", "the count '-2' is not a whole number from 1"),
        ("jug 6 x 9 x 4, qty 1.5", "the count '1.5' is not a whole number from 1"),
        ("0 x jug 6 x 9 x 4", "the count '0' is not a whole number from 1"),
        ("jug 6 x 9 x 4, 12 lb, 3 kg", "two weights are given"),
        ("jug 6 x 9 x 4, 0 lb", "is nothing"),
        ("jug 6 x 9 x 4, brass, 7", "'brass, 7' is not understood"),
        ("jug 6 x 9 x 4, stack 99", "stack '99' is not a whole number from 1 to 50"),
        ("jug 6 x 9 x 4 furlongs 3", "is not understood"),
        ("jug 200m x 9m x 4m", "is longer than 100 m"),
        (f"{'j' * 201} 6 x 9 x 4", "the name has 201 characters; shorten it to 200"),
        (f"{'j' * 1001} 6 x 9 x 4", "the line has 1011 characters; 1000 are allowed"),
    ],
)
def test_an_unclear_line_is_asked_about_and_not_guessed(text: str, said: str) -> None:
    assert said in faults(text)


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("jug 12 long, 9 wide, 4 high", "length and width are both given"),
        ("1950 radio 6 x 9 x 4", "is 1950 a count or part of the name?"),
        ("3 x jug 6 x 9 x 4, qty 2", "two counts are given: 2 and 3"),
        ("2-3 jugs 6 x 9 x 6", "how many: 2 or 3?"),
        ("jugs (4?) 6 x 9 x 6", "4?: how many"),
        ("jugs 6 x 9? x 6", "height 9?: is it sure?"),
        ("jug 40 6 x 9 x 6", "how many: 40 or 1?"),
        ("jug 40 blue 6 x 9 x 6", "what is the 40?"),
        ("jugs - we have four - 6 x 9 x 6", "what is the four?"),
        ("6 lead weights 2 x 3 x 2, 30 lb", "30 lb is heavy for its size: is it of one?"),
        ("bowl 12 across, 5 deep", "which way is deep?"),
        ("2. jug 6 x 9 x 4", "is 2 a line number or the count?"),
    ],
)
def test_a_line_of_two_readings_has_the_likeliest_and_a_question(text: str, asked: str) -> None:
    assert asked in questions(text)


def test_small_sizes_without_a_unit_in_a_metric_job_may_be_centimetres() -> None:
    assert "in cm or in mm?" in questions("cat 24,5 x 30 x 12", "mm")
    answered = read_listing("cat 24,5 x 30 x 12", "mm").answered({1: (1,)})
    assert [sizes(item) for item in answered.items] == [ticks("24.5", "30", "12", "mm")]


def test_several_faults_of_one_line_are_told_together() -> None:
    said = faults("0 x jug 6 x 9, 12 lb, 3 kg")
    for part in ("the depth is missing", "two weights are given", "the count '0'"):
        assert part in said


@pytest.mark.parametrize(
    ("text", "note"),
    [
        ("jug 6 x 9 x 4", "read as width x height x depth"),
        ("jug (HxWxD) 9 x 6 x 4", "read as height x width x depth"),
        ("jug 150 x 230 x 100 mm", "unit mm for all sizes"),
        ("vase 6 dia x 9 high", "diameter taken for two sides"),
        ("box 12 long, 9 high, 4 deep", "length taken for the width"),
        ("jug 6 x 9 x 4", "weight assumed"),
        ("jug 6 x 9 x 4, brass", "remark: brass"),
        ("jug 6 x 9 x 4, notes: from aunt 7", "remark: from aunt 7"),
        ("jug 6 x 9 x 4, stackable", "stackable taken for 2 high; write stack 3 for more"),
        ("j\x1b[31mug 6 x 9 x 4", "control characters removed"),
    ],
)
def test_how_a_line_was_read_is_echoed(text: str, note: str) -> None:
    assert note in line(text).notes


def test_a_known_weight_is_not_called_assumed() -> None:
    assert "weight assumed" not in line("jug 6 x 9 x 4, 2 lb").notes


@pytest.mark.parametrize(("unit", "size"), [("in", "60 in"), ("mm", "60 mm")])
def test_a_size_without_a_unit_takes_that_of_the_job(unit: Unit, size: str) -> None:
    assert thing("jug 60 x 90 x 40", unit).width == parse_length(size, unit)


@pytest.mark.parametrize(
    ("words", "keep"),
    [
        ("MUST go in", "must"),
        ("has to be in please", "must"),
        ("unbedingt", "must"),
        ("indispensable", "must"),
        ("only if theres room", "optional"),
        ("nur wenn Platz ist", "optional"),
        ("s'il y a de la place", "optional"),
        ("doesn't have to be in", "should"),
        ("nicht unbedingt", "should"),
        ("not essential", "should"),
    ],
)
def test_a_wish_in_words_is_kept_and_its_contrary_is_not(words: str, keep: str) -> None:
    (reading,) = read_listing(f"cookie jar 8 x 11 x 8, {words}", "in").lines
    assert reading.item is not None
    assert (reading.item.name, reading.item.keep) == ("cookie jar", keep)


@pytest.mark.parametrize("words", ["ok lying down", "darf liegen", "peut être couché"])
def test_what_may_lie_is_said_in_several_languages(words: str) -> None:
    (reading,) = read_listing(f"bottle 3 x 15 x 3, {words}", "in").lines
    assert reading.item is not None
    assert reading.item.may_lie


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Figur, 18. Jh., 15 x 42 x 12", "Figur"),
        ("Snuff box, 1790-1810, 3 x 1 x 2", "Snuff box"),
        ("Obj. 1402: Skillet 10 x 3 x 10", "Skillet"),
        ("Radio, no. 1978.3, 13 x 8 x 7", "Radio"),
    ],
)
def test_the_age_and_the_catalogue_number_are_no_count_and_no_name(text: str, name: str) -> None:
    (reading,) = read_listing(text, "in").lines
    assert reading.is_sure
    assert reading.item is not None
    assert (reading.item.name, reading.item.count) == (name, 1)


@pytest.mark.parametrize(
    "text",
    [
        "Set of 9 gauge blocks in case, 8 x 1 1/2 x 4",
        "Dividers - 2 pr. - 2 1/2 x 8 x 1",
        "Pair of calipers, large, 4 x 12 x 3/4",
    ],
)
def test_a_set_or_pair_that_may_be_one_thing_is_asked_about(text: str) -> None:
    (reading,) = read_listing(text, "in").lines
    assert reading.doubts


def test_a_heading_that_says_how_dear_its_things_are_is_obeyed() -> None:
    text = "Clocks:\nmantel clock 9 x 12 x 5\n\nIf there is room:\njug 6 x 8 x 5\n"
    items = read_listing(text, "in").items
    assert [(item.name, item.keep) for item in items] == [
        ("mantel clock", "should"),
        ("jug", "optional"),
    ]


def test_height_last_is_obeyed() -> None:
    (reading,) = read_listing("Mill 16 x 15 x 22 cm (height last)", "mm").lines
    item = reading.item
    assert item is not None
    assert (item.width, item.height, item.depth) == (160 * 320, 220 * 320, 150 * 320)
