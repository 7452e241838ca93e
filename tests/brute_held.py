"""Trying everything for held decisions: what moves least, where a shelf could be held instead.

For the tiny jobs of :mod:`tests.brute_force` (one bay, one shelf count, things upright in one
row) without groups. A layout is a set of marks, and how many of each kind stand in each
opening; sizes and room are those of that module, worked out from the job alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, product

from solver.job.job import Job
from solver.layout.layout_problem import Place
from tests.brute_force import _places, mass, room

Marks = tuple[int, ...]
Counts = tuple[tuple[int, ...], ...]
"""How many of each kind stand in each opening, kind by kind."""


@dataclass(frozen=True)
class Wish:
    """A shelf (from 1) held at a mark [tick], or at least `count` of a kind in an opening.

    Without a kind the opening is kept empty.
    """

    shelf: int | None = None
    mark: int | None = None
    kind: int | None = None
    opening: int | None = None
    count: int = 0


def all_marks(job: Job) -> Iterator[tuple[Marks, tuple[int, ...]]]:
    """Every set of marks with the clear heights, lowest first, that the job allows."""
    case, look, t = job.cases[0], job.look, job.thickness(job.cases[0].material)
    assert isinstance(case.height, int)
    floor, top = case.raised_bottom + t, case.height - t
    most = top if look.clear_most is None else look.clear_most
    for marks in combinations(_places(job, floor, top), case.shelf_counts[0]):
        floors = [floor, *(mark + t for mark in marks)]
        clear = tuple(end - start for start, end in zip(floors, [*marks, top], strict=True))
        if all(look.clear_least <= height <= most for height in clear):
            yield marks, clear


def all_counts(job: Job, openings: int, kinds: Sequence[int]) -> Iterator[Counts]:
    """Every way to stand all things of `kinds`, and any of the others, that rooms allow."""
    ways = [
        [
            split
            for split in product(range(item.count + 1), repeat=openings)
            if (item.count if k in kinds else 0) <= sum(split) <= item.count
        ]
        for k, item in enumerate(job.items)
    ]
    return (counts for counts in product(*ways) if _holds(job, counts, openings))


def _holds(job: Job, counts: Counts, openings: int) -> bool:
    """Whether depth, width and load of every opening are enough."""
    shelf, look = room(job), job.look
    for opening in range(openings):
        run = load = kinds = 0
        for item, split in zip(job.items, counts, strict=True):
            here = split[opening]
            if not here:
                continue
            extra = look.guess_allowance if item.guessed else 0
            if item.depth + extra + look.front_margin > shelf.depth:
                return False
            gap = look.gap if item.gap is None else item.gap
            run += here * (item.width + extra) + (here - 1) * gap
            load += here * mass(job, item)
            kinds += 1
        if run + max(0, kinds - 1) * look.gap > shelf.run or load > shelf.load:
            return False
    return True


def needed(job: Job, counts: Counts, openings: int) -> tuple[int, ...]:
    """Clear height that each opening must have."""
    heights = [
        item.height + (job.look.guess_allowance if item.guessed else 0) for item in job.items
    ]
    return tuple(
        max(
            (h + job.look.headroom for h, split in zip(heights, counts, strict=True) if split[k]),
            default=0,
        )
        for k in range(openings)
    )


def keeps(wishes: Sequence[Wish], marks: Marks, counts: Counts) -> bool:
    """Whether a layout keeps every wish."""
    return all(_kept(wish, marks, counts) for wish in wishes)


def _kept(wish: Wish, marks: Marks, counts: Counts) -> bool:
    if wish.shelf is not None:
        return marks[wish.shelf - 1] == wish.mark
    opening = wish.opening or 0
    if wish.kind is None:
        return not any(split[opening] for split in counts)
    return counts[wish.kind][opening] >= wish.count


def layouts(
    job: Job, wishes: Sequence[Wish], kinds: Sequence[int] | None = None
) -> Iterator[tuple[Marks, Counts]]:
    """Every layout that stands all things (of `kinds`) and keeps the wishes."""
    openings = job.cases[0].shelf_counts[0] + 1
    every = range(len(job.items)) if kinds is None else kinds
    contents = [(c, needed(job, c, openings)) for c in all_counts(job, openings, list(every))]
    for marks, clear in all_marks(job):
        for counts, needs in contents:
            fits = all(high >= need for high, need in zip(clear, needs, strict=True))
            if fits and keeps(wishes, marks, counts):
                yield marks, counts


def least_moved(
    job: Job, wishes: Sequence[Wish], before: tuple[Marks, Counts]
) -> tuple[int, int] | None:
    """Least movement of shelves [tick], then of things [-]; None where no layout does."""
    return min((moved(before, now) for now in layouts(job, wishes)), default=None)


def moved(before: tuple[Marks, Counts], now: tuple[Marks, Counts]) -> tuple[int, int]:
    """How far shelves are from where they were together, and how many things changed opening."""
    way = sum(abs(a - b) for a, b in zip(before[0], now[0], strict=True))
    gone = sum(
        max(0, old - new)
        for was, here in zip(before[1], now[1], strict=True)
        for old, new in zip(was, here, strict=True)
    )
    return way, gone


def marks_that_work(job: Job, shelf: int, others: Sequence[Wish]) -> list[int]:
    """Every mark of a shelf with which everything fits and the other wishes are kept."""
    return sorted({marks[shelf - 1] for marks, _ in layouts(job, others)})


def goes(job: Job, wishes: Sequence[Wish], kinds: Sequence[int]) -> bool:
    """Whether there is a layout that keeps the wishes and stands all things of `kinds`."""
    return next(layouts(job, wishes, kinds), None) is not None


def counts_of(job: Job, places: Mapping[tuple[int, int], Sequence[Place]]) -> Counts:
    """What stands where, as the program's layout has it (forms and things by opening)."""
    openings = job.cases[0].shelf_counts[0] + 1
    table = [[0] * openings for _ in job.items]
    for (_, opening), some in places.items():
        for form, things in some:
            table[form.kind][opening] += things
    return tuple(map(tuple, table))
