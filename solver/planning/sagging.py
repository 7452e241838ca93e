"""Where the sag limit of a shelf is felt before anything else, so that more width may do harm."""

from __future__ import annotations

from solver.case import Case, SizeRange
from solver.geometry import load_limit, mass_of
from solver.job import Job, depth_wanted
from solver.strength.gathered import MOST
from solver.strength.of_job import sag_load


def sags_first(job: Job, case: Case) -> bool:
    """Whether the sag limit of a case is felt at its most width and least depth.

    Load limits grow with the width and sag limits shrink, so that less width is no worse.
    """
    total = sum(mass_of(job, item)[0] * item.count for item in job.items)
    if not isinstance(case.width, SizeRange):
        return False
    depth = depth_wanted(job, case)
    deep = depth.least if isinstance(depth, SizeRange) else depth
    bays = case.bay_counts[0]
    wide = case.width.most // bays
    found = [sag_load(job, case, wide, deep, index) for index in (0, 1)]
    least = min((one for one in found if one is not None), default=None)
    felt = min(total, load_limit(job, wide, deep)) * MOST[0]
    return least is not None and least * MOST[1] < felt
