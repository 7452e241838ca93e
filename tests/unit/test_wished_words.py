"""What a thing is to the client: in words, in columns, under headings, and in a job file."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pandas as pd
import pytest
from pydantic import ValidationError

from cli.files.job_file import read_job
from solver.errors import ManyInputsError
from solver.job.inventory import Item
from solver.listing.item_frames import items_from_frame
from solver.listing.read import read_listing
from solver.plan.what_if_answer import with_things
from solver.units import inches
from tests.builders import make_job


def only(line: str) -> Item:
    listing = read_listing(f"{line}\ncup 3x4x3\n", "in")
    listing.raise_if_unreadable()
    return listing.items[0]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("must have", {"keep": "must"}),
        ("keep must", {"keep": "must"}),
        ("keep: optional", {"keep": "optional"}),
        ("if there is room", {"keep": "optional"}),
        ("hero, fragile", {"hero": True, "fragile": True}),
        ("order 3", {"order": 3}),
        ("no. 3 in the series", {"order": 3}),
        ("all on one shelf", {"together": True}),
        ("keep together", {"together": True}),
        ("not beside cup", {"apart": ("cup",)}),
        ("apart from CUP, not next to each other", {"apart": ("cup", "jug")}),
        ("section: kitchen", {"heading": "kitchen"}),
    ],
)
def test_words_after_the_sizes_say_what_a_thing_is(words: str, expected: dict[str, Any]) -> None:
    plain = Item(name="jug", width=inches(6), height=inches(9), depth=inches(4), count=2)
    assert only(f"2 x jug 6x9x4, {words}") == plain.model_copy(update=expected)


@pytest.mark.parametrize(
    "line",
    [
        "fragile jug 6x9x4",  # words of the name
        "Hero, 6x9x4",
        "jug 6x9x4, must be dusted",
        "jug 6x9x4, not so fragile as it looks",
        "Fragile 6x9x4",
    ],
)
def test_words_of_a_name_or_of_a_remark_say_nothing(line: str) -> None:
    item = only(line)
    assert (item.keep, item.hero, item.fragile) == ("should", False, False)


COLUMNS = {
    "heading": "kitchen",
    "keep": "must",
    "hero": "yes",
    "fragile": "x",
    "no. in series": "7",
    "on one shelf": "yes",
    "apart": "cup; jug",
}


def test_columns_say_what_a_thing_is() -> None:
    head = ",".join(["name", "width", "height", "depth", *COLUMNS])
    text = f"{head}\njug,6,9,4,{','.join(COLUMNS.values())}\ncup,3,4,3{',' * len(COLUMNS)}\n"
    jug, cup = read_listing(text, "in").items
    assert (jug.heading, jug.keep, jug.hero, jug.fragile) == ("kitchen", "must", True, True)
    assert (jug.order, jug.together, jug.apart) == (7, True, ("cup", "jug"))
    assert (cup.heading, cup.keep, cup.hero, cup.order, cup.apart) == (
        *(None, "should", False, None, ()),
    )


@pytest.mark.parametrize(
    ("column", "cell", "told"),
    [
        ("keep", "dearly", "keep is 'dearly'; write must, should or optional"),
        ("hero", "perhaps", "hero is 'perhaps'; write yes or no"),
        ("order", "first", "the number in the series 'first' is not a whole number from 0 to 9999"),
        ("heading", "k" * 201, "the heading has 201 characters; shorten it to 200"),
    ],
)
def test_a_cell_that_says_something_else_is_asked_about(column: str, cell: str, told: str) -> None:
    listing = read_listing(f"name,width,height,depth,{column}\njug,6,9,4,{cell}\n", "in")
    with pytest.raises(ManyInputsError, match=told):
        listing.raise_if_unreadable()


def test_together_is_yes_or_no_or_as_before_the_name_of_a_group() -> None:
    text = "name,width,height,depth,together\njug,6,9,4,yes\ncup,3,4,3,kitchen\nbowl,3,4,3,no\n"
    jug, cup, bowl = read_listing(text, "in").items
    assert (jug.together, jug.group) == (True, None)
    assert (cup.together, cup.group) == (False, "kitchen")
    assert (bowl.together, bowl.group) == (False, None)


def test_a_table_of_things_written_back_reads_the_same_again() -> None:
    things = (
        *read_listing(
            "Kitchen:\n3 x jug 6x9x4, must have, fragile, not beside cup\nHall:\n"
            "cup 3x4x3, hero, order 2, on one shelf, apart from each other\n",
            "mm",
        ).items,
        Item(name="tin", width=640, height=640, depth=960, may_lie=True, stack=2, rows=2, gap=0),
    )
    assert {item.heading for item in things} == {"Kitchen", "Hall", None}
    rows = [item.model_dump() | {"unit": None} for item in things]
    lengths = ("width", "height", "depth", "gap")
    for row in rows:
        row.update({key: None if row[key] is None else f"{row[key] / 320} mm" for key in lengths})
    frame = pd.DataFrame(rows).drop(columns=["unit", "expected", "picture"], errors="ignore")
    assert items_from_frame(frame, "in") == things


HEADINGS = """\
Hi Tom, these are ours:
clock 9x12x5

Cups, saucers and plates:
2 x cup 3x4x3

Grandma's best china

