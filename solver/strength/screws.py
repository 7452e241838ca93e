"""What screws and nails hold, in withdrawal and sideways.

Ultimate loads are means of tests, at which the joint fails; allowable ones are what the
design standard permits. A figure here never says which it is by its size: the name does.
Inches and pounds, as the formulas were fitted; the metric form of withdrawal beside them.
"""

from __future__ import annotations

from dataclasses import dataclass

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
