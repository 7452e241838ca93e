"""How the boards of a case are joined and its back is fastened: what, how many, where.

All of it is common practice, no source: shops differ, and the drawing has the last word.
"""

from __future__ import annotations

from solver.carcass.boards_of_case import lip_sizes
from solver.job.case import Case
from solver.job.job import Job
from solver.plan.built import CasePlan
from solver.plan.hanging import BackFixing, Joint
from solver.strength.constants import MM_PER_INCH
from solver.strength.screws import SCREWS, screws_in_joint
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, with_unit

FIRST = TICKS_PER_INCH * 5 // 4
"""First and last screw of a joint from the board's edges: 1 to 1-1/2 in [tick]."""
THIN = TICKS_PER_INCH * 9 // 16
"""Boards thinner than this take a thinner screw [tick]."""
BITES: dict[Unit, Ticks] = {"in": TICKS_PER_INCH * 5 // 4, "mm": 30 * TICKS_PER_MM}
"""Least length of a screw in the board's end, beyond the side that it goes through [tick]."""
LENGTHS: dict[Unit, tuple[Ticks, ...]] = {
    "in": tuple(TICKS_PER_INCH * quarters // 4 for quarters in (5, 6, 7, 8, 10, 12)),
    "mm": tuple(TICKS_PER_MM * mm for mm in (30, 35, 40, 45, 50, 60, 70, 80)),
}
"""Lengths in which such screws are sold [tick]."""
SPACING: dict[Unit, Ticks] = {"in": 6 * TICKS_PER_INCH, "mm": 150 * TICKS_PER_MM}
"""Fasteners of the back; staples 4 to 6 in apart at edges, 6 to 8 along shelves [tick]."""
PINS = 2
"""Pins at each end of a shelf on pins [-]."""
MEETS = "where shelves of two bays meet at an upright, slant the screws of one or dowel it"


def gauge(thickness: Ticks) -> str:
    """Return the screw size for boards of a thickness."""
    return "#6" if thickness < THIN else "#8"


def screw_size(size: str, unit: Unit) -> str:
    """Write a screw size as it is bought: `#10`, and in metric jobs with its shank in mm."""
    if unit == "in":
        return size
    return f"{SCREWS[size].shank * MM_PER_INCH:.1f} mm ({size})"


def screw_text(thickness: Ticks, unit: Unit) -> str:
    """Return the screw that goes through a side into a board's end: `#8 x 2 in screw`."""
    least = thickness + BITES[unit]
    length = next((one for one in LENGTHS[unit] if one >= least), LENGTHS[unit][-1])
    if unit == "in":
        return f"{gauge(thickness)} x {with_unit(length, unit)} screw"
    return f"{'3.5' if gauge(thickness) == '#6' else '4'} x {with_unit(length, unit)} screw"


def screw_places(depth: Ticks, start: Ticks, step: Ticks) -> tuple[Ticks, ...]:
    """Return where the screws of a joint go, from the front edge of the side [tick].

    Parameters
    ----------
    depth
        Of the board [tick].
    start
        Its front edge behind that of the side [tick].
    step
        Marking step, to which all but the margins are rounded [tick].
    """
    count = screws_in_joint(depth / TICKS_PER_INCH)
    first = min(FIRST, depth // 4)
    between = depth - 2 * first
    return tuple(_marked(start + first + between * at // (count - 1), step) for at in range(count))


def _marked(length: Ticks, step: Ticks) -> Ticks:
    """To the nearest marking step: a screw's place need not be truer [tick]."""
    return (length + step // 2) // step * step


def joints(job: Job, case: Case, planned: CasePlan) -> tuple[Joint, ...]:
    """Return how each kind of board of a case is joined, in the order of the parts."""
    depth, bays = planned.bays[0].inside.depth, planned.bays
    boards = (
        ("top", 1, depth),
        ("bottom", 1, depth),
        ("upright", len(bays) - 1, depth),
        ("toe", 1 if case.raised_bottom else 0, case.raised_bottom),
        ("shelf", sum(len(bay.shelves) for bay in bays), depth - lip_sizes(job, case)[0]),
    )
    return tuple(
        _joint(job, case, name, (2 * count, deep), len(bays) > 1)
        for name, count, deep in boards
        if count
    )


def _joint(job: Job, case: Case, name: str, ends: tuple[int, Ticks], bays: bool) -> Joint:
    """`ends` is their number and how deep the board is [tick]."""
    count, depth = ends
    if name == "shelf" and case.fixing == "pins":
        return Joint(part=name, ends=count, fasteners=PINS, fastener="shelf pin")
    if name != "toe" and case.joint == "dado":
        return Joint(part=name, ends=count, fasteners=0, fastener="", also="glue in the dado")
    start = lip_sizes(job, case)[0] if name == "shelf" else 0
    places = screw_places(depth, start, job.head.marking_step)
    return Joint(
        part=name,
        ends=count,
        fasteners=len(places),
        fastener=screw_text(job.thickness(case.material), job.unit),
        from_front=() if name == "toe" else places,
        also=f"glue; {MEETS}" if name == "shelf" and bays else "glue",
    )


def back_fixing(job: Job, case: Case, planned: CasePlan) -> BackFixing | None:
    """Return how the back is fastened; None without one."""
    if case.back == "none":
        return None
    spacing, size = SPACING[job.unit], planned.outside
    around = 2 * (-(-size.width // spacing) + -(-size.height // spacing))
    fixed = [
        bay.inside.width
        for bay in planned.bays
        for _ in (bay.shelves if case.fixing == "fixed" else ())
    ]
    fixed += [planned.bays[0].inside.height] * (len(planned.bays) - 1)
    across = sum(max(1, -(-length // spacing) - 1) for length in fixed)
    return BackFixing(spacing=spacing, around=around, across=across)
