"""The models of an option, put together from its stock and its layout.

The one place where an option is written down: :func:`stocked_option` gives one its parts, sheets
and price, :func:`with_layout` its cases, figures and proofs. A plan, a plan made again from the
last one and every point of the trade-off front go through both.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TypeAlias

from solver.carcass.boards_of_case import Box, box, load_limit, shelf_id
from solver.carcass.housings import housing_notes
from solver.carcass.settled_job import open_sizes
from solver.changes.saving_changes import with_room
from solver.doorway.swing_answer import planned_swing, swing_notes
from solver.job.job import Job
from solver.layout.composition import Composed
from solver.layout.layout_engine import LayoutAnswer
from solver.layout.layout_problem import BayShape, LayoutProblem
from solver.layout.row_spots import Spot
from solver.outcome import Status
from solver.plan.built import Bay, CasePlan, Opening, Placement, SharedLines, Shelf, Size, Strength
from solver.plan.plan import LeftOut, Option, Stage
from solver.plan.stage_units import AFTER_RHYTHM, STAGE_UNITS
from solver.plan.stocked import MatchedSet, Part
from solver.planning.composed_rows import Rows, composed_rows
from solver.planning.look_words import with_sentences
from solver.planning.numbered_things import numbered
from solver.planning.on_hand_sheets import as_they_are
from solver.planning.option_stages import cost_of, scores
from solver.planning.row_notes import row_notes
from solver.sequence.sequencing import sequence, sequence_sticks
from solver.sizing.combinations import Counts, name_of
from solver.sizing.on_hand_outcome import outcome
from solver.sizing.purchase import StockAnswer
from solver.strength.beams import HARD_LIMITS
from solver.strength.hang_sheet import with_hanging
from solver.strength.shelves_of_plan import strength_of
from solver.units import Ticks

Numbers: TypeAlias = Mapping[tuple[int, int], Sequence[int]]
"""The number of each thing of every (bay, opening)."""
StagesOf: TypeAlias = Callable[[Sequence[CasePlan]], tuple[Stage, ...]]
"""The stages of an option whose cases turned out so."""
PROVABLE = tuple(name for name in STAGE_UNITS if name not in AFTER_RHYTHM)
"""Stages that have to be proven for an option to be called proven best."""


def stocked_option(
    job: Job,
    counts: Counts,
    parts: tuple[Part, ...],
    stock: StockAnswer,
    *,
    bound: Decimal,
    sheet_bound: int,
    sets: tuple[MatchedSet, ...] = (),
) -> Option:
    """Return an option with its parts and the stock they are cut from, without a layout yet.

    No stock that was compared costs less than `bound` [money], or takes fewer sheets than
    `sheet_bound` [-].
    """
    sheets = as_they_are(job, stock.sheets)
    ordered = sequence(sheets, job.shop, parts)
    option = Option(
        name=name_of(job, counts),
        shelf_counts=dict(counts),
        status=Status.UNKNOWN,
        why=None,
        stages=(),
        cases=(),
        left_out=(),
        parts=parts,
        sheets=ordered.sheets,
        settings=ordered.settings,
        sets=sets,
        mouldings=sequence_sticks(stock.sticks),
        sheet_count=stock.sheet_count,
        sheet_bound=sheet_bound,
        cost=cost_of(job, stock, bound),
        scores=None,
        have=outcome(job, parts, stock.used, sheets, stock.sticks) if job.have else None,
    )
    return with_room(option)


@dataclass(frozen=True)
class LaidOut:
    """A layout at settled sizes, and the job that it answers.

    Attributes
    ----------
    job, settled
        The job as asked, and with the sizes of the layout.
    depths
        Inside depth of each case [tick].
    problem, answer
        The layout problem of `settled`, and its layout.
    steady_count
        Another shelf count that has a steady fall, where this layout has none [-].
    """

    job: Job
    settled: Job
    depths: Mapping[str, Ticks]
    problem: LayoutProblem
    answer: LayoutAnswer
    steady_count: int | None = None


def with_layout(
    option: Option,
    laid: LaidOut,
    stages_in: StagesOf,
    *,
    left: tuple[LeftOut, ...] = (),
    provable: Sequence[str] = PROVABLE,
    stopped: bool = False,
) -> Option:
    """Return an option that has its stock with a layout, and all that depends on the layout.

    Parameters
    ----------
    option
        With parts, sheets and price; also one of a last plan, with another layout.
    stages_in
        Gives the stages for the cases as they turn out.
    left
        What the layout leaves out.
    provable
        The stages that have to be proven for it to be proven best.
    stopped
        Whether it was stopped by the user: it is then the best so far, no more.
    """
    job = laid.job
    cases_built = laid.settled.cases
    boxes = {case.name: box(laid.settled, case, laid.depths[case.name]) for case in cases_built}
    rows = composed_rows(laid.settled, laid.problem, laid.answer.places, boxes)
    cases = case_plans(laid.settled, laid.problem, laid.answer, boxes, rows)
    there = {one.part for one in option.have.used} if option.have else set()
    to_cut = [part for part in option.parts if part.id not in there]
    lines = shared_lines(laid.problem, cases)
    figures = scores(job, cases, lines, to_cut, option.sheets)
    stages = with_sentences(job, cases, lines, stages_in(cases), laid.steady_count)
    bearing = strength_of(job, cases)
    update = {
        "status": _status(stages, left, provable, stopped=stopped),
        "why": None,
        "changes": (),
        "stages": stages,
        "cases": cases,
        "lines": lines,
        "lines_apart": laid.problem.lines_apart,
        "open_sizes": open_sizes(job, cases),
        "left_out": left,
        "scores": figures,
        "strength": bearing,
        "notes": (
            *row_notes(laid.problem, cases, rows),
            *swing_notes(cases),
            *sag_notes(bearing),
            *housing_notes(job),
        ),
        "collision": None,
        "band": None,
        "advice": (),
        "advice_note": None,
        "tags": (),
    }
    return with_hanging(job, option.model_copy(update=update))


def _status(
    stages: Sequence[Stage], left: tuple[LeftOut, ...], provable: Sequence[str], *, stopped: bool
) -> Status:
    """What the stages prove."""
    proven = {stage.name: stage.proven for stage in stages}
    if left:
        return Status.INFEASIBLE if proven["fit"] else Status.FEASIBLE
    whole = not stopped and all(proven.get(name, True) for name in provable)
    return Status.OPTIMAL if whole else Status.FEASIBLE


def case_plans(
    job: Job,
    problem: LayoutProblem,
    answer: LayoutAnswer,
    boxes: Mapping[str, Box],
    rows: Rows,
) -> tuple[CasePlan, ...]:
    """Write down every case: sizes, marks, openings and what stands where."""
    deep = {name: sizes.outside_depth for name, sizes in boxes.items()}
    numbers = numbered(problem, rows)
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
                bays=tuple(_bay(job, problem, answer, rows, sizes, b, numbers) for b in bays),
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
    job: Job,
    problem: LayoutProblem,
    answer: LayoutAnswer,
    rows: Rows,
    sizes: Box,
    bay: int,
    numbers: Numbers,
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
            _opening(job, problem, rows[bay, k], sizes, bay, k, (low, high), numbers)
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
    row: Composed,
    sizes: Box,
    bay: int,
    index: int,
    between: tuple[Ticks, Ticks],
    numbers: Numbers,
) -> Opening:
    number, height = problem.bays[bay].number, between[1] - between[0]
    shape = replace(problem.bays[bay], width=sizes.bays[number][1])
    items = _placements(problem, row.spots, height, numbers[bay, index])
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
    problem: LayoutProblem, spots: Sequence[Spot], height: Ticks, given: Sequence[int]
) -> tuple[Placement, ...]:
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
