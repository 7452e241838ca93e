"""The fronts of boards, from the plan of two bays made by hand."""

from __future__ import annotations

import pytest

from solver.carcass.front_boards import (
    FrontBoard,
    FrontKind,
    carcass_fronts,
    front_boards,
    shelf_fronts,
)
from solver.plan.built import CasePlan
from solver.units import mm
from tests.sample_plans import good_plan
from tests.two_bays_job import BAY, FLOORS, HEIGHT, INSIDE_HEIGHT, LIP_ABOVE, LIP_BELOW, WIDTH, T


@pytest.fixture(scope="module")
def case() -> CasePlan:
    (case,) = good_plan().options[0].cases
    return case


def front(kind: FrontKind, x: int, y: int, width: int, height: int) -> FrontBoard:
    """The front of a board by its sizes in millimetres."""
    return FrontBoard(kind, mm(x), mm(y), mm(width), mm(height))


def test_the_carcass_is_two_sides_and_what_stands_between_them(case: CasePlan) -> None:
    floor, ceiling = FLOORS[0], FLOORS[0] + INSIDE_HEIGHT
    inside = WIDTH - 2 * T
    assert list(carcass_fronts(case)) == [
        front("side", 0, 0, T, HEIGHT),
        front("side", WIDTH - T, 0, T, HEIGHT),
        front("top", T, ceiling, inside, HEIGHT - ceiling),
        front("bottom", T, floor - T, inside, T),
        front("toe", T, 0, inside, floor - T),
        front("upright", T + BAY, floor, T, INSIDE_HEIGHT),
    ]


def test_a_bottom_on_the_floor_has_no_toe_below_it(case: CasePlan) -> None:
    bays = tuple(
        bay.model_copy(
            update={"openings": (bay.openings[0].model_copy(update={"floor": mm(T)}),
                                 *bay.openings[1:])}
        )
        for bay in case.bays
    )  # fmt: skip
    lowered = case.model_copy(update={"bays": bays})
    assert "toe" not in [one.kind for one in carcass_fronts(lowered)]


def test_a_lip_is_seen_over_its_shelf_from_under_it_to_over_it(case: CasePlan) -> None:
    for bay in case.bays:
        for shelf in bay.shelves:
            x, mark = (length // mm(1) for length in (bay.x, shelf.underside))
            fronts = shelf_fronts(bay, shelf)
            high = LIP_BELOW + T + LIP_ABOVE
            assert fronts[0] == front("shelf", x, mark, BAY, T)
            assert fronts[1:] == (front("lip", x, mark - LIP_BELOW, BAY, high),)


def test_a_shelf_without_a_lip_is_its_edge_alone(case: CasePlan) -> None:
    plain = {"lip_above_floor": 0, "lip_below_ceiling": 0}
    bay = case.bays[0]
    openings = tuple(opening.model_copy(update=plain) for opening in bay.openings)
    (edge,) = shelf_fronts(bay.model_copy(update={"openings": openings}), bay.shelves[0])
    assert (edge.kind, edge.middle) == ("shelf", bay.shelves[0].underside + mm(T) // 2)


def test_every_board_of_the_case_is_seen_once(case: CasePlan) -> None:
    kinds = [one.kind for one in front_boards(case)]
    shelves = sum(len(bay.shelves) for bay in case.bays)
    assert kinds.count("shelf") == kinds.count("lip") == shelves
    assert kinds.count("upright") == len(case.bays) - 1
    assert len(kinds) == 5 + 2 * shelves + len(case.bays) - 1
