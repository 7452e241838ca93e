"""Every opening of a layout composed; bays that flank a case's middle mirror each other.

Planned again, a row whose things are those of the plan before stands exactly as it did.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace

from solver.carcass.boards_of_case import Box
from solver.job.case import Case
from solver.job.job import Job
from solver.layout.composition import Composed, as_before, compose
from solver.layout.layout_problem import BayShape, LayoutProblem, Place, ThingsHeld
from solver.layout.row_spots import flanking, mirrored
from solver.units import Ticks

Places = Mapping[tuple[int, int], tuple[Place, ...]]
"""What stands in each (bay, opening)."""
Rows = dict[tuple[int, int], Composed]
"""The row of each (bay, opening)."""


def composed_rows(
    job: Job, problem: LayoutProblem, places: Places, boxes: Mapping[str, Box]
) -> Rows:
    """Compose every opening of a layout, in cases of these sizes, by name."""
    rows: Rows = {}
    kept = dict(_as_before(job, problem, places, boxes))
    for b in range(len(problem.bays)):
        for k in range(problem.bays[b].openings):
            rows[b, k] = kept.get((b, k)) or compose(
                job,
                *_opening(job, problem, boxes, b, k),
                places.get((b, k), ()),
                _held(problem, b, k),
            )
    for number, case in enumerate(job.cases):
        for left, right in flanking(problem, number):
            width = boxes[case.name].bays[problem.bays[right].number][1]
            for k in range(min(problem.bays[left].openings, problem.bays[right].openings)):
                if (right, k) not in kept and _alike(problem, places, (left, right), k):
                    image = mirrored(rows[left, k].spots, width)
                    rows[right, k] = replace(rows[left, k], spots=image)
    return rows


def _opening(
    job: Job, problem: LayoutProblem, boxes: Mapping[str, Box], bay: int, opening: int
) -> tuple[Case, LayoutProblem, BayShape, tuple[Ticks, int]]:
    """What an opening belongs to, its bay as wide as it is, and the board that it stands on."""
    shape = problem.bays[bay]
    case = job.cases[shape.case]
    sizes = boxes[case.name]
    wide = replace(shape, width=sizes.bays[shape.number][1])
    return case, problem, wide, (sizes.depth, opening)


def _as_before(
    job: Job, problem: LayoutProblem, places: Places, boxes: Mapping[str, Box]
) -> Iterator[tuple[tuple[int, int], Composed]]:
    """The rows that stand as before, since the same things stand in their openings."""
    before = problem.holding.before
    for (bay, opening), row in before.rows if before else ():
        if Counter(places.get((bay, opening), ())) == Counter(row.places):
            where = _opening(job, problem, boxes, bay, opening)
            kept = as_before(job, *where, row, _held(problem, bay, opening))
            if kept is not None:
                yield (bay, opening), kept


def _held(problem: LayoutProblem, bay: int, opening: int) -> list[ThingsHeld]:
    """What is held to a place of an opening's row."""
    return [
        one
        for one in problem.holding.held
        if isinstance(one, ThingsHeld) and one.place is not None and (bay, opening) in one.openings
    ]


def _alike(problem: LayoutProblem, places: Places, bays: tuple[int, int], opening: int) -> bool:
    """Whether an opening may be the mirror image of its counterpart in another bay."""
    left, right = (places.get((bay, opening), ()) for bay in bays)
    shapes = [problem.bays[bay] for bay in bays]
    return (
        Counter(left) == Counter(right)
        and not any(_held(problem, bay, opening) for bay in bays)
        and not any(problem.kinds[form.kind].order is not None for form, _ in left)
        and len({(shape.deep, shape.front) for shape in shapes}) == 1
    )
