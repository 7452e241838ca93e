"""What screws and nails hold, in withdrawal and sideways.

Ultimate loads are means of tests, at which the joint fails; allowable ones are what the
design standard permits. A figure here never says which it is by its size: the name does.
Inches and pounds, as the formulas were fitted; the metric form of withdrawal beside them.

How the boards of a case are joined and its back is fastened: what, how many, where.

All of it is common practice, no source: shops differ, and the drawing has the last word.
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

END_GRAIN = 0.75
"""End grain over side grain in withdrawal, Wood Handbook ch. 8 as quoted. NDS 12 says that
screws "should not be loaded in withdrawal from end grain" at all [-]."""
LATERAL_END_GRAIN = 2 / 3
"""End grain over side grain sideways, pre-1991 design values [-]."""


@dataclass(frozen=True)
class Screw:
    """A size of wood screw, ASME B18.6.1 as quoted by l-36.com.

    Attributes
    ----------
    name
        As it is asked for.
    shank, root
        Diameters [in].
    """

    name: str
    shank: float
    root: float


SCREWS: dict[str, Screw] = {
    name: Screw(name, shank, root)
    for name, shank, root in (
        ("#6", 0.138, 0.094),
        ("#8", 0.164, 0.112),
        ("#10", 0.190, 0.130),
        ("#12", 0.216, 0.148),
        ("#14", 0.242, 0.165),
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


def withdrawal_ultimate_metric(gravity: float, shank: float, thread: float) -> float:
    """The same, 108.25 G2 D L with D and L in mm [N]; Eq. 8-10a, as quoted."""
    return 108.25 * gravity**2 * shank * thread


def withdrawal_allowable(gravity: float, shank: float, thread: float) -> float:
    """Allowable withdrawal from side grain, 2850 G2 D L [lbf]; NDS ch. 12, as quoted.

    `gravity` is on oven-dry volume there, slightly more than at 12 %: taking that at 12 %
    errs to the safe side.
    """
    return 2850 * gravity**2 * shank * thread


def nail_withdrawal_ultimate(gravity: float, diameter: float, depth: float) -> float:
    """Ultimate withdrawal of a bright common nail, 7,850 G^(5/2) D L [lbf].

    Wood Handbook Eq. 8-1, as quoted; side grain, diameter D and depth L in [in].
    """
    return float(7_850 * gravity**2.5 * diameter * depth)


def nail_withdrawal_ultimate_metric(gravity: float, diameter: float, depth: float) -> float:
    """The same, 54.12 G^(5/2) D L with D and L in mm [N]."""
    return float(54.12 * gravity**2.5 * diameter * depth)


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
