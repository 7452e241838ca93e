"""Within an opening things keep their gaps, stand centred, and the tallest in the middle."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from solver.layout.row_arrangement import Spot, arrange, arrange_apart

from solver.layout.layout_problem import Form, LayoutProblem
from solver.layout.problem_from_job import build
from solver.units import TICKS_PER_MM, Ticks
from tests.builders import make_job

MARGIN = 15 * TICKS_PER_MM
GAP = 10 * TICKS_PER_MM


def thing(name: str, width: int, height: int, **more: Any) -> dict[str, Any]:
    sizes = {"width": str(width), "height": str(height), "depth": "60", "weight": "1 kg"}
    return {"name": name, **sizes, **more}


def problem(*items: dict[str, Any]) -> LayoutProblem:
    """One bay of 750 mm outside, 714 mm clear between sides of 18 mm."""
    look = {"gap": "10", "end_margin": "15"}
    job = make_job(unit="mm", items=list(items), look=look)
    case = job.cases[0]
    return build(job, {case.name: case.shelf_counts}, {case.name: 194 * TICKS_PER_MM})


def stood(asked: LayoutProblem, *kinds: int) -> tuple[Spot, ...]:
    """One place of the first form of each kind named."""
    forms = [asked.kinds[kind].forms[0] for kind in kinds]
    return arrange(asked, asked.bays[0], [(form, form.things) for form in forms], MARGIN)


def gaps(asked: LayoutProblem, spots: tuple[Spot, ...]) -> list[Ticks]:
    """Free widths from the left side to the right one, ends included [tick]."""
    row = sorted(spots, key=lambda spot: spot.x)
    edges = [0, *(edge for s in row for edge in (s.x, s.x + s.form.width)), asked.bays[0].width]
    return [high - low for low, high in zip(edges[::2], edges[1::2], strict=True)]


def two_kinds() -> LayoutProblem:
    return problem(thing("jug", 90, 200, count=9), thing("cup", 61, 80, count=9))


def test_an_empty_opening_stays_empty() -> None:
    asked = two_kinds()
    assert arrange(asked, asked.bays[0], [], MARGIN) == ()


def test_gaps_and_ends_are_kept_and_made_alike() -> None:
    # 714 - 3 x 90 - 2 x 61 = 322 over four gaps and two ends, all above their least
    asked = two_kinds()
    free = gaps(asked, stood(asked, 0, 0, 0, 1, 1))
    assert sum(free) == 322 * TICKS_PER_MM
    assert min(free) == sum(free) // 6
    assert max(free) - min(free) < 6


def test_a_row_that_just_fits_has_its_least_gaps() -> None:
    # 7 x 90 + 6 x 9 + 2 x 15 = 714
    asked = problem(thing("jug", 90, 200, count=7, gap="9"))
    assert gaps(asked, stood(asked, *[0] * 7)) == [MARGIN, *[9 * TICKS_PER_MM] * 6, MARGIN]


def test_a_kind_with_a_gap_of_its_own_keeps_it_exactly() -> None:
    asked = problem(thing("book", 30, 200, count=4, gap="0"), thing("cup", 60, 80))
    row = sorted(stood(asked, 0, 0, 0, 0, 1), key=lambda spot: spot.x)
    books = [spot for spot in row if spot.kind == 0]
    assert all(b.x == a.x + a.form.width for a, b in pairwise(books))
    assert min(gaps(asked, tuple(row))[1:-1]) == 0
    (between,) = [b.x - a.x - a.form.width for a, b in pairwise(row) if a.kind != b.kind]
    assert between >= GAP


def test_a_single_thing_stands_in_the_middle() -> None:
    asked = two_kinds()
    left, right = gaps(asked, stood(asked, 0))
    assert left == right == (714 - 90) * TICKS_PER_MM // 2


def test_the_tallest_stands_in_the_middle_and_the_others_fall_to_both_sides() -> None:
    asked = problem(*(thing(f"jug {h}", 80, h) for h in (120, 200, 160, 180, 140)))
    row = sorted(stood(asked, 0, 1, 2, 3, 4), key=lambda spot: spot.x)
    high = [spot.form.height // TICKS_PER_MM for spot in row]
    assert high[2] == 200
    assert high[:3] == sorted(high[:3])
    assert high[2:] == sorted(high[2:], reverse=True)


def test_things_of_a_kind_and_of_a_group_stay_side_by_side() -> None:
    asked = problem(
        thing("jug", 60, 200, group="set"),
        thing("vase", 60, 190),
        thing("cup", 60, 80, group="set"),
        thing("bowl", 60, 90, count=2),
    )
    row = sorted(stood(asked, 0, 1, 2, 3, 3), key=lambda spot: spot.x)
    kinds = [spot.kind for spot in row]
    assert abs(kinds.index(0) - kinds.index(2)) == 1
    assert abs(kinds.index(3) - (len(kinds) - 1 - kinds[::-1].index(3))) == 1


def form_with(asked: LayoutProblem, **wanted: object) -> Form:
    return next(
        form
        for form in asked.kinds[0].forms
        if all(getattr(form, name) == value for name, value in wanted.items())
    )


def test_a_rear_row_stands_on_a_riser_of_half_the_front_ones_height() -> None:
    # 2 x 60 + 10 = 130 of 194 mm, centred: 32 in front; the rear row 60 + 10 further back
    asked = problem(thing("cup", 60, 80, count=2, rows=2))
    form = form_with(asked, rows=2)
    front, rear = arrange(asked, asked.bays[0], [(form, 2)], MARGIN)
    assert (front.row, rear.row) == (1, 2)
    assert (front.y, rear.y) == (0, 40 * TICKS_PER_MM)
    assert front.x == rear.x
    assert rear.z - front.z == 70 * TICKS_PER_MM
    assert front.z == asked.bays[0].front + (asked.bays[0].deep - 130 * TICKS_PER_MM) // 2


def test_a_pile_stands_on_itself() -> None:
    asked = problem(thing("plate", 100, 20, count=3, stack=3))
    form = form_with(asked, stack=3, things=3)
    pile = arrange(asked, asked.bays[0], [(form, 3)], MARGIN)
    assert [spot.y for spot in pile] == [0, 20 * TICKS_PER_MM, 40 * TICKS_PER_MM]
    assert [spot.on for spot in pile] == [None, 0, 1]
    assert len({(spot.x, spot.z) for spot in pile}) == 1


def test_the_order_in_which_places_are_given_does_not_matter() -> None:
    asked = problem(*(thing(f"jug {h}", 80 + h // 10, h) for h in (120, 200, 160, 180, 140)))
    spots = stood(asked, 0, 1, 2, 3, 4)
    assert spots == stood(asked, 0, 1, 2, 3, 4)
    assert spots == stood(asked, 3, 1, 4, 0, 2)


@pytest.mark.parametrize(("bowl", "apart"), [(104, True), (105, False)])
def test_things_of_a_kind_go_to_both_ends_only_where_the_gaps_are_there(
    bowl: int, apart: bool
) -> None:
    # of 714 - 2 x 15 = 684 mm 7 x 80 + 10 + 104 with the books side by side, and 10 more for
    # the gap on the bowl's other side
    asked = problem(thing("book", 80, 200, gap="0", count=7), thing("bowl", bowl, 80))
    forms = [asked.kinds[kind].forms[0] for kind in [0] * 7 + [1]]

    spots = arrange_apart(asked, asked.bays[0], [(form, 1) for form in forms], MARGIN)

    row = sorted(spots, key=lambda spot: spot.x)
    assert (row[0].kind == row[-1].kind == 0) is apart
    free = gaps(asked, spots)
    assert min(free[0], free[-1]) >= MARGIN
    for a, b, gap in zip(row, row[1:], free[1:], strict=False):
        assert gap >= (0 if a.kind == b.kind else GAP)
