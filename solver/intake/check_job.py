"""What a job must keep that its models cannot see: room inside, doorways, holds, trim.

What cannot be between a hung case and the doorway that it goes into.
"""

from __future__ import annotations

from solver.carcass.outline import outside_height, outside_width
from solver.intake.decision_checks import check_have, check_holds
from solver.intake.trim_checks import check_trim
from solver.job.case import Case, least_size
from solver.job.job import Job, PlacedFaultError, place_text
from solver.units import TICKS_PER_MM, Ticks, inch_rule, with_unit


def check(job: Job) -> None:
    """Raise ValueError for the first thing that cannot be in a job."""
    check_sizes(job)
    for case in job.cases:
        place = ("case", case.name, "trim")
        try:
            check_trim(job, case)
        except ValueError as error:
            text = str(error)
            reason = text.removeprefix(f"{place_text(place)}: ")
            raise PlacedFaultError(place, reason, text) from None


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
                raise PlacedFaultError(("case", case.name, side), wrong)
    check_holds(job)
    check_have(job)


def check_room(job: Job, case: Case) -> None:
    """Raise PlacedFaultError where boards alone leave a case no room inside."""
    t, bays = job.thickness(case.material), case.bay_counts[-1]
    across = (2 if case.sizes == "outside" else 0) + bays - 1
    if least_size(case.width) - across * t < bays * 20 * TICKS_PER_MM:
        reason = "the boards leave bays of less than 20 mm; give more width"
        raise PlacedFaultError(("case", case.name, "width"), reason)
    up = 2 * t + case.raised_bottom if case.sizes == "outside" else 0
    if least_size(case.height) - up < 20 * TICKS_PER_MM:
        reason = "the boards leave less than 20 mm; give more height"
        raise PlacedFaultError(("case", case.name, "height"), reason)
    least = None if case.depth is None else least_size(case.depth)
    behind = job.thickness(case.back) if case.sizes == "outside" and case.back != "none" else 0
    if least is not None and least - behind < 20 * TICKS_PER_MM:
        reason = "less than 20 mm is left inside; give more depth"
        raise PlacedFaultError(("case", case.name, "depth"), reason)


USUAL_JAMB: Ticks = 37084
"""4-9/16 in: a stud with wallboard on both sides, as jambs are sold [tick]."""


def check_place(job: Job, case: Case) -> str | None:
    """Say what cannot be between a hung case and its doorway; None where all can."""
    found = [one for one in job.doorways if one.name == case.doorway]
    if case.kind != "hung" or not found or not isinstance(case.width, int):
        return None
    door, width = found[0], outside_width(job, case)
    unit = job.unit
    if door.jamb_depth is not None and door.jamb_depth > width:
        return (
            f"its doorway's jamb_depth, {with_unit(door.jamb_depth, unit)}, is more than the case "
            f"is wide, {with_unit(width, unit)}; a jamb is as deep as the wall is thick, "
            f"about {inch_rule(USUAL_JAMB, unit)} as US jambs are sold; measure both again"
        )
    if door.pin.inside is not None and door.pin.inside >= width:
        return (
            f"its doorway's pin is set in by {with_unit(door.pin.inside, unit)}, and the case is "
            f"only {with_unit(width, unit)} wide; inside is measured from the hinge side, and a "
            f"pivot past the middle, {with_unit(width // 2, unit)}, belongs to the other jamb; "
            "measure again, or hinge it on the other side"
        )
    if width > max(door.widths):
        return (
            f"{with_unit(width, unit)} outside is wider than its doorway, "
            f"{with_unit(max(door.widths), unit)}; less than "
            f"{with_unit(door.clear_width - door.hinge_gap - door.running_clearance, unit)} would "
            f"make sense; measure again, or leave width out and the doorway gives it"
        )
    return None


def check_height(job: Job, case: Case) -> str | None:
    """Say what cannot be between a hung case's height and its doorway; None where all can."""
    found = [one for one in job.doorways if one.name == case.doorway]
    if case.kind != "hung" or not found or not isinstance(case.height, int):
        return None
    door, height, unit = found[0], outside_height(job, case), job.unit
    if height + case.above_floor <= max(door.heights):
        return None
    up = with_unit(case.above_floor, unit)
    return (
        f"{with_unit(height, unit)} outside and {up} above the floor is higher than its doorway, "
        f"{with_unit(max(door.heights), unit)}; at most "
        f"{with_unit(door.clear_height - door.head_gap - case.above_floor, unit)} would make "
        "sense; measure again, or leave height out and the doorway gives it"
    )
