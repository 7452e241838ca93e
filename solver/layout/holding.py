"""What is held in a layout, and where things were before, in the model's own numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from solver.holds import Hold
from solver.job import Job

if TYPE_CHECKING:
    from solver.layout.shapes import BayShape

Spot = tuple[int, int]
"""(bay, opening), or (bay, shelf from 1)."""


@dataclass(frozen=True)
class MarkHeld:
    """A shelf kept at a mark; `mark` counts marking steps, as in the bay's shape.

    `bay` is -1 where there is no such bay.
    """

    bay: int
    shelf: int
    mark: int


@dataclass(frozen=True)
class ThingsHeld:
    """At least `least` things of a kind kept in these openings together."""

    kind: int
    openings: tuple[Spot, ...]
    least: int


@dataclass(frozen=True)
class Before:
    """The layout that is to change as little as possible.

    Attributes
    ----------
    marks
        ((bay, shelf), mark number); shelves that were not there before are not in it.
    things
        ((kind, bay, opening), how many stood there).
    """

    marks: tuple[tuple[Spot, int], ...]
    things: tuple[tuple[tuple[int, int, int], int], ...]


@dataclass(frozen=True)
class Holding:
    """Everything that is held, one entry a hold, in the order of the job's holds.

    `fixed` keeps all marks of `before`, `stay` all its things, each where it was.
    """

    held: tuple[MarkHeld | ThingsHeld, ...] = ()
    before: Before | None = None
    fixed: bool = False
    stay: bool = False

    @property
    def anything(self) -> bool:
        """True where a hold, or a layout before this one, is to be looked at."""
        return bool(self.held) or self.before is not None


def holding_of(job: Job, bays: Sequence[BayShape]) -> Holding:
    """Return the job's holds for bays of certain shelf counts."""
    return Holding(tuple(_held(job, bays, hold) for hold in job.holds))


def _held(job: Job, bays: Sequence[BayShape], hold: Hold) -> MarkHeld | ThingsHeld:
    homes = [b for b, shape in enumerate(bays) if _is_there(job, shape, hold)]
    if hold.mark is not None and hold.shelf is not None:
        if not homes:
            return MarkHeld(-1, hold.shelf, 0)
        shape = bays[homes[0]]
        return MarkHeld(homes[0], hold.shelf, (hold.mark - shape.offset) // shape.step)
    kind = [item.name for item in job.items].index(str(hold.item))
    opening = int(hold.opening or 0)
    spots = tuple((b, opening) for b in homes if opening < bays[b].openings)
    return ThingsHeld(kind, spots, hold.count or job.items[kind].count)


def _is_there(job: Job, shape: BayShape, hold: Hold) -> bool:
    """Whether a bay is one that the hold speaks of."""
    if hold.case is not None and job.cases[shape.case].name != hold.case:
        return False
    return hold.bay is None or shape.number == hold.bay - 1
