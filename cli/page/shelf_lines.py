"""Which shelves move together: those that lie on one line, where the job asks for lines."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from solver.built import Bay, CasePlan, Shelf
from solver.job import Job
from solver.plan import Option
from solver.units import Ticks

NO_COMMON = "shelf lines not shared: no common"
"""How the note of an option begins whose bays keep lines of their own although they should not."""


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


def shares_lines(job: Job, option: Option) -> bool:
    """Whether neighbouring bays of the option keep common shelf lines."""
    return job.look.share_lines and not any(n.startswith(NO_COMMON) for n in option.notes)


def shelf_lines(job: Job, option: Option) -> tuple[tuple[tuple[int, int], ...], ...]:
    """Return the shelf lines, lowest first, each as (bay index, place of its shelf in the bay).

    Shelves of one family of bays (a case's own, and those of cases beside it) are on one
    line where their upper faces are equally high above the floor.
    """
    families = _families(job)
    shared = shares_lines(job, option)
    found: dict[tuple[str, Ticks], list[tuple[int, int]]] = defaultdict(list)
    for place in standing(option):
        family = families[place.case.name] if shared else f"{place.index}"
        for at, shelf in enumerate(place.bay.shelves):
            found[family, _height(place.case, shelf)].append((place.index, at))
    ordered = sorted(found.items(), key=lambda one: (one[1][0][0], one[0][1]))
    return tuple(tuple(members) for _, members in ordered)


def _height(case: CasePlan, shelf: Shelf) -> Ticks:
    return case.above_floor + shelf.top


def _families(job: Job) -> dict[str, str]:
    """The name that stands for each case and all that are beside it."""
    head = {case.name: case.name for case in job.cases}
    for case in job.cases:
        if case.beside is not None:
            mine, theirs = head[case.name], head[case.beside]
            head = {name: theirs if of == mine else of for name, of in head.items()}
    return head
