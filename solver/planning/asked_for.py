"""What the client asked for by name, and which things miss it, counted from the finished cases."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from solver.job.inventory import Item
from solver.job.job import Job
from solver.layout.problem_from_job import FRAGILE_FLOOR, FRAGILE_FLOOR_WITH_CHILDREN
from solver.plan.built import Bay, CasePlan, Opening, Placement
from solver.units import Ticks, inches

HERO_LEAST: Ticks = inches(57)
HERO_MOST: Ticks = inches(64)
"""A hero's middle is between these above the room's floor [tick]."""


@dataclass(frozen=True)
class Missed:
    """Things of a kind that miss one thing that was asked for."""

    item: str
    asked: str
    """What was asked, as it follows on the name: "low down", "all on one shelf"."""
    count: int


def missed(job: Job, cases: Sequence[CasePlan]) -> tuple[Missed, ...]:
    """Return what is missed, kind by kind in the order of the list."""
    stood: dict[str, list[Stood]] = defaultdict(list)
    for case in cases:
        for bay in case.bays:
            for opening in bay.openings:
                for thing in opening.items:
                    stood[thing.item].append(Stood(case, bay, opening, thing))
    found = (one for item in job.items for one in _missed(job, item, stood[item.name]))
    return tuple(one for one in found if one.count)


@dataclass(frozen=True)
class Stood:
    """A thing where it stands."""

    case: CasePlan
    bay: Bay
    opening: Opening
    thing: Placement

    @property
    def floor(self) -> Ticks:
        """Of its shelf above the room's floor [tick]."""
        return self.case.above_floor + self.opening.floor

    @property
    def middle_twice(self) -> Ticks:
        """Twice the height of its middle above the room's floor [tick]."""
        return 2 * (self.floor + self.thing.y) + self.thing.height


def _missed(job: Job, item: Item, stood: Sequence[Stood]) -> tuple[Missed, ...]:
    def count(misses: Callable[[Stood], bool]) -> int:
        return sum(map(misses, stood))

    return (
        Missed(item.name, _where_words(item), count(lambda one: _elsewhere(job, item, one))),
        Missed(item.name, "all on one shelf", _outside_fullest(stood) if item.together else 0),
        Missed(item.name, "at the height of the eye", count(_off_eye) if item.hero else 0),
        Missed(item.name, "off the low shelves", count(_low(job)) if item.fragile else 0),
    )


def _where_words(item: Item) -> str:
    if isinstance(item.where, int):
        return f"on shelf {item.where}" if item.where else "on the bottom"
    words = {"low": "low down", "eye": "at eye level", "top": "at the top"}
    return words.get(item.where or "", "")


def _elsewhere(job: Job, item: Item, one: Stood) -> bool:
    if item.where is None:
        return False
    if isinstance(item.where, int):
        return one.opening.index != item.where
    top = len(one.bay.openings) - 1
    eye = eye_opening(job, one.case.above_floor, one.bay)
    return one.opening.index != {"low": 0, "eye": eye, "top": top}[item.where]


def eye_opening(job: Job, above_floor: Ticks, bay: Bay) -> int:
    """The opening at eye level: the last whose floor is not above it."""
    below = [o.index for o in bay.openings if above_floor + o.floor <= job.look.eye_level]
    return max(below, default=0)


def _outside_fullest(stood: Sequence[Stood]) -> int:
    spots = Counter((one.case.name, one.bay.number, one.opening.index) for one in stood)
    return len(stood) - max(spots.values(), default=0)


def _off_eye(one: Stood) -> bool:
    return not 2 * HERO_LEAST <= one.middle_twice <= 2 * HERO_MOST


def _low(job: Job) -> Callable[[Stood], bool]:
    children = job.ground.children is True
    least = FRAGILE_FLOOR_WITH_CHILDREN if children else FRAGILE_FLOOR
    return lambda one: one.floor < least
