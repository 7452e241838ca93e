"""The boards of a case seen from the front, from the plan alone."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from cli.drawings.primitives import Path, Point, rectangle
from solver.built import Bay, CasePlan
from solver.units import Ticks, to_mm


def board_thickness(case: CasePlan) -> Ticks:
    """Thickness of the sides, top and bottom [tick]: the first bay starts behind it."""
    return case.bays[0].x


def ceiling(bay: Bay) -> Ticks:
    """Underside of the top above the bottom end of the sides [tick]."""
    last = bay.openings[-1]
    return last.floor + last.height


def _span(low: Ticks, high: Ticks) -> Point:
    return to_mm(low), to_mm(high)


def front_boards(case: CasePlan) -> Iterator[Path]:
    """Yield sides, top, bottom, toe, uprights, shelves and lips as seen from the front."""
    t, wide, high = board_thickness(case), case.outside.width, case.outside.height
    floor, top = case.bays[0].openings[0].floor, ceiling(case.bays[0])
    inside = _span(t, wide - t)
    yield rectangle(_span(0, t), _span(0, high), "outline", filled=True)
    yield rectangle(_span(wide - t, wide), _span(0, high), "outline", filled=True)
    yield rectangle(inside, _span(top, high), "outline", filled=True)
    yield rectangle(inside, _span(floor - t, floor), "outline", filled=True)
    if floor > t:
        yield rectangle(inside, _span(0, floor - t), "outline", filled=True)
    for left, right in pairwise(case.bays):
        x = _span(left.x + left.inside.width, right.x)
        yield rectangle(x, _span(floor, top), "outline", filled=True)
    for bay in case.bays:
        yield from shelf_fronts(bay)


def shelf_fronts(bay: Bay) -> Iterator[Path]:
    """Yield the shelves of a bay, and the lip before each where there is one."""
    x = _span(bay.x, bay.x + bay.inside.width)
    for shelf in bay.shelves:
        yield rectangle(x, _span(shelf.underside, shelf.top), "outline", filled=True)
        above = bay.openings[shelf.index].lip_above_floor
        below = bay.openings[shelf.index - 1].lip_below_ceiling
        if above or below:
            y = _span(shelf.underside - below, shelf.top + above)
            yield rectangle(x, y, "outline", filled=True)
