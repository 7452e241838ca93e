"""What the client says of a row goes first: series, heroes, things apart, places held, sag."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from solver.layout.layout_problem import ThingsHeld
from solver.layout.row_apart import apart
from solver.layout.row_gaps import Piece, RowSpace
from tests.doorways import placed_job
from tests.rows import Row, front, thing


def test_a_series_runs_from_left_to_right() -> None:
    heights = (200, 120, 240, 180, 150, 90, 210)
    series = [thing(f"v{i}", 60, h, order=9 - i) for i, h in enumerate(heights)]
    asked = Row(*series, thing("cup", 50, 90, 2))
    row = asked.composed()
    numbers = [asked.problem.kinds[spot.kind].order for spot in front(row.spots)]
    told = [number for number in numbers if number is not None]
    assert told == sorted(told)
    assert row.broken == ()


def test_a_hero_stands_in_the_middle_although_others_are_taller() -> None:
    asked = Row(thing("hero", 90, 120, hero=True), thing("jug", 60, 250, 2), thing("cup", 50, 90))
    row = asked.composed()
    hero = next(spot for spot in row.spots if spot.kind == 0)
    assert 2 * hero.x + hero.form.width == asked.width
    assert row.broken == ()


def test_two_heroes_share_the_middle_and_a_third_row_of_pairs_is_about_them() -> None:
    asked = Row(thing("hero", 90, 120, 2, hero=True), thing("jug", 60, 250, 2))
    assert asked.names(asked.composed()) == ["jug", "hero", "hero", "jug"]


def test_things_apart_are_no_neighbours() -> None:
    asked = Row(
        thing("cat", 60, 150, 2, apart=["bird", "cat"]),
        thing("bird", 50, 120, 2),
        thing("pot", 70, 200, 3),
    )
    row = asked.composed()
    names = asked.names(row)
    assert not {("cat", "cat"), ("cat", "bird"), ("bird", "cat")} & set(pairwise(names))
    assert row.broken == ()


def test_things_that_cannot_be_kept_apart_are_named() -> None:
    asked = Row(thing("cat", 60, 150, 3, apart=["cat"]), thing("pot", 70, 200))
    row = asked.composed()
    assert row.broken == (
        "two of 'cat' stand side by side, since there is too little to stand between them",
    )


def test_books_that_are_apart_make_no_bundle() -> None:
    asked = Row(thing("book", 30, 200, 2, gap="0", apart=["book"]), thing("cup", 60, 90))
    assert asked.names(asked.composed()) == ["book", "cup", "book"]


@pytest.mark.parametrize("place", [1, 2, 3, 4, 5])
def test_a_thing_keeps_the_place_it_is_held_to(place: int) -> None:
    asked = Row(thing("jug", 70, 250), thing("cup", 50, 100, 4))
    row = asked.composed(held=[ThingsHeld(0, ((0, 1),), 1, place)])
    assert asked.names(row)[place - 1] == "jug"
    assert row.broken == ()


def test_a_place_counts_every_book_of_a_bundle() -> None:
    asked = Row(thing("book", 20, 200, 5, gap="0"), thing("cup", 60, 90, 2))
    row = asked.composed(held=[ThingsHeld(1, ((0, 1),), 1, 7)])
    assert asked.names(row)[6] == "cup"
    row = asked.composed(held=[ThingsHeld(1, ((0, 1),), 1, 3)])
    assert row.broken == ("'cup' does not stand at place 3 of its row",)


def test_a_place_beyond_the_row_is_told() -> None:
    asked = Row(thing("jug", 70, 250), thing("cup", 50, 100, 4))
    row = asked.composed(held=[ThingsHeld(0, ((0, 1),), 1, 6)])
    assert row.broken == ("'jug' does not stand at place 6 of its row",)


def test_a_series_goes_before_a_hero() -> None:
    asked = Row(
        thing("one", 60, 100, hero=True, order=1),
        thing("two", 60, 100, order=2),
        thing("three", 60, 100, order=3),
    )
    row = asked.composed()
    assert asked.names(row) == ["one", "two", "three"]
    assert row.broken == ("'one' cannot stand in the middle of the row",)


def heavy(weight: str) -> Row:
    heavy_ = thing("stone", 60, 250)
    cups = thing("cup", 100, 100, 4)
    heavy_["weight"] = cups["weight"] = "10 g"
    heavy_["weight"] = weight
    return Row(heavy_, cups, case={"width": "1200"})


def test_where_the_shelf_would_sag_too_far_the_heavy_go_to_its_ends() -> None:
    """One light stone stands in the middle; a heavy one sags the shelf less at its end."""
    light, stone = heavy("10 g"), heavy("200 kg")
    assert light.names(light.composed())[2] == "stone"
    assert "stone" in (stone.names(stone.composed())[0], stone.names(stone.composed())[-1])


@pytest.mark.parametrize(("bowl", "both"), [(104, True), (105, False)])
def test_things_of_a_kind_go_to_both_ends_only_where_the_gaps_are_there(
    bowl: int, both: bool
) -> None:
    # of 714 - 2 x 15 = 684 mm 7 x 80 + 10 + 104 with the books side by side, and 10 more for
    # the gap on the bowl's other side
    space = RowSpace(714, 15, 10, 684, 1)
    book = Piece(0, None, 80, 200, 0, 0, 1000, ())
    row, edges = apart(space, [*[book] * 7, replace(book, kind=1, width=bowl, mass=900)])
    assert (row[0].kind == row[-1].kind == 0) is both
    assert edges[0] == 15
    assert edges[-1] + row[-1].width == 714 - 15
    for a, b, x, y in zip(row, row[1:], edges, edges[1:], strict=False):
        assert y - x - a.width >= (0 if a.kind == b.kind else 10)


def test_a_hero_that_cannot_be_centred_is_told() -> None:
    # 15 + 560 + 10 = 585 of 714 mm: the hero's middle is 45 further, 273 right of the shelf's
    asked = Row(thing("hero", 90, 120, hero=True), thing("log", 560, 60))
    assert asked.composed().broken == ("'hero' stands 273 mm off the middle: the row is too full",)


@pytest.mark.parametrize("side", ["left", "right"])
def test_in_a_hung_case_the_heavier_stand_nearer_the_hinges(side: str) -> None:
    light = thing("cup", 60, 100)
    stone = {**thing("stone", 60, 100), "weight": "900 g"}
    asked = Row(stone, light, thing("jug", 70, 250))
    asked.job = placed_job({"width": "25 in", "height": "60 in"}, hinge_side=side)
    asked.case = asked.job.cases[0]
    names = asked.names(asked.composed())
    assert names == (["stone", "jug", "cup"] if side == "left" else ["cup", "jug", "stone"])
