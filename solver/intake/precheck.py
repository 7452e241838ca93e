"""What is known before solving: clear heights of even spacing, and things that fit no case."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.carcass.boards_of_case import Box, box
from solver.carcass.settled_job import largest_job, most_of
from solver.job.case import Case
from solver.job.inventory import Item
from solver.job.job import Job, size_allowance
from solver.units import Ticks, with_unit

Sides = tuple[Ticks, Ticks, Ticks]


@dataclass(frozen=True)
class Misfit:
    """A kind of thing that no case of the job can take, however its shelves are placed.

    Attributes
    ----------
    item
        Its name.
    short
        What is missing in width, height and depth where it nearly fits; 0 where it fits [tick].
    case
        Name of that case.
    """

    item: str
    short: Sides
    case: str

    def text(self, job: Job) -> str:
        """Say what does not fit and by how much."""
        parts = [
            f"{with_unit(length, job.unit)} too {word}"
            for length, word in zip(self.short, ("wide", "high", "deep"), strict=True)
            if length
        ]
        return f"{self.item!r} cannot stand in case {self.case!r}: {', '.join(parts)}"


def even_clear(inside: Ticks, shelves: int, thickness: Ticks) -> Ticks:
    """Clear height of each opening with `shelves` boards spaced evenly, rounded down [tick].

    The clear height of the case less the boards, shared between one opening more than
    there are boards; below zero where the boards alone are higher than the case.
    """
    return (inside - shelves * thickness) // (shelves + 1)


def deepest_box(job: Job, case: Case) -> Box:
    """Sizes of a case at the largest sizes it may have, with the fewest bays."""
    return box(job, largest_job(job).case(case.name), most_of(job, case).depth)


def misfits(job: Job) -> tuple[Misfit, ...]:
    """Return the kinds of things that fit no case of the job.

    Each is tried by itself in a bay without shelves, in every way it may lie, with the
    end margins, headroom and front margin of the job.
    """
    boxes = [(case.name, deepest_box(job, case)) for case in job.cases]
    tried = (_misfit(job, item, boxes) for item in job.items)
    return tuple(misfit for misfit in tried if misfit is not None)


def _misfit(job: Job, item: Item, boxes: list[tuple[str, Box]]) -> Misfit | None:
    tries = [
        Misfit(item.name, _missing(job, sizes, room), name)
        for name, room in boxes
        for sizes in _ways(job, item)
    ]
    best = min(tries, key=lambda misfit: sum(misfit.short))
    return best if any(best.short) else None


def _ways(job: Job, item: Item) -> Iterator[Sides]:
    """Yield width, height and depth for each way in which a thing may stand or lie."""
    extra = size_allowance(job, item)
    width, height, depth = item.width + extra, item.height + extra, item.depth + extra
    yield width, height, depth
    if item.may_lie:
        yield height, width, depth
        yield width, depth, height


def _missing(job: Job, sizes: Sides, room: Box) -> Sides:
    width, height, depth = sizes
    widest = max(clear for _, clear in room.bays)
    return (
        max(0, width + 2 * job.look.end_margin - widest),
        max(0, height + job.look.headroom - room.inside_height),
        max(0, depth + job.look.front_margin - room.depth),
    )
