"""Tipping of a case that stands free, and the pull on the fixings of one that hangs on a wall.

Any one set of units that belong together.
"""

from __future__ import annotations

from solver.strength.amounts import MM_PER_INCH, NEWTONS_PER_POUND

TEST_PULL = 10 * NEWTONS_PER_POUND
"""Horizontal pull at a hand-hold [N]. ASTM F2057-23, as quoted in 88 FR 28408."""
TEST_HEIGHT = 56 * MM_PER_INCH
"""Highest hand-hold of that test [mm]."""
TEST_EDGE_LOAD = 60 * NEWTONS_PER_POUND
"""Load on an open edge of the same standard [N]."""
TEST_TILT = 0.43 * MM_PER_INCH
"""How much lower the front stands in that test, as on carpet [mm]."""


def tipping_pull(weight: float, behind: float, height: float) -> float:
    """Horizontal pull at `height` at which a case begins to tip forward, W x / h [force].

    `behind` is how far its centre of gravity lies behind the front edge it tips over
    [length]. Assumed: level floor, nothing fixed, no sliding.
    """
    return weight * behind / height


def behind_when_tilted(behind: float, height: float, tilt: float) -> float:
    """How far the centre of gravity lies behind the front edge on a floor that tilts [length].

    x - y tan(tilt), with `tilt` as drop over depth [-] and the centre `height` up.
    """
    return behind - height * tilt


def edge_load(weight: float, behind: float, overhang: float) -> float | None:
    """Load on an edge `overhang` in front of the tipping line that tips it [force].

    W x / overhang; None where the edge is not in front of it, so that no load there tips.
    """
    return weight * behind / overhang if overhang > 0 else None


def wall_tension(weight: float, out: float, lever: float) -> float:
    """Pull out of the wall on the upper fixing of a hung case, W x / v [force].

    `out` is how far the centre of gravity stands out from the wall, `lever` the height from
    the lowest point that bears on the wall to the fixing [length].
    """
    return weight * out / lever


def studs_behind(width: float, spacing: float) -> int:
    """Studs that a case `width` wide is sure to cross at that spacing [length]: width / spacing.

    At least one; fewer than two means finding them first, or a cleat that reaches further.
    """
    return max(1, int(width // spacing))
