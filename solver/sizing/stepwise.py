"""Step by step, as it is done by hand: sizes first, then shelves, then sheets. A yardstick."""

from __future__ import annotations

from solver.carcass.outline import back_counted
from solver.job.case import Case, SizeRange
from solver.job.job import Job, depth_wanted
from solver.units import Ticks, round_down


def stepwise_job(job: Job) -> Job:
    """Return the job as it is taken when the sheets come last.

    Every open size is taken at its wish, or in the middle of its range (on the cutting step)
    where there is none. The number of bays and shelves is then the one that looks best with as
    much as possible in it, whatever the sheets cost.
    """
    return job.model_copy(
        update={
            "cases": tuple(_settled(job, case) for case in job.cases),
            "look": job.look.model_copy(update={"prefer": "look"}),
        }
    )


def _settled(job: Job, case: Case) -> Case:
    step, update = job.shop.cutting_step, {}
    if isinstance(case.width, SizeRange):
        update["width"] = size_taken(case.width, step)
    if isinstance(case.height, SizeRange):
        update["height"] = size_taken(case.height, step)
    depth = depth_wanted(job, case)
    if isinstance(depth, SizeRange):
        update["depth"] = size_taken(depth, step) + back_counted(job, case)
    return case.model_copy(update=update)


def size_taken(size: SizeRange, step: Ticks) -> Ticks:
    """Return the wish, else the middle of the range, down to the cutting step within it [tick]."""
    if size.wish is not None:
        return size.wish
    return max(size.least, round_down((size.least + size.most) // 2, step))
