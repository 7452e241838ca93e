"""Screws and other fasteners: withdrawal, lateral load, number, size and place in each joint.

An ultimate load is the mean of tests at which the joint fails; an allowable load is what the
design standard permits. The name of each function says which of the two it gives. Loads are in
pounds of sizes in inches, as the formulas were fitted.

How the boards of a case are joined and its back is fastened is common practice, no source: shops
differ, and the drawing has the last word.
"""

from __future__ import annotations

from dataclasses import dataclass

from solver.carcass.boards_of_case import lip_sizes
from solver.job.case import Case
from solver.job.job import Job
from solver.plan.built import CasePlan
from solver.plan.hanging import BackFixing, Joint
from solver.strength.constants import MM_PER_INCH
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, with_unit

LATERAL_END_GRAIN = 2 / 3
"""End grain over side grain sideways, pre-1991 design values [-]."""


@dataclass(frozen=True)
class Screw:
    """A size of wood screw, ASME B18.6.1 as quoted by l-36.com.

    Attributes
    ----------
    name
        As it is asked for.
    shank
        Shank diameter [in].
    """

    name: str
    shank: float


SCREWS: dict[str, Screw] = {
    name: Screw(name, shank)
    for name, shank in (
        ("#6", 0.138),
        ("#8", 0.164),
        ("#10", 0.190),
        ("#12", 0.216),
        ("#14", 0.242),
    )
}


def withdrawal_ultimate(gravity: float, shank: float, thread: float) -> float:
    """Ultimate withdrawal of a wood screw from side grain, 15,700 G2 D L [lbf].

    Wood Handbook FPL-GTR-282 Eq. 8-10b, as quoted. Lead hole about 70 per cent of the root
    diameter in softwood, 90 in hardwood. Plywood holds less than solid wood (J. Korean Wood
    Sci. Tech. 49(1) 93, 2021).

    Parameters
    ----------
    gravity
        Specific gravity at 12 % of the wood that the thread is in [-].
    shank
        Shank diameter D [in].
    thread
        Penetration L of the thread [in].
    """
    return 15_700 * gravity**2 * shank * thread


def withdrawal_allowable(gravity: float, shank: float, thread: float) -> float:
    """Allowable withdrawal from side grain, 2850 G2 D L [lbf]; NDS ch. 12, as quoted.

    `gravity` is on oven-dry volume there, slightly more than at 12 %: taking that at 12 %
    errs to the safe side.
    """
    return 2850 * gravity**2 * shank * thread


def lateral_allowable(gravity: float, shank: float) -> float:
    """Allowable load of a screw sideways in side grain, C D2 [lbf]: a rough check only.

    Pre-1991 design values, superseded by the yield model: C = 4800, 3960, 3240, 2520 for
    species groups I to IV. Which group a wood is in is taken from its specific gravity, at
    the bounds 0.60, 0.50 and 0.42, from memory and rounded to the safe side.
    """
    for least, factor in ((0.60, 4800), (0.50, 3960), (0.42, 3240)):
        if gravity >= least:
            return factor * shank**2
    return 2520 * shank**2


def screws_in_joint(depth: float) -> int:
    """Screws through a side into the end of a board `depth` deep [in]; at least two [-].

    Common practice: three to 10 in, four to 14 in, the first 1 to 1-1/2 in from each edge
    and 4 to 6 in apart; beyond that one more for each further 6 in.
    """
    if depth <= 4:
        return 2
    if depth <= 10:
        return 3
    extra = max(0.0, depth - 14)
    return 4 + int(-(-extra // 6))


EDGE_DISTANCE = TICKS_PER_INCH * 5 // 4
"""First and last screw of a joint from the edges of the board: 1 to 1-1/2 in [tick]."""
THIN_BOARD = TICKS_PER_INCH * 9 // 16
"""Boards thinner than this take a thinner screw [tick]."""
PENETRATION: dict[Unit, Ticks] = {"in": TICKS_PER_INCH * 5 // 4, "mm": 30 * TICKS_PER_MM}
"""Least penetration into the end of a board, beyond the side that the screw passes [tick]."""
SCREW_LENGTHS: dict[Unit, tuple[Ticks, ...]] = {
    "in": tuple(TICKS_PER_INCH * quarters // 4 for quarters in (5, 6, 7, 8, 10, 12)),
    "mm": tuple(TICKS_PER_MM * mm for mm in (30, 35, 40, 45, 50, 60, 70, 80)),
}
"""Lengths in which wood screws are sold [tick]."""
SPACING: dict[Unit, Ticks] = {"in": 6 * TICKS_PER_INCH, "mm": 150 * TICKS_PER_MM}
"""Between fasteners of the back; staples: 4 to 6 in at edges, 6 to 8 along shelves [tick]."""
PINS_PER_END = 2
"""Pins at each end of a shelf on pins [-]."""
OPPOSITE = "where shelves of two bays meet at an upright, slant the screws of one or dowel it"


def gauge(thickness: Ticks) -> str:
    """Return the screw size for boards of a thickness."""
    return "#6" if thickness < THIN_BOARD else "#8"


def screw_size(size: str, unit: Unit) -> str:
    """Write a screw size as it is bought: `#10`, and in metric jobs with its shank in mm."""
    if unit == "in":
        return size
    return f"{SCREWS[size].shank * MM_PER_INCH:.1f} mm ({size})"


def screw_text(thickness: Ticks, unit: Unit) -> str:
    """Return the screw that goes through a side into a board's end: `#8 x 2 in screw`."""
    least = thickness + PENETRATION[unit]
    length = next((one for one in SCREW_LENGTHS[unit] if one >= least), SCREW_LENGTHS[unit][-1])
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
    first = min(EDGE_DISTANCE, depth // 4)
    between = depth - 2 * first
    return tuple(_marked(start + first + between * at // (count - 1), step) for at in range(count))


def _marked(length: Ticks, step: Ticks) -> Ticks:
    """Round to the nearest marking step: a screw needs no truer place [tick]."""
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
    """Join the ends of one kind of board; `ends` is their number and the board's depth [tick]."""
    count, depth = ends
    if name == "shelf" and case.fixing == "pins":
        return Joint(part=name, ends=count, fasteners=PINS_PER_END, fastener="shelf pin")
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
        also=f"glue; {OPPOSITE}" if name == "shelf" and bays else "glue",
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
