"""What is asked for by name: each wish, what just meets it and what just does not."""

from __future__ import annotations

from typing import Any

import pytest

from solver.layout.asked_wishes import anything_asked, asked
from solver.layout.look_scores import LookScores
from solver.layout.stage_search import Search
from solver.outcome import Limits
from tests.layout_models import Extra, least, marks, model, only, problem, row, thing

TWO = {"shelves": 2}
HIGH = {"above_floor": "1000"}
"""The bottom end of the case 1000 mm up: the floor on a shelf at mark m is at 1020 + m."""


def missed(*extras: Extra, case: dict[str, Any] | None = None, **thing_of: Any) -> int:
    """Things that miss what was asked, in the model, and in the finished layout alike."""
    look = thing_of.pop("look", {})
    one = problem(thing(**thing_of), case=case, **look)
    found = least(one, asked, *extras)
    search = Search(model(one, (), *extras), Limits())
    search.feasible()
    assert LookScores(one, search.marks(), search.places()).asked() == found
    return found


def test_whether_anything_is_asked() -> None:
    assert anything_asked(model(problem(thing(hero=True)), ()))
    assert not anything_asked(model(problem(thing()), ()))


@pytest.mark.parametrize(
    ("where", "counts", "expected"),
    [
        ("low", (3, 0, 0), 0),
        ("low", (2, 1, 0), 1),
        ("top", (0, 0, 3), 0),
        ("top", (0, 3, 0), 3),
        (1, (0, 3, 0), 0),
        (1, (0, 2, 1), 1),
        (7, (1, 1, 1), 3),
    ],
)
def test_things_in_the_opening_that_is_wished(
    where: str | int, counts: tuple[int, ...], expected: int
) -> None:
    extra = (marks(300, 600), row(*counts))
    assert missed(*extra, where=where, count=3, case=TWO) == expected


@pytest.mark.parametrize(
    ("mark", "counts", "expected"),
    [(500, (0, 1), 0), (501, (0, 1), 1), (501, (1, 0), 0), (500, (1, 0), 1)],
)
def test_at_eye_level_is_the_last_opening_that_starts_no_higher(
    mark: int, counts: tuple[int, ...], expected: int
) -> None:
    # its floor is at m + 20
    extra = (marks(mark), row(*counts))
    assert missed(*extra, where="eye", look={"eye_level": "520"}) == expected


@pytest.mark.parametrize(("counts", "expected"), [((3, 0, 0), 0), ((2, 1, 0), 1), ((1, 1, 1), 2)])
def test_a_kind_whole_on_one_shelf(counts: tuple[int, ...], expected: int) -> None:
    extra = (marks(300, 600), row(*counts))
    assert missed(*extra, together=True, count=3, case=TWO) == expected


@pytest.mark.parametrize(("mark", "expected"), [(438, 0), (437, 1)])
def test_what_is_fragile_stands_on_floors_of_eighteen_inches(mark: int, expected: int) -> None:
    # 18 in are 457.2 mm; the floor is at m + 20
    assert missed(marks(mark), row(0, 1), fragile=True) == expected


@pytest.mark.parametrize(("mark", "expected"), [(377, 1), (378, 0), (555, 0), (556, 1)])
def test_the_middle_of_a_hero_is_at_57_to_64_inches(mark: int, expected: int) -> None:
    # 1447.8 to 1625.6 mm; the middle is at 1020 + m + 50
    assert missed(marks(mark), row(0, 1), hero=True, case=HIGH) == expected


@pytest.mark.parametrize(
    ("mark", "expected"), [(277, 2), (278, 1), (377, 1), (378, 0), (456, 1), (556, 2)]
)
def test_each_of_a_stack_of_heroes_has_its_own_middle(mark: int, expected: int) -> None:
    # at 1020 + m + 50 and at 100 more
    extra = (marks(mark), row(0, 2), only(1, stack=2))
    assert missed(*extra, hero=True, count=2, stack=2, case=HIGH) == expected


@pytest.mark.parametrize(
    ("lying", "mark", "expected"),
    [(False, 277, 1), (False, 278, 0), (True, 278, 1), (True, 377, 1), (True, 378, 0)],
)
def test_the_middle_of_a_lying_hero_is_lower(lying: bool, mark: int, expected: int) -> None:
    # 300 mm standing, 100 lying: middles 150 and 50 over the floor
    extra = (marks(mark), row(0, 1), only(1, lying=lying))
    assert missed(*extra, hero=True, height="300", may_lie=True, case=HIGH) == expected


def in_rows(v: Any) -> None:
    """What stands in the upper opening stands two rows deep."""
    for form, places in v.places(0, 1).items():
        if form.rows != 2:
            v.model.add(places == 0)


@pytest.mark.parametrize(("mark", "expected"), [(327, 2), (328, 1), (378, 0), (506, 1), (556, 2)])
def test_the_back_row_of_heroes_stands_on_its_riser(mark: int, expected: int) -> None:
    # the riser of the second row is half a thing high: middles at 1020 + m + 50 and + 100
    extra = (marks(mark), row(0, 2), in_rows)
    assert missed(*extra, hero=True, count=2, rows=2, case=HIGH) == expected
