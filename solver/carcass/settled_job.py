"""Jobs whose open sizes are decided, so that everything else can be worked out from them.

:func:`settle` makes such a job for sizes chosen, :func:`settled_job` for those of a finished
option.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from solver.carcass.outline import back_counted, back_thickness, boards_added, depth_wanted
from solver.job.case import Case, SizeRange, most_size
from solver.job.job import Job
from solver.plan.built import CasePlan
from solver.plan.plan import OpenSize, Option
from solver.plan.stocked import Part
from solver.units import Ticks

SizeName = Literal["width", "height", "depth"]


@dataclass(frozen=True)
class CaseSize:
    """Sizes chosen for one case.

    Attributes
    ----------
    width, height
        Outside or clear inside, as the case's sizes are given [tick].
    depth
        Inside depth [tick].
    """

    width: Ticks
    height: Ticks
    depth: Ticks


Sizes = Mapping[str, CaseSize]
"""Sizes chosen, by case name."""


def settle(job: Job, counts: Mapping[str, Sequence[int]], sizes: Sizes) -> Job:
    """Return the job with these sizes, and one bay for each shelf count of a case."""
    cases = tuple(
        case.model_copy(
            update={
                "width": sizes[case.name].width,
                "height": sizes[case.name].height,
                "depth": sizes[case.name].depth + back_counted(job, case),
                "uprights": len(counts[case.name]) - 1,
            }
        )
        for case in job.cases
    )
    return job.model_copy(update={"cases": cases})


def settled_job(job: Job, option: Option) -> Job:
    """Return the job with the sizes and bays of a finished option; one with a layout."""
    planned = {case.name: case for case in option.cases}
    sizes = {case.name: _as_ordered(job, case, planned[case.name]) for case in job.cases}
    return settle(job, option.shelf_counts, sizes)


@dataclass(frozen=True)
class PlannedCase:
    """A case of an option, its sizes settled.

    Attributes
    ----------
    job
        With the sizes of the option settled.
    case, planned
        As ordered in that job, and as planned.
    counts
        Shelves of each bay [-].
    parts
        Its parts out of sheets.
    """

    job: Job
    case: Case
    planned: CasePlan
    counts: tuple[int, ...]
    parts: tuple[Part, ...]


def planned_cases(job: Job, option: Option) -> tuple[PlannedCase, ...]:
    """Return each case of an option with a layout, with its parts."""
    settled = settled_job(job, option)
    return tuple(
        PlannedCase(
            job=settled,
            case=case,
            planned=planned,
            counts=option.shelf_counts[case.name],
            parts=tuple(part for part in option.parts if part.case == case.name),
        )
        for case, planned in zip(settled.cases, option.cases, strict=True)
    )


def depths_of(option: Option) -> dict[str, Ticks]:
    """Return the inside depth of each case of a finished option [tick]."""
    return {case.name: case.bays[0].inside.depth for case in option.cases}


def largest_job(job: Job) -> Job:
    """Return the job with every open size at its most, and the fewest bays."""
    sizes = {case.name: most_of(job, case) for case in job.cases}
    return settle(job, {case.name: (0,) * case.bay_counts[0] for case in job.cases}, sizes)


def most_of(job: Job, case: Case) -> CaseSize:
    """Return the most that a case's sizes may be."""
    return CaseSize(
        most_size(case.width), most_size(case.height), most_size(depth_wanted(job, case))
    )


def most_outside_depth(job: Job, case: Case) -> Ticks:
    """Outside depth of a case at the most that it may be, back included [tick]."""
    return most_of(job, case).depth + back_thickness(job, case)


def open_sizes(job: Job, cases: Sequence[CasePlan]) -> tuple[OpenSize, ...]:
    """Return each size that the job leaves open, with what the planned cases have."""
    sizes = []
    for case, planned in zip(job.cases, cases, strict=True):
        size = _as_ordered(job, case, planned)
        depth = size.depth + back_counted(job, case)
        named: tuple[tuple[SizeName, int | SizeRange | None, Ticks], ...] = (
            ("width", case.width, size.width),
            ("height", case.height, size.height),
            ("depth", case.depth, depth),
        )
        sizes += [
            OpenSize(
                case=case.name,
                what=what,
                least=wanted.least,
                most=wanted.most,
                wish=wanted.wished,
                chosen=has,
            )
            for what, wanted, has in named
            if isinstance(wanted, SizeRange)
        ]
    return tuple(sizes)


def _as_ordered(job: Job, case: Case, planned: CasePlan) -> CaseSize:
    across, up = boards_added(job, case)
    return CaseSize(
        planned.outside.width - across,
        planned.outside.height - up,
        planned.bays[0].inside.depth,
    )
