"""What the page's own program must know of a plan: whole numbers, ready for JSON.

Lengths are ticks. Of each opening the page knows how low and how high it may become, so
that it needs no rule of its own: what a thing needs is its top and the `asked` above it.
Shelves on one line, in bays that share their lines, move together.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import Any

from solver.carcass.thickness_band import gains_if_thin
from solver.job.case import Case
from solver.job.job import Job
from solver.plan.built import Bay, BayName, CasePlan, Opening
from solver.plan.plan import Option, Plan
from solver.plan.stage_units import RHYTHM_STAGES
from solver.units import Ticks

Facts = dict[str, Any]


def page_facts(plan: Plan) -> Facts:
    """Return all that the page's program is given; options without a layout are left off."""
    job, look = plan.job, plan.job.look
    return {
        "unit": plan.unit,
        "eye": look.eye_level,
        "options": [
            _option(job, option, first=at == 0)
            for at, option in enumerate(one for one in plan.options if one.cases)
        ],
    }


def _option(job: Job, option: Option, *, first: bool) -> Facts:
    bays, lines = placed_bays(option), line_counts(option)
    return {
        "name": option.name,
        "first": first,
        "rhythm": _rhythm(job, option),
        "parted": 0 if option.scores is None else option.scores.places_parted,
        "bays": [
            _bay(job, one, many=len(bays) > 1, several=len(option.cases) > 1)
            | {"lined": len(one.bay.shelves) == lines.get(one.name, len(one.bay.shelves))}
            for one in bays
        ],
        "groups": _groups(option),
        "lines": [
            {"shelves": list(line), "fixed": _is_fixed(job, bays, line)}
            for line in shelf_lines(option)
        ],
    }


def _rhythm(job: Job, option: Option) -> Facts:
    """The stage that tells the rhythm of the option, and what it is counted by."""
    named = {name for rows in RHYTHM_STAGES.values() for row in rows for name in row}
    found = [stage.name for stage in option.stages if stage.name in named]
    return {
        "stage": found[0] if found else RHYTHM_STAGES[job.look.rhythm][0][0],
        "step": job.look.step,
        "upward": job.look.tallest == "top",
    }


def _groups(option: Option) -> list[list[int]]:
    """Indices of the bays that share their lines; any other bay is by itself."""
    group_of = {bay: g for g, group in enumerate(option.lines) for bay in group.bays}
    groups: dict[object, list[int]] = defaultdict(list)
    for one in placed_bays(option):
        groups[group_of.get(one.name, one.name)].append(one.index)
    return list(groups.values())


def line_counts(option: Option) -> dict[BayName, int]:
    """How many shelf lines the bays that share some have [-]."""
    return {bay: len(group.heights) for group in option.lines for bay in group.bays}


def _bay(job: Job, one: PlacedBay, *, many: bool, several: bool) -> Facts:
    """One bay; there are `many` of them, in `several` cases."""
    case, bay = job.case(one.case.name), one.bay
    last = bay.openings[-1]
    pins = case.fixing == "pins"
    return {
        "case": case.name,
        "number": bay.number,
        "bays": len(one.case.bays),
        "label": _label(one, several=several) if many else "",
        "above": one.case.above_floor,
        "floor": bay.openings[0].floor,
        "top": last.floor + last.height,
        "first": case.first_hole if pins else 0,
        "step": case.pin_pitch if pins else job.head.marking_step,
        "marks": [shelf.underside for shelf in bay.shelves],
        "thick": [shelf.thickness for shelf in bay.shelves],
        "openings": [_opening(job, case, opening, len(bay.shelves)) for opening in bay.openings],
    }


def _label(one: PlacedBay, *, several: bool) -> str:
    if len(one.case.bays) == 1:
        return one.case.name
    return f"{one.case.name}, bay {one.bay.number}" if several else f"Bay {one.bay.number}"


def _opening(job: Job, case: Case, opening: Opening, shelves: int) -> Facts:
    look = job.look
    gain = gains_if_thin(job, case)
    more = gain[2] if opening.index == shelves else gain[0] if opening.index == 0 else gain[1]
    lift = opening.lip_above_floor + look.lift if opening.lip_above_floor else 0
    return {
        "least": look.clear_least,
        "most": None if look.clear_most is None else look.clear_most - more,
        "asked": max(look.headroom, lift),
        "below": opening.lip_below_ceiling,
        "things": [{"name": thing.item, "top": thing.y + thing.height} for thing in opening.items],
    }


def _is_fixed(job: Job, bays: tuple[PlacedBay, ...], line: tuple[tuple[int, int], ...]) -> bool:
    """Whether a shelf of the line is there already and fixed in its place."""
    there = {one.name for one in job.have if one.what == "fixed"}
    return any(bays[bay].bay.shelves[at].part in there for bay, at in line)


@dataclass(frozen=True)
class PlacedBay:
    """A bay where it stands: its case, and its number over the whole option from 0 [-]."""

    index: int
    case: CasePlan
    bay: Bay

    @property
    def name(self) -> BayName:
        """The name of its case, and its number in it."""
        return self.case.name, self.bay.number


def placed_bays(option: Option) -> tuple[PlacedBay, ...]:
    """All bays of an option from left to right."""
    bays = [(case, bay) for case in option.cases for bay in case.bays]
    return tuple(PlacedBay(index, *both) for index, both in enumerate(bays))


def shelf_lines(option: Option) -> tuple[tuple[tuple[int, int], ...], ...]:
    """Return the shelf lines, lowest first, each as (bay index, place of its shelf in the bay).

    In bays that share their lines, shelves whose upper faces are equally high above the floor
    are on one line; any other bay has a line for each of its shelves.
    """
    group_of = {bay: g for g, group in enumerate(option.lines) for bay in group.bays}
    lines: dict[tuple[object, Ticks], list[tuple[int, int]]] = defaultdict(list)
    for place in placed_bays(option):
        for at, shelf in enumerate(place.bay.shelves):
            height = place.case.above_floor + shelf.top
            lines[group_of.get(place.name, place.name), height].append((place.index, at))
    ordered = sorted(lines.items(), key=lambda one: (one[1][0][0], one[0][1]))
    return tuple(tuple(members) for _, members in ordered)
