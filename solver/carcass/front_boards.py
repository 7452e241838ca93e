"""The boards of a planned case as one sees them from the front, for every picture of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from solver.plan.built import Bay, CasePlan, Shelf
from solver.units import Ticks

FrontKind = Literal["side", "top", "bottom", "toe", "upright", "shelf", "lip"]


@dataclass(frozen=True)
class FrontBoard:
    """The front of one board.

    Attributes
    ----------
    x, y
        Its lower left corner, from the left bottom end of the case's sides [tick].
    width, height
        [tick]
    """

    kind: FrontKind
    x: Ticks
    y: Ticks
    width: Ticks
    height: Ticks

    @property
    def middle(self) -> Ticks:
        """How high its middle is above the bottom end of the sides [tick]."""
        return self.y + self.height // 2


def board_thickness(case: CasePlan) -> Ticks:
    """Thickness of the sides, top and bottom [tick]: the first bay starts behind it."""
    return case.bays[0].x


def ceiling(bay: Bay) -> Ticks:
    """Underside of the top above the bottom end of the sides [tick]."""
    last = bay.openings[-1]
    return last.floor + last.height


def carcass_fronts(case: CasePlan) -> Iterator[FrontBoard]:
    """Yield both sides, the top, the bottom, the toe where the bottom is raised, and uprights."""
    t, wide, high = board_thickness(case), case.outside.width, case.outside.height
    floor, top, across = case.bays[0].openings[0].floor, ceiling(case.bays[0]), wide - 2 * t
    yield FrontBoard("side", 0, 0, t, high)
    yield FrontBoard("side", wide - t, 0, t, high)
    yield FrontBoard("top", t, top, across, high - top)
    yield FrontBoard("bottom", t, floor - t, across, t)
    if floor > t:
        yield FrontBoard("toe", t, 0, across, floor - t)
    for left, right in pairwise(case.bays):
        x = left.x + left.inside.width
        yield FrontBoard("upright", x, floor, right.x - x, top - floor)


def shelf_fronts(bay: Bay, shelf: Shelf) -> tuple[FrontBoard, ...]:
    """Return a shelf of the bay, and after it the lip before it, where it has one."""
    x, wide = bay.x, bay.inside.width
    edge = FrontBoard("shelf", x, shelf.underside, wide, shelf.thickness)
    above = bay.openings[shelf.index].lip_above_floor
    below = bay.openings[shelf.index - 1].lip_below_ceiling
    if not above and not below:
        return (edge,)
    low, high = shelf.underside - below, below + shelf.thickness + above
    return edge, FrontBoard("lip", x, low, wide, high)


def front_boards(case: CasePlan) -> Iterator[FrontBoard]:
    """Yield all boards that are seen from the front, the carcass first."""
    yield from carcass_fronts(case)
    for bay in case.bays:
        for shelf in bay.shelves:
            yield from shelf_fronts(bay, shelf)
