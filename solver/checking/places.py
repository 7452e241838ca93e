"""Places of an opening: floor space of one thing, with what stands on it and behind it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from solver.checking.items import front
from solver.checking.views import OpeningView, OptionView
from solver.job.inventory import Item
from solver.plan.built import Placement
from solver.units import Ticks


@dataclass(frozen=True)
class Place:
    """One place of the front row."""

    item: str
    x: Ticks
    width: Ticks
    top: Ticks
    """Highest top of what it holds, from the opening's floor [tick]."""


def places(view: OpeningView) -> list[Place]:
    """The places of an opening from the left: a stack, or rows deep, is one."""
    found = [_place(view, thing) for thing in front(view)]
    return sorted(found, key=lambda place: (place.x, place.item))


def _place(view: OpeningView, first: Placement) -> Place:
    held = (
        thing
        for thing in view.opening.items
        if thing.item == first.item
        and thing.x < first.x + first.width
        and first.x < thing.x + thing.width
    )
    top = max(thing.y + thing.height for thing in held)
    return Place(first.item, first.x, first.width, top)


def front_row(view: OpeningView) -> list[Placement]:
    """The things of the front row, those that stand on others too."""
    return [thing for thing in view.opening.items if thing.row == 1]


def top_of(view: OpeningView) -> Ticks | None:
    """Highest top of what stands in an opening; None where nothing does [tick]."""
    return max((thing.y + thing.height for thing in view.opening.items), default=None)


def rooms(openings: Iterator[OpeningView]) -> list[Ticks]:
    """Room over the tallest thing of each opening that holds any [tick]."""
    tops = ((view.opening.height, top_of(view)) for view in openings)
    return [height - top for height, top in tops if top is not None]


Spot = tuple[str, int, int]
"""Case, bay and opening."""


def spot(view: OpeningView) -> Spot:
    """Name of an opening over the whole option."""
    return view.bay.case.plan.name, view.bay.bay.number, view.opening.index


def spots_of_kinds(view: OptionView) -> dict[str, Counter[Spot]]:
    """How many of each kind stand in each opening, by the name of the kind."""
    found: dict[str, Counter[Spot]] = {item.name: Counter() for item in view.job.items}
    for opening in view.openings:
        for _thing, item in opening.things:
            found[item.name][spot(opening)] += 1
    return found


def placed(view: OptionView) -> Iterator[tuple[OpeningView, Placement, Item]]:
    """Every thing that has a place, with its opening and its kind."""
    return ((o, thing, item) for o in view.openings for thing, item in o.things)


def above_room_floor(view: OpeningView) -> Ticks:
    """Height of an opening's floor above the room's floor [tick]."""
    return view.bay.case.plan.above_floor + view.opening.floor


def twice_middle(view: OpeningView, thing: Placement) -> int:
    """Twice the height of a thing's middle above the room's floor [tick]."""
    return 2 * (above_room_floor(view) + thing.y) + thing.height
