"""Inside and outside sizes of a case: the one place where the one becomes the other.

An order gives width, height and depth of a case either inside or outside (`sizes`). Between
them lie two sides in width; bottom, top and toe in height; the planted back in depth.
"""

from __future__ import annotations

from solver.job.case import Case, SizeRange, settled
from solver.job.job import Job, front_clearance, size_allowance
from solver.units import Ticks, round_up

Outline = tuple[Ticks, Ticks]
"""Width and height [tick]."""


def boards_around(job: Job, case: Case) -> Outline:
    """What the boards take of the outside width and height [tick]."""
    t = job.thickness(case.material)
    return 2 * t, 2 * t + case.raised_bottom


def boards_counted(job: Job, case: Case) -> Outline:
    """What the boards take of the ordered width and height; 0 where these are inside [tick]."""
    return (0, 0) if case.sizes == "inside" else boards_around(job, case)


def boards_added(job: Job, case: Case) -> Outline:
    """What the boards add to the ordered width and height; 0 where these are outside [tick]."""
    return boards_around(job, case) if case.sizes == "inside" else (0, 0)


def outside_outline(job: Job, case: Case) -> Outline:
    """Outside width and height of a case whose sizes are decided [tick]."""
    across, up = boards_added(job, case)
    return settled(case.width) + across, settled(case.height) + up


def outside_width(job: Job, case: Case) -> Ticks:
    """Outside width of a case whose width is decided [tick]."""
    return settled(case.width) + boards_added(job, case)[0]


def outside_height(job: Job, case: Case) -> Ticks:
    """Outside height of a case whose height is decided [tick]."""
    return settled(case.height) + boards_added(job, case)[1]


def floor_height(job: Job, case: Case) -> Ticks:
    """Upper face of the bottom board above the bottom end of the sides [tick]."""
    return case.raised_bottom + job.thickness(case.material)


def back_thickness(job: Job, case: Case) -> Ticks:
    """Thickness of the planted back, 0 without one [tick]."""
    return 0 if case.back == "none" else job.thickness(case.back)


def back_counted(job: Job, case: Case) -> Ticks:
    """What the back takes of the ordered depth; 0 where the inside depth is given [tick]."""
    return 0 if case.sizes == "inside" else back_thickness(job, case)


def depth_wanted(job: Job, case: Case) -> SizeRange | int:
    """Inside depth asked for, or the range of it [tick].

    Where the case gives no depth, it is the deepest thing as it stands with the front margin,
    rounded up to the cutting step. Outside depths include the back.
    """
    back = back_counted(job, case)
    if case.depth is None:
        deepest = max(item.depth + size_allowance(job, item) for item in job.items)
        return round_up(deepest + front_clearance(job, case), job.shop.cutting_step)
    if isinstance(case.depth, int):
        return case.depth - back
    wish = case.depth.wish
    return SizeRange(
        least=case.depth.least - back,
        most=case.depth.most - back,
        wish=None if wish is None else wish - back,
    )
