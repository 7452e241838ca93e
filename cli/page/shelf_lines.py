"""Which shelves move together: those that lie on one line in bays that share their lines."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from solver.built import Bay, CasePlan
from solver.plan import Option
from solver.units import Ticks


@dataclass(frozen=True)
class Standing:
    """A bay where it stands: its case, and its number over the whole option from 0 [-]."""

    index: int
    case: CasePlan
    bay: Bay


def standing(option: Option) -> tuple[Standing, ...]:
    """All bays of an option from left to right."""
    bays = [(case, bay) for case in option.cases for bay in case.bays]
    return tuple(Standing(index, *both) for index, both in enumerate(bays))


def shelf_lines(option: Option) -> tuple[tuple[tuple[int, int], ...], ...]:
    """Return the shelf lines, lowest first, each as (bay index, place of its shelf in the bay).

    In bays that share their lines, shelves whose upper faces are equally high above the floor
    are on one line; any other bay has a line for each of its shelves.
    """
    group_of = {bay: g for g, group in enumerate(option.lines) for bay in group.bays}
    found: dict[tuple[object, Ticks], list[tuple[int, int]]] = defaultdict(list)
    for place in standing(option):
        name = (place.case.name, place.bay.number)
        for at, shelf in enumerate(place.bay.shelves):
            height = place.case.above_floor + shelf.top
            found[group_of.get(name, name), height].append((place.index, at))
    ordered = sorted(found.items(), key=lambda one: (one[1][0][0], one[0][1]))
    return tuple(tuple(members) for _, members in ordered)
