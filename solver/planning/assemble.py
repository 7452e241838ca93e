"""From a layout and its stock to the finished option of a plan.

Things stand centred where the shelf bears it, and heavy ones at its ends where it does not.

The layout holds the sag limit for a load spread evenly; where things stand is open until here.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import count

from solver.carcass.boards_of_case import Box, box, load_limit, shelf_id
from solver.doorway.swing_analysis import planned_swing
from solver.job.case import Case
from solver.job.job import Job
from solver.layout.layout_engine import LayoutAnswer
from solver.layout.layout_problem import BayShape, LayoutProblem
from solver.layout.row_arrangement import Place, Spot, arrange, arrange_apart
from solver.plan.built import Bay, CasePlan, Opening, Placement, SharedLines, Shelf, Size, Strength
from solver.strength.beams import CREEP_FACTOR, HARD_LIMITS, first_day_ratio
from solver.strength.constants import millimetres, newtons
from solver.strength.shelf_beams import beam, spans_at_bottom
from solver.units import Ticks

Numbers = dict[int, "count[int]"]


def case_plans(
    job: Job, problem: LayoutProblem, answer: LayoutAnswer, depths: Mapping[str, Ticks]
) -> tuple[CasePlan, ...]:
    """Write down every case: sizes, marks, openings and what stands where."""
    numbers: Numbers = {k: count(1) for k in range(len(problem.kinds))}
    boxes = {case.name: box(job, case, depths[case.name]) for case in job.cases}
    deep = {name: sizes.outside_depth for name, sizes in boxes.items()}
    plans = []
    for index, case in enumerate(job.cases):
        sizes = boxes[case.name]
        bays = [b for b, shape in enumerate(problem.bays) if shape.case == index]
        plans.append(
            CasePlan(
                name=case.name,
                kind=case.kind,
                above_floor=case.above_floor,
                outside=Size(
                    width=sizes.outside_width,
                    height=sizes.outside_height,
                    depth=sizes.outside_depth,
                ),
                bays=tuple(_bay(job, problem, answer, sizes, b, numbers) for b in bays),
                swing=planned_swing(job, case, deep),
            )
        )
    return tuple(plans)


def shared_lines(problem: LayoutProblem, cases: Sequence[CasePlan]) -> tuple[SharedLines, ...]:
    """Write down which bays share shelf lines, and where their lines are."""
    bays = [(case, bay) for case in cases for bay in case.bays]
    found = []
    for group in problem.groups:
        some = [bays[index] for index in group.bays]
        tops = {case.above_floor + shelf.top for case, bay in some for shelf in bay.shelves}
        names = tuple((case.name, bay.number) for case, bay in some)
        if len(some) > 1:
            found.append(SharedLines(bays=names, heights=tuple(sorted(tops))))
    return tuple(found)


def _bay(
    job: Job, problem: LayoutProblem, answer: LayoutAnswer, sizes: Box, bay: int, numbers: Numbers
) -> Bay:
    shape, case = problem.bays[bay], job.cases[problem.bays[bay].case]
    undersides = [answer.underside(problem, bay, k) for k in range(1, shape.shelves + 1)]
    floors = [shape.floor, *(u + shape.thickness for u in undersides)]
    ceilings = [*undersides, shape.floor + shape.inside]
    return Bay(
        number=shape.number + 1,
        x=sizes.bays[shape.number][0],
        inside=Size(width=sizes.bays[shape.number][1], height=shape.inside, depth=sizes.depth),
        openings=tuple(
            _opening(job, problem, answer, sizes, bay, k, (low, high), numbers)
            for k, (low, high) in enumerate(zip(floors, ceilings, strict=True))
        ),
        shelves=tuple(
            Shelf(
                index=k,
                underside=mark,
                top=mark + shape.thickness,
                thickness=shape.thickness,
                depth=sizes.depth,
                part=f"{case.name}/{shelf_id(case, shape.number + 1, k)}",
            )
            for k, mark in enumerate(undersides, start=1)
        ),
    )


def _opening(
    job: Job,
    problem: LayoutProblem,
    answer: LayoutAnswer,
    sizes: Box,
    bay: int,
    index: int,
    between: tuple[Ticks, Ticks],
    numbers: Numbers,
) -> Opening:
    number, height = problem.bays[bay].number, between[1] - between[0]
    shape = replace(problem.bays[bay], width=sizes.bays[number][1])
    places = answer.places.get((bay, index), ())
    spots = spread(job, job.cases[shape.case], problem, shape, (sizes.depth, index), places)
    items = _placements(problem, spots, height, numbers)
    above, below = shape.lips(index)
    return Opening(
        index=index,
        floor=between[0],
        height=height,
        lip_above_floor=above,
        lip_below_ceiling=below,
        items=items,
        fill=_fill(shape, items),
        load=sum(item.mass for item in items),
        load_limit=load_limit(job, shape.width, sizes.depth),
    )


def _fill(shape: BayShape, items: Sequence[Placement]) -> float:
    """Share of the clear width that the front row takes, to six places."""
    front = sum(item.width for item in items if item.row == 1 and item.on is None)
    return round(front / shape.width, 6)


def _placements(
    problem: LayoutProblem, spots: Sequence[Spot], height: Ticks, numbers: Numbers
) -> tuple[Placement, ...]:
    given = [next(numbers[spot.kind]) for spot in spots]
    placements = []
    for spot, number in zip(spots, given, strict=True):
        kind, (w, h, d) = problem.kinds[spot.kind], spot.form.size
        placements.append(
            Placement(
                item=kind.name,
                number=number,
                x=spot.x,
                y=spot.y,
                z=spot.z,
                row=spot.row,
                on=None if spot.on is None else given[spot.on],
                lying=spot.form.lying,
                width=w,
                height=h,
                depth=d,
                headroom=height - spot.y - h,
                mass=kind.mass,
                mass_assumed=kind.mass_assumed,
            )
        )
    return tuple(placements)


def spread(
    job: Job,
    case: Case,
    problem: LayoutProblem,
    bay: BayShape,
    board: tuple[Ticks, int],
    places: Sequence[Place],
) -> tuple[Spot, ...]:
    """Give every thing of an opening its place.

    Parameters
    ----------
    job, case, problem, bay
        The layout problem, and what the opening belongs to.
    board
        (inside depth [tick], index of the opening).
    places
        What stands in the opening.
    """
    centred = arrange(problem, bay, places, job.look.end_margin)
    limits, (depth, index) = HARD_LIMITS[job.ground.sag], board
    if not places or not limits or (index == 0 and not spans_at_bottom(case)):
        return centred
    shelf = beam(job, case, bay.width, depth, index)
    most = shelf.span / max(first_day_ratio(limit, CREEP_FACTOR) for limit in limits)

    def sag(spots: tuple[Spot, ...]) -> float:
        return shelf.under(
            (
                newtons(problem.kinds[spot.kind].mass),
                millimetres(spot.x),
                millimetres(spot.x + spot.form.size[0]),
            )
            for spot in spots
        )

    if sag(centred) <= most:
        return centred
    return min(centred, arrange_apart(problem, bay, places, job.look.end_margin), key=sag)


def sag_notes(strength: Strength | None) -> tuple[str, ...]:
    """Return a note for each shelf over the limit held on which no order of the things would do."""
    if strength is None:
        return ()
    held = {limit.key for limit in HARD_LIMITS[strength.held]}
    return tuple(
        f"case {one.case!r}, bay {one.bay}, {f'shelf {one.index}' if one.index else 'bottom'} "
        "sags beyond the limit that the layout is held to, where its things stand; what mends it "
        "is told with its sag"
        for one in strength.shelves
        if held & set(one.over)
    )