plate 9x9x1
# counted twice
bowl 6x3x6, section: hall
"""


def test_what_stands_under_a_heading_is_wished_together_and_the_heading_is_echoed() -> None:
    listing = read_listing(HEADINGS, "in")
    listing.raise_if_unreadable()
    assert {item.name: item.heading for item in listing.items} == {
        "clock": None,
        "cup": "Cups, saucers and plates",
        "plate": "Grandma's best china",
        "bowl": "hall",
    }
    told = {line.text: (line.skipped, line.notes) for line in listing.lines if line.skipped}
    assert told["Hi Tom, these are ours:"] == ("a remark", ())
    assert told["Grandma's best china"] == (
        "a heading",
        ('things under "Grandma\'s best china" are wished together',),
    )


@pytest.mark.parametrize(
    ("line", "is_aside"),
    [
        ("Hi Tom", True),
        ("Dear Mary,", True),
        ("Thanks a lot", False),
        ("please call me", False),
        ("a long line of many words that goes on", False),
        ("Kitchen 2", False),
        ("How high?", True),
    ],
)
def test_greetings_sentences_and_lines_with_figures_are_no_headings(
    line: str, is_aside: bool
) -> None:
    listing = read_listing(f"Hall:\nclock 9x12x5\n\n{line}\n\njug 6x9x4\n", "in")
    shown = listing.aside if is_aside else listing.unreadable
    assert [one.text for one in shown] == [line]


def test_a_line_without_sizes_among_things_is_a_thing_and_asked_about() -> None:
    for text in ("Hall:\nclock 9x12x5\n\nteapot\njug 6x9x4\n", "Hall:\nclock 9x12x5\nteapot\n\n"):
        (bad,) = read_listing(text, "in").unreadable
        assert bad.text == "teapot"
        assert "a heading ends with a colon" in bad.problems[0]


def test_what_stands_over_everything_is_a_title_with_a_colon_and_else_asked_about() -> None:
    listing = read_listing("Mum's things:\n\njug 6x9x4\ncup 3x4x3\n", "in")
    assert [item.heading for item in listing.items] == [None, None]
    assert listing.lines[0].skipped == "a title"
    (bad,) = read_listing("Mum's things\n\njug 6x9x4\ncup 3x4x3\n", "in").unreadable
    assert bad.number == 1


def test_numbered_lines_may_stand_under_headings() -> None:
    text = "Kitchen\n\n1. jug 6x9x4\n\nHall\n\n2. clock 9x12x5\n"
    items = read_listing(text, "in").items
    assert [(item.name, item.heading) for item in items] == [("jug", "Kitchen"), ("clock", "Hall")]


def test_the_same_thing_under_two_headings_is_two_kinds() -> None:
    items = read_listing("Kitchen:\n2 x jug 6x9x4\nHall:\njug 6x9x4\n", "in").items
    assert [(item.name, item.count, item.heading) for item in items] == [
        ("jug", 2, "Kitchen"),
        ("jug (2)", 1, "Hall"),
    ]


SIZE = {"width": "4", "height": "4", "depth": "4"}


def test_a_thing_may_stand_apart_from_its_own_kind_and_others_of_the_job() -> None:
    job = make_job(
        items=[{"name": "jug", **SIZE, "apart": ["jug", "cup"]}, {"name": "cup", **SIZE}]
    )
    assert job.item("jug").apart == ("jug", "cup")


def test_what_it_is_to_stand_apart_from_must_be_in_the_job() -> None:
    with pytest.raises(ValidationError, match="'mugg' is not in the job; did you mean 'mug'"):
        make_job(items=[{"name": "jug", **SIZE, "apart": ["mugg"]}, {"name": "mug", **SIZE}])


@pytest.mark.parametrize(("steepest", "good"), [(1, True), (20, True), (0.9, False), (21, False)])
def test_the_steepest_fall_is_from_1_to_20(steepest: float, good: bool) -> None:
    if good:
        assert make_job(look={"steepest": steepest}).look.steepest == steepest
        return
    with pytest.raises(ValidationError, match="steepest"):
        make_job(look={"steepest": steepest})


def test_what_is_expected_of_a_kind_that_stands_apart_does_too(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(
        '[job]\nunit = "in"\n[[case]]\nwidth = 30\nheight = 60\n[look]\nspare = ["2 x jug"]\n'
        '[[item]]\nname = "jug"\nwidth = 6\nheight = 9\ndepth = 4\napart = ["jug"]\n',
        "utf-8",
    )
    jug, expected = read_job(str(path)).items
    assert jug.apart == ("jug",)
    assert expected.apart == ("jug", "jug, expected")


def test_what_is_taken_away_is_stood_apart_from_no_more() -> None:
    job = make_job(items=[{"name": "jug", **SIZE, "apart": ["cup"]}, {"name": "cup", **SIZE}])
    assert with_things(job, (), {"cup": None}).item("jug").apart == ()
    assert with_things(job, (), {}).item("jug").apart == ("cup",)


def test_a_cell_of_notes_says_wishes_and_takes_none_away() -> None:
    cells = "name,size,may lie,notes\nmug,4 x 7 x 6,,must have\ncup,4 x 7 x 6,yes,fragile\n"
    mug, cup = read_listing(cells, "in").items

    assert (mug.keep, mug.fragile, mug.may_lie) == ("must", False, False)
    assert (cup.keep, cup.fragile, cup.may_lie) == ("should", True, True)
