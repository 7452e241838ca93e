"""What a job must keep that its models cannot see: room inside, doorways, holds, trim."""

from __future__ import annotations

from solver.intake.decision_checks import check_have, check_holds
from solver.intake.place_checks import check_height, check_place
from solver.intake.trim_checks import check_trim
from solver.job.case import Case, least_size
from solver.job.job import Job
from solver.units import TICKS_PER_MM


def check(job: Job) -> None:
    """Raise ValueError for the first thing that cannot be in a job."""
    check_sizes(job)
    for case in job.cases:
        check_trim(job, case)


def check_sizes(job: Job) -> None:
    """Raise ValueError for the first thing that cannot be, trim left aside.

    Sizes that stand in for those of the place pass it; trim is only held against the true ones.
    """
    for case in job.cases:
        check_room(job, case)
        for side, wrong in (
            ("width", check_place(job, case)),
            ("height", check_height(job, case)),
        ):
            if wrong:
                msg = f"case {case.name!r} {side}: {wrong}"
                raise ValueError(msg)
    check_holds(job)
    check_have(job)


def check_room(job: Job, case: Case) -> None:
    """Raise ValueError where boards alone leave a case no room inside."""
    t, bays = job.thickness(case.material), case.bay_counts[-1]
    across = (2 if case.sizes == "outside" else 0) + bays - 1
    if least_size(case.width) - across * t < bays * 20 * TICKS_PER_MM:
        msg = f"case {case.name!r} width: the boards leave bays of less than 20 mm; give more width"
        raise ValueError(msg)
    up = 2 * t + case.raised_bottom if case.sizes == "outside" else 0
    if least_size(case.height) - up < 20 * TICKS_PER_MM:
        msg = f"case {case.name!r} height: the boards leave less than 20 mm; give more height"
        raise ValueError(msg)
    least = None if case.depth is None else least_size(case.depth)
    behind = job.thickness(case.back) if case.sizes == "outside" and case.back != "none" else 0
    if least is not None and least - behind < 20 * TICKS_PER_MM:
        msg = f"case {case.name!r} depth: less than 20 mm is left inside; give more depth"
        raise ValueError(msg)
