"""The quick form: sizes and shelf counts as words of the command line."""

from __future__ import annotations

from typing import Any

import pytest

from cli.files.quick_job import parse_shelves, parse_triple, quick_job
from solver.errors import InputError
from solver.job.job import Job
from solver.listing.read import read_listing
from solver.units import Unit, inches, mm, parse_mass

LISTING = read_listing("3 x jug 6 x 9 x 4, 2 lb", "in")


def quick(**words: Any) -> Job:
    """Make a quick job of a jug in a case of 25-1/2 x 71 x 7 inside."""
    sizes = {} if "outside" in words else {"inside": "25-1/2x71x7"}
    return quick_job(LISTING, **{**sizes, "unit": "in", **words})


@pytest.mark.parametrize(
    ("text", "unit", "sizes"),
    [
        ("25-1/2x71x7", "in", (inches("25.5"), inches(71), inches(7))),
        ("25 1/2 x 71 x 7", "in", (inches("25.5"), inches(71), inches(7))),
        ("25½×71×7", "in", (inches("25.5"), inches(71), inches(7))),
        ('25-1/2" x 71" x 7"', "mm", (inches("25.5"), inches(71), inches(7))),
        ("648x1803x178", "mm", (mm(648), mm(1803), mm(178))),
        ("648 x 1803 x 178 mm", "in", (mm(648), mm(1803), mm(178))),
        ("2' x 6' x 7", "in", (inches(24), inches(72), inches(7))),
        ("25-1/2 by 71", "in", (inches("25.5"), inches(71), None)),
    ],
)
def test_the_sizes_of_a_case_are_read(
    text: str, unit: Unit, sizes: tuple[int, int, int | None]
) -> None:
    assert parse_triple(text, unit) == sizes


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("25-1/2", "is not the size of a case; forms that work: 25-1/2x71x7"),
        ("1x2x3x4", "is not the size of a case"),
        ("", "is not the size of a case"),
        ("25x71x", "depth in '25x71x': '' is not a length"),
        ("25xhighx7", "height in '25xhighx7': 'high' is not a length"),
    ],
)
def test_what_is_no_size_of_a_case_is_refused(text: str, said: str) -> None:
    with pytest.raises(InputError) as caught:
        parse_triple(text, "in")
    assert said in str(caught.value)


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        ("4", 4),
        ("0", 0),
        ("4,5", [4, 5]),
        ("5, 4, 5", [4, 5]),
        ("4 or 5", [4, 5]),
        ("4-6", {"least": 4, "most": 6}),
        ("4–6", {"least": 4, "most": 6}),
        ("4 to 6", {"least": 4, "most": 6}),
        ("4..6", {"least": 4, "most": 6}),
    ],
)
def test_shelf_counts_are_read(text: str, counts: object) -> None:
    assert parse_shelves(text) == counts


@pytest.mark.parametrize("text", ["", "four", "4,", "-4", "4.5", "31", "4-31", "6-4", "1-2-3"])
def test_what_is_no_shelf_count_is_refused_with_what_works(text: str) -> None:
    with pytest.raises(InputError, match=r"write 4"):
        parse_shelves(text)


def test_a_quick_job_is_one_plain_case_with_the_defaults() -> None:
    job = quick(shelves="4,5")
    (case,) = job.cases
    assert (case.sizes, case.width, case.height, case.depth) == (
        "inside",
        inches("25.5"),
        inches(71),
        inches(7),
    )
    assert case.shelf_counts == (4, 5)
    assert job.items == LISTING.items


def test_outside_sizes_and_an_open_depth_are_taken_too() -> None:
    (case,) = quick(outside="30 x 72").cases
    assert (case.sizes, case.depth) == ("outside", None)


def test_further_words_go_to_the_table_they_belong_to() -> None:
    words = {"headroom": "2", "rhythm": "graduated", "kerf": "3 mm", "kind": "wall"}
    job = quick(overrides={**words, "title": "For Ada", "shelf_load": "90 lb", "gap": None})
    assert job.look.headroom == inches(2)
    assert job.look.rhythm == "graduated"
    assert job.shop.kerf == mm(3)
    assert job.cases[0].kind == "wall"
    assert job.head.title == "For Ada"
    assert job.look.shelf_load == parse_mass("90 lb", "in")
    assert job.look.gap == inches("1/2")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ({"overrides": {"headrom": "2"}}, "'headrom' is no key of a job file; did you mean head"),
        ({"overrides": {"headroom": "tall"}}, "headroom: 'tall' is not a length"),
        ({"overrides": {"rhythm": "evn"}}, 'rhythm: "evn" is given; allowed: "steady"'),
        ({"inside": None, "outside": "2x2x2"}, "width: the boards leave bays of less than 20 mm"),
        ({"overrides": {"tallest": "high"}}, 'allowed: "low", "top" or "any"'),
        ({"overrides": {"steepest": 0.5}}, "allowed: a number from 1 to 20, such as 1.8"),
        ({"inside": None}, "give the case's size once, with --inside or --outside"),
        ({"inside": "30x60x9", "outside": "30x60x9"}, "give the case's size once"),
    ],
)
def test_wrong_words_are_refused_by_name(words: dict[str, Any], said: str) -> None:
    given = {"inside": "25-1/2x71x7", **words}
    with pytest.raises(InputError) as caught:
        quick_job(LISTING, unit="in", **given)
    assert said in str(caught.value)


def test_an_unreadable_list_stops_a_quick_job() -> None:
    with pytest.raises(InputError, match="the depth is missing"):
        quick_job(read_listing("jug 6 x 9", "in"), inside="25x71x7", unit="in")


def test_an_opening_leaves_room_to_fit_the_case_in() -> None:
    """3/4 in for a scribed strip at each side and at the head: 44 - 2 x 3/4, 84 - 3/4."""
    listing = read_listing("4 x pot 7x10x7", "in")
    (case,) = quick_job(listing, opening="44x84x11", unit="in").cases

    assert case.kind == "built-in"
    assert case.sizes == "outside"
    sizes = (case.width, case.height, case.depth)
    assert sizes == (inches("42-1/2"), inches("83-1/4"), inches(11))
