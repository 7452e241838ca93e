"""What a finished option looks like, counted from its cases alone, nothing taken from the model.

Places, groups of lines, steps and outlines are those of the order of wishes: a *place* is floor
space, so that a stack or rows deep are one place, and bays that share shelf lines have one set of
heights.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import floor

from solver.job.job import Job
from solver.plan.built import Bay, BayName, CasePlan, Opening, Placement, SharedLines
from solver.units import Ticks

Spot = tuple[str, int, int]
"""(case, bay from 1, opening)."""
Heights = tuple[Ticks, ...]
"""Clear heights, the lowest opening first [tick]."""


def openings_at(cases: Sequence[CasePlan]) -> Iterator[tuple[Spot, Bay, Opening]]:
    """All openings from left to right and from the lowest up, each with where it is."""
    for case in cases:
        for bay in case.bays:
            for opening in bay.openings:
                yield (case.name, bay.number, opening.index), bay, opening


def is_place(thing: Placement) -> bool:
    """Whether a thing stands on the shelf in the front row: each such is one place."""
    return thing.row == 1 and thing.on is None


def room_over(opening: Opening) -> Ticks | None:
    """Clear height less the highest top of what stands there; None in an empty opening [tick]."""
    tops = [thing.y + thing.height for thing in opening.items]
    return opening.height - max(tops) if tops else None


@dataclass(frozen=True)
class LineGroup:
    """Bays whose shelves lie on common lines, and the heights that are scored once for them."""

    bays: tuple[BayName, ...]
    step: Ticks
    """Marking step of their shelves [tick]."""
    heights: tuple[Heights, ...]
    """Of the bays that use all lines; several only where floors or tops differ."""


def line_groups(
    job: Job, cases: Sequence[CasePlan], lines: Sequence[SharedLines]
) -> tuple[LineGroup, ...]:
    """Return the groups from left to right; a bay that shares no lines is one by itself."""
    members = {bay: index for index, group in enumerate(lines) for bay in group.bays}
    grouped: dict[object, list[tuple[CasePlan, Bay]]] = defaultdict(list)
    for case in cases:
        for bay in case.bays:
            name = (case.name, bay.number)
            grouped[members.get(name, name)].append((case, bay))
    return tuple(_line_group(job, some) for some in grouped.values())


def _line_group(job: Job, some: Sequence[tuple[CasePlan, Bay]]) -> LineGroup:
    most = max(len(bay.shelves) for _, bay in some)
    whole = [bay for _, bay in some if len(bay.shelves) == most]
    heights = (tuple(opening.height for opening in bay.openings) for bay in whole)
    steps = (marking_step(job, case.name) for case, _ in some)
    return LineGroup(
        bays=tuple((case.name, bay.number) for case, bay in some),
        step=max(steps),
        heights=tuple(dict.fromkeys(heights)),
    )


def marking_step(job: Job, case: str) -> Ticks:
    """Shelves of the case move by this: the marking step, or the pitch of its pins [tick]."""
    of_case = job.case(case)
    return of_case.pin_pitch if of_case.fixing == "pins" else job.head.marking_step


def steps_of(heights: Heights) -> tuple[Ticks, ...]:
    """How much lower each opening is than the one below it [tick]."""
    return tuple(low - high for low, high in pairwise(heights))


STEPS_FROM = 3
"""Openings from which on the steps are scored [-]."""


def scored_steps(groups: Iterable[LineGroup]) -> tuple[tuple[Ticks, ...], ...]:
    """Return the steps of every group that has three openings or more [tick]."""
    return tuple(
        steps_of(heights)
        for group in groups
        for heights in group.heights
        if len(heights) >= STEPS_FROM
    )


@dataclass(frozen=True)
class Standing:
    """Where the things of one kind, heading or group stand."""

    name: str
    spots: tuple[Spot, ...]
    """Openings, from left to right and from the lowest up."""
    skipped: int = 0
    """Openings passed over between the lowest and the highest of a bay; of kinds always 0 [-]."""

    @property
    def parted(self) -> int:
        """Openings used beyond one, and those passed over [-]."""
        return len(self.spots) - 1 + self.skipped


def kinds_standing(cases: Sequence[CasePlan]) -> tuple[Standing, ...]:
    """Return where each kind stands, in whatever form; what is left out is not in it."""
    spots: dict[str, list[Spot]] = defaultdict(list)
    for spot, _, opening in openings_at(cases):
        for name in dict.fromkeys(thing.item for thing in opening.items):
            spots[name].append(spot)
    return tuple(Standing(name, tuple(where)) for name, where in spots.items())


def headings_standing(job: Job, cases: Sequence[CasePlan]) -> tuple[Standing, ...]:
    """Return where the things of each heading of the list, and of each written group, stand."""
    found = {one.name: one.spots for one in kinds_standing(cases)}
    members: dict[tuple[str, str], list[str]] = defaultdict(list)
    for item in job.items:
        if item.heading is not None:
            members["heading", item.heading].append(item.name)
        if item.group is not None:
            members["group", item.group].append(item.name)
    order = {spot: at for at, (spot, _, _) in enumerate(openings_at(cases))}
    standing = []
    for (_, name), kinds in members.items():
        used = {spot for kind in kinds for spot in found.get(kind, ())}
        if used:
            spots = tuple(sorted(used, key=order.__getitem__))
            standing.append(Standing(name, spots, _skipped(spots)))
    return tuple(standing)


def _skipped(spots: Sequence[Spot]) -> int:
    """Openings between the lowest and the highest of each bay that are not used [-]."""
    of_bay: dict[BayName, list[int]] = defaultdict(list)
    for case, bay, opening in spots:
        of_bay[case, bay].append(opening)
    return sum(max(used) - min(used) + 1 - len(used) for used in of_bay.values())


def places_parted(job: Job, cases: Sequence[CasePlan]) -> int:
    """How often headings, groups and kinds are parted, added up [-]."""
    standing = (*headings_standing(job, cases), *kinds_standing(cases))
    return sum(one.parted for one in standing)


def odd_kinds(opening: Opening) -> int:
    """Kinds with an odd number of places beyond the one that can stand in the middle [-]."""
    places = Counter(thing.item for thing in opening.items if is_place(thing))
    return max(0, sum(number % 2 for number in places.values()) - 1)


FEW = 3
"""Things of a kind from which on a single one stands alone [-]."""


def alone(counts: Mapping[str, int], cases: Sequence[CasePlan]) -> tuple[tuple[str, Spot], ...]:
    """Return the single things of kinds of three or more that stand apart from the others.

    `counts` says how many there are of each kind [-].
    """
    several = {one.name for one in kinds_standing(cases) if len(one.spots) > 1}
    found = []
    for spot, _, opening in openings_at(cases):
        here = Counter(thing.item for thing in opening.items)
        found += [
            (name, spot)
            for name, number in here.items()
            if number == 1 and name in several and counts[name] >= FEW
        ]
    return tuple(found)


def outline_missed(cases: Sequence[CasePlan]) -> float:
    """How far the rows are from mirror images [%], to 0.1, half up.

    For each opening that is not empty: the area between the outline of its front row and the
    outline's mirror image about the bay's middle, over twice the outline's area; the mean of all.
    """
    shares = [
        _outline_share(bay.inside.width, opening)
        for _, bay, opening in openings_at(cases)
        if opening.items
    ]
    if not shares:
        return 0.0
    return floor(1000 * sum(shares, Fraction(0)) / len(shares) + Fraction(1, 2)) / 10


def _outline_share(width: Ticks, opening: Opening) -> Fraction:
    front = [thing for thing in opening.items if thing.row == 1]
    sides = {x for thing in front for x in (thing.x, thing.x + thing.width)}
    cuts = sorted({0, width, *sides, *(width - x for x in sides)})
    apart = area = 0
    for left, right in pairwise(cuts):
        here, there = _top_over(front, left, right), _top_over(front, width - right, width - left)
        apart += abs(here - there) * (right - left)
        area += here * (right - left)
    return Fraction(apart, 2 * area) if area else Fraction(0)


def _top_over(things: Iterable[Placement], left: Ticks, right: Ticks) -> Ticks:
    """Highest top over a stretch that no side of a thing divides [tick]."""
    tops = (one.y + one.height for one in things if one.x <= left and right <= one.x + one.width)
    return max(tops, default=0)
