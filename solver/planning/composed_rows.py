"""Every opening of a layout composed; bays that flank a case's middle mirror each other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

from solver.carcass.boards_of_case import Box
from solver.job.job import Job
from solver.layout.composition import Composed, compose
from solver.layout.layout_problem import LayoutProblem, Place, ThingsHeld
from solver.layout.row_spots import flanking, mirrored

Places = Mapping[tuple[int, int], tuple[Place, ...]]
"""What stands in each (bay, opening)."""
Rows = dict[tuple[int, int], Composed]
"""The row of each (bay, opening)."""


def composed_rows(
    job: Job, problem: LayoutProblem, places: Places, boxes: Mapping[str, Box]
) -> Rows:
    """Compose every opening of a layout, in cases of these sizes, by name."""
    rows: Rows = {}
    for b, bay in enumerate(problem.bays):
        case = job.cases[bay.case]
        sizes = boxes[case.name]
        shape = replace(bay, width=sizes.bays[bay.number][1])
        for k in range(bay.openings):
            board, there = (sizes.depth, k), places.get((b, k), ())
            held = _held(problem, b, k)
            rows[b, k] = compose(job, case, problem, shape, board, there, held)
    for number, case in enumerate(job.cases):
        for left, right in flanking(problem, number):
            width = boxes[case.name].bays[problem.bays[right].number][1]
            for k in range(min(problem.bays[left].openings, problem.bays[right].openings)):
                if _alike(problem, places, (left, right), k):
                    image = mirrored(rows[left, k].spots, width)
                    rows[right, k] = replace(rows[left, k], spots=image)
    return rows


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
