"""What a job must keep that its models cannot see: room inside, doorways, holds, trim."""

from __future__ import annotations

from difflib import get_close_matches

from solver.carcass.outline import back_counted, boards_counted, outside_height, outside_width
from solver.carcass.trim_face import doorway
from solver.intake.decision_checks import check_have, check_holds
from solver.intake.trim_checks import check_trim
from solver.job.case import Case, least_size
from solver.job.defaults import table_defaults
from solver.job.job import Job, PlacedFaultError, place_text
from solver.units import TICKS_PER_MM, Ticks, inch_rule, with_unit

LEAST_CLEAR: Ticks = 20 * TICKS_PER_MM
"""Least clear width, height and depth of a bay [tick]."""
USUAL_JAMB: Ticks = 37084
"""4-9/16 in: a stud with wallboard on both sides, as jambs are sold [tick]."""


def check_job(job: Job) -> None:
    """Raise ValueError for the first thing that cannot be in a job."""
    check_sizes(job)
    check_apart(job)
    for case in job.cases:
        place = ("case", case.name, "trim")
        try:
            check_trim(job, case)
        except ValueError as error:
            text = str(error)
            reason = text.removeprefix(f"{place_text(place)}: ")
            raise PlacedFaultError(place, reason, text) from None


def check_apart(job: Job) -> None:
    """Raise PlacedFaultError where a thing is to stand apart from what is not in the job."""
    names = {item.name.casefold(): item.name for item in job.items}
    for item in job.items:
        for name in item.apart:
            if names.get(name.casefold()) == name:
                continue
            close = get_close_matches(name.casefold(), names, n=1)
            meant = f"did you mean {names[close[0]]!r}? " if close else ""
            known = ", ".join(map(repr, names.values()))
            reason = f"{name!r} is not in the job; {meant}its things: {known}"
            raise PlacedFaultError(("item", item.name, "apart"), reason)


def check_sizes(job: Job) -> None:
    """Raise ValueError for the first thing that cannot be, trim left aside.

    Sizes that stand in for those of the place pass it; trim is only held against the true ones.
    """
    for case in job.cases:
        check_room(job, case)
        check_dado(job, case)
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
    bays, (across, up) = case.bay_counts[-1], boards_counted(job, case)
    uprights = (bays - 1) * job.thickness(case.material)
    if least_size(case.width) - across - uprights < bays * LEAST_CLEAR:
        reason = "the boards leave bays of less than 20 mm; give more width"
        raise PlacedFaultError(("case", case.name, "width"), reason)
    if least_size(case.height) - up < LEAST_CLEAR:
        reason = "the boards leave less than 20 mm; give more height"
        raise PlacedFaultError(("case", case.name, "height"), reason)
    if case.depth is not None and least_size(case.depth) - back_counted(job, case) < LEAST_CLEAR:
        reason = "less than 20 mm is left inside; give more depth"
        raise PlacedFaultError(("case", case.name, "depth"), reason)


def check_dado(job: Job, case: Case) -> None:
    """Raise PlacedFaultError where a dado goes through the board that it is cut in."""
    thickness, unit = job.thickness(case.material), job.unit
    if case.joint == "dado" and case.dado >= thickness:
        usual = table_defaults("case", unit)["dado"]
        reason = (
            f"{with_unit(case.dado, unit)} deep goes through a board of"
            f" {with_unit(thickness, unit)}; give less, {usual} {unit} if it is left out"
        )
        raise PlacedFaultError(("case", case.name, "dado"), reason)


def check_place(job: Job, case: Case) -> str | None:
    """Say what cannot be between a hung case and its doorway; None where all can."""
    door = doorway(job, case)
    if case.kind != "hung" or door is None or not isinstance(case.width, int):
        return None
    width, unit = outside_width(job, case), job.unit
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
    door = doorway(job, case)
    if case.kind != "hung" or door is None or not isinstance(case.height, int):
        return None
    height, unit = outside_height(job, case), job.unit
    if height + case.above_floor <= max(door.heights):
        return None
    up = with_unit(case.above_floor, unit)
    return (
        f"{with_unit(height, unit)} outside and {up} above the floor is higher than its doorway, "
        f"{with_unit(max(door.heights), unit)}; at most "
        f"{with_unit(door.clear_height - door.head_gap - case.above_floor, unit)} would make "
        "sense; measure again, or leave height out and the doorway gives it"
    )
