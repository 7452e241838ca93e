"""Planning over a band of thickness: parts, sheets, headroom at both ends and so between."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from decimal import Decimal

from solver.carcass.settled_job import settled_job
from solver.carcass.thickness_band import bands, corners
from solver.cutting.solve_sheets import solve_cutting
from solver.job.job import Job
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.outcome import Limits
from solver.plan.bands import WHY, Band, BandEnd, MaterialBand, PartOverBand
from solver.plan.plan import Option
from solver.plan.stocked import Part
from solver.planning.starting_option import depths_for
from solver.sizing.purchase import ZERO, Buyer, sheet_parts
from solver.units import Ticks

NOT_MEASURED = (
    "the thickness is not measured yet: the plan is drawn for the thickest boards of the band"
)


def with_band(job: Job, option: Option, limits: Limits) -> Option:
    """State what holds of an option over the band of thickness of its job.

    Parts are linear in each thickness, so each is largest at a corner of the bands; sheets
    for all parts as large as they may become do for every thickness between.
    """
    known = bands(job)
    if not known or not option.cases:
        return option
    settled = settled_job(job, option)
    lists = [_parts_at(settled, one, option) for one in corners(settled)]
    largest = _largest(settled, lists)
    sheets, price = _stock(job, option, largest, limits)
    thin, thick = (
        at_end(settled, settled.measured({name: ends[k] for name, ends in known.items()}), option)
        for k in (0, 1)
    )
    band = Band(
        materials=tuple(
            MaterialBand(material=name, least=least, most=most)
            for name, (least, most) in known.items()
        ),
        ends=(thin, thick),
        parts=_over_band(lists),
        sheets=sheets,
        price=price,
        why=WHY,
    )
    return option.model_copy(update={"band": band, "notes": (*option.notes, NOT_MEASURED)})


def _parts_at(settled: Job, at: Job, option: Option) -> tuple[Part, ...]:
    return sheet_parts(at, option.shelf_counts, depths_for(settled, at, option))


def _by_id(lists: Sequence[Sequence[Part]]) -> dict[str, list[Part]]:
    """Every part at each corner where there is such a part, by id."""
    found: dict[str, list[Part]] = defaultdict(list)
    for parts in lists:
        for part in parts:
            found[part.id].append(part)
    return found


def _largest(job: Job, lists: Sequence[Sequence[Part]]) -> list[Part]:
    """Each part with the most of its length and of its width over all lists.

    Bays share a width in whole ticks, and what does not divide changes places between the
    corners: a tick for each bay covers that.
    """
    odd = {case.name: case.bay_count if case.bay_count > 1 else 0 for case in job.cases}
    return [
        same[0].model_copy(
            update={
                "length": max(p.length for p in same) + odd[same[0].case],
                "width": max(p.width for p in same) + odd[same[0].case],
            }
        )
        for same in _by_id(lists).values()
    ]


def _over_band(lists: Sequence[Sequence[Part]]) -> tuple[PartOverBand, ...]:
    found = []
    for ident, same in _by_id(lists).items():
        lengths, widths = [p.length for p in same], [p.width for p in same]
        if min(lengths) < max(lengths) or min(widths) < max(widths):
            found.append(
                PartOverBand(
                    part=ident,
                    length_least=min(lengths),
                    length_most=max(lengths),
                    width_least=min(widths),
                    width_most=max(widths),
                )
            )
    return tuple(found)


def _stock(
    job: Job, option: Option, parts: Sequence[Part], limits: Limits
) -> tuple[int, Decimal | None]:
    """Sheets that do for any thickness, and what they cost with the mouldings."""
    buyer = Buyer(job, limits)
    by_material: dict[str, list[Part]] = defaultdict(list)
    for part in parts:
        by_material[part.material].append(part)
    answers = [
        solve_cutting(buyer.problem(name, some), limits) for name, some in by_material.items()
    ]
    assert option.cost is not None
    price = sum((a.cost for a in answers), ZERO) + option.cost.mouldings
    priced = option.cost.complete and all(a.priced for a in answers)
    return sum(a.count for a in answers), price if priced else None


def problem_at(settled: Job, at: Job, option: Option) -> LayoutProblem:
    """The layout problem of an option's shelf counts with boards of another thickness."""
    depths = depths_for(settled, at, option)
    return build(at, option.shelf_counts, depths, share=not option.lines_given_up)


def clear_heights(problem: LayoutProblem, option: Option) -> dict[tuple[int, int], Ticks]:
    """Clear height of each (bay, opening) with the marks of an option [tick]."""
    heights = {}
    bays = [bay for case in option.cases for bay in case.bays]
    for b, (bay, shape) in enumerate(zip(bays, problem.bays, strict=True)):
        floors = [shape.floor, *(s.underside + shape.thickness for s in bay.shelves)]
        ceilings = [*(s.underside for s in bay.shelves), shape.floor + shape.inside]
        for k, (low, high) in enumerate(zip(floors, ceilings, strict=True)):
            heights[b, k] = high - low
    return heights


def at_end(settled: Job, at: Job, option: Option) -> BandEnd:
    """The plan's marks and places with boards of another thickness."""
    heights = clear_heights(problem_at(settled, at, option), option)
    bays = [bay for case in option.cases for bay in case.bays]
    rooms = [
        heights[b, opening.index] - thing.y - thing.height
        for b, bay in enumerate(bays)
        for opening in bay.openings
        for thing in opening.items
    ]
    return BandEnd(
        thickness={name: at.thickness(name) for name in bands(settled)},
        headroom_least=min(rooms, default=None),
        clear_least=min(heights.values()),
        clear_most=max(heights.values()),
    )
