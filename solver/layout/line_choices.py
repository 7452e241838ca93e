"""Which of the shared shelf lines the bays with fewer shelves use: every way that differs.

With the lines decided, every mark is a plain difference of lines, and bounds of the rhythm are
tight; with a choice of lines inside the model they are next to nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations, islice, product

from solver.layout.layout_problem import LayoutProblem, LineGroup

Takes = Mapping[int, tuple[int, ...]]
"""The lines, from 1, that a bay uses, for bays with fewer shelves than their group has lines."""

WAYS_MOST = 60
"""Ways of using lines that are looked at one by one [-]."""


def ways_to_take(problem: LayoutProblem, *, orderless: bool) -> list[Takes]:
    """Return every way of using the lines, or none of them where there are too many.

    With `orderless`, ways that differ in the order of openings only are told once: where
    nothing depends on which opening is where, blocks of openings between lines that all
    bays use may change places, but for the lowest and the top one, which differ.
    """
    seen: dict[tuple[object, ...], Takes] = {}
    ways = product(*(list(_of_group(problem, group)) for group in problem.groups))
    for number, way in enumerate(ways):
        if number >= WAYS_MOST**2:
            return [{}]
        takes = {bay: lines for part in way for bay, lines in part.items()}
        key = tuple(_blocks(problem, group, takes) for group in problem.groups)
        seen.setdefault(key if orderless else (number,), takes)
    return list(seen.values()) if len(seen) <= WAYS_MOST else [{}]


def _of_group(problem: LayoutProblem, group: LineGroup) -> Iterator[Takes]:
    fewer = [bay for bay in group.bays if problem.bays[bay].shelves < group.most]
    choices = [combinations(range(1, group.most + 1), problem.bays[bay].shelves) for bay in fewer]
    yield from (
        dict(zip(fewer, lines, strict=True)) for lines in islice(product(*choices), WAYS_MOST**2)
    )


Block = tuple[tuple[int, ...], ...]
"""What lies between two lines that all bays use: for each line there, the bays that use it."""


def _blocks(problem: LayoutProblem, group: LineGroup, takes: Takes) -> tuple[Block, ...]:
    """The blocks of openings of a group, those that may change places in one order."""
    everyone = tuple(group.bays)
    blocks: list[list[tuple[int, ...]]] = [[]]
    for line in range(1, group.most + 1):
        users = tuple(bay for bay in everyone if line in takes.get(bay, range(1, line + 1)))
        if users == everyone:
            blocks.append([])
        else:
            blocks[-1].append(users)
    done = [tuple(block) for block in blocks]
    middle = sorted(min(block, block[::-1]) for block in done[1:-1])
    return (done[0], *middle, *done[-1:]) if len(done) > 1 else (done[0],)
