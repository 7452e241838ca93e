"""The option of the last plan to plan again from, in the numbers of the job as it is now."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from solver.carcass.outline import back_thickness, boards_added, depth_wanted
from solver.carcass.settled_job import CaseSize, settle
from solver.errors import InputError
from solver.job.case import Case, SizeRange
from solver.job.job import Job
from solver.layout.layout_problem import Before, LayoutProblem, RowBefore
from solver.layout.problem_from_job import build
from solver.plan.built import CasePlan
from solver.plan.plan import Option, Plan
from solver.planning.row_before import row_before
from solver.units import Ticks


@dataclass(frozen=True)
class StartingOption:
    """What is started from: the job with the sizes of an option of the last plan.

    `depths` are inside depths by case name [tick]; `problem` has the layout before in it.
    """

    last: Plan
    old: Option
    job: Job
    settled: Job
    depths: Mapping[str, Ticks]
    problem: LayoutProblem


def start_from(job: Job, last: Plan, option: Option | None = None) -> StartingOption:
    """Bring a job and its last plan together; InputError where they do not belong together."""
    old = option or next((one for one in last.options if one.cases), None)
    if old is None:
        msg = "the last plan has no layout to start from; plan the job anew"
        raise InputError(msg)
    _check_same(job, old)
    sizes = {c.name: size_of(job, last.job, c) for c in old.cases}
    settled = settle(job, old.shelf_counts, sizes)
    depths = {name: size.depth for name, size in sizes.items()}
    problem = build(settled, old.shelf_counts, depths, share=not old.lines_given_up)
    before = layout_before(job, problem, old)
    if last.job.look.shelf_style != job.look.shelf_style:
        before = replace(before, rows=())
    problem = replace(problem, holding=replace(problem.holding, before=before))
    return StartingOption(last, old, job, settled, depths, problem)


def _check_same(job: Job, old: Option) -> None:
    names, planned = [case.name for case in job.cases], [case.name for case in old.cases]
    if names != planned:
        msg = (
            f"the last plan is of other cases ({', '.join(planned)}) than the job "
            f"({', '.join(names)}); plan the job anew"
        )
        raise InputError(msg)
    for case in job.cases:
        counts = old.shelf_counts[case.name]
        if len(counts) not in case.bay_counts or not set(counts) <= set(case.shelf_counts):
            msg = (
                f"case {case.name!r} has {' + '.join(map(str, counts))} shelves in the last plan, "
                "which the job does not allow any more; plan the job anew"
            )
            raise InputError(msg)


def depths_for(before: Job, job: Job, option: Option) -> dict[str, Ticks]:
    """Inside depths of an option's cases [tick] where a job has other thicknesses than before."""
    return {case.name: size_of(job, before, case).depth for case in option.cases}


def size_of(job: Job, before: Job, planned: CasePlan) -> CaseSize:
    """The sizes of a case as ordered: those of the last plan where the job leaves them open."""
    case, was = job.case(planned.name), before.case(planned.name)
    across, up = boards_added(before, was)
    wanted = depth_wanted(job, case)
    return CaseSize(
        case.width if isinstance(case.width, int) else planned.outside.width - across,
        case.height if isinstance(case.height, int) else planned.outside.height - up,
        wanted if isinstance(wanted, int) else _within(_depth(job, case, planned), wanted),
    )


def _depth(job: Job, case: Case, planned: CasePlan) -> Ticks:
    """Inside depth of a planned case; of one with outside sizes the outside stays [tick]."""
    if case.sizes == "inside":
        return planned.bays[0].inside.depth
    return planned.outside.depth - back_thickness(job, case)


def _within(size: Ticks, allowed: SizeRange) -> Ticks:
    return min(max(size, allowed.least), allowed.most)


def layout_before(job: Job, problem: LayoutProblem, old: Option) -> Before:
    """Return the layout of an option in the numbers of a problem with the same shelf counts."""
    kinds = {item.name: k for k, item in enumerate(job.items)}
    bays = [bay for case in old.cases for bay in case.bays]
    marks: dict[tuple[int, int], int] = {}
    rows: dict[tuple[int, int], RowBefore] = {}
    numbers: dict[tuple[int, int, int], list[int]] = {}
    for b, (bay, shape) in enumerate(zip(bays, problem.bays, strict=True)):
        for shelf in bay.shelves:
            marks[b, shelf.index] = (shelf.underside - shape.offset) // shape.step
        for opening in bay.openings:
            row = row_before(problem, kinds, bay.inside.width, opening.items)
            if row is not None:
                rows[b, opening.index] = row
            for thing in sorted(opening.items, key=lambda one: one.x):
                if thing.item in kinds:
                    spot = (kinds[thing.item], b, opening.index)
                    numbers.setdefault(spot, []).append(thing.number)
    return Before(
        tuple(marks.items()),
        tuple((spot, len(some)) for spot, some in numbers.items()),
        tuple(rows.items()),
        tuple((spot, tuple(some)) for spot, some in numbers.items()),
    )
