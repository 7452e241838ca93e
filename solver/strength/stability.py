"""Stability of a case: tipping where it stands free, pulling where it hangs, racking."""

from __future__ import annotations

from solver.strength.constants import MM_PER_INCH, MPA_PER_PSI, NEWTONS_PER_POUND

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


PANEL_SHEAR = 85_000 * MPA_PER_PSI
"""Edgewise shear modulus of plywood, low end of 85 to 110 ksi, matweb.com [N/mm2]."""
THIN_BACK = MM_PER_INCH * 5 / 32
"""Least thickness that counts as a back of 1/4 in or 6 mm as it is sold [mm]."""
THICK_BACK = MM_PER_INCH * 7 / 16
"""Least thickness that counts as a back of 1/2 in or 12 mm as it is sold [mm]."""
WIDE_CASE = 30 * MM_PER_INCH
"""Width over which a thick back is asked for [mm]."""


def shear_flow(weight: float, height: float) -> float:
    """Shear on each length of the back's edge, W / h [force / length].

    A case that hangs on one side hands all its weight to that side through the back.
    Assumed: the back is fastened all round; joints of the box take nothing.
    """
    return weight / height


def fastener_load(flow: float, spacing: float) -> float:
    """Load on one fastener of the back, flow x spacing [force]."""
    return flow * spacing


def panel_droop(weight: float, sizes: tuple[float, float, float], modulus: float) -> float:
    """Latch edge's droop from the shear of the back itself, W w / (2 G h t) [length].

    The shear grows from nothing at the latch edge to W at the hinges: W / 2 on average.
    Slip of the fasteners comes on top, and is more; glue all round does away with it.

    Parameters
    ----------
    weight
        W [force].
    sizes
        (width, height, thickness) of the back [length].
    modulus
        Edgewise shear modulus G [force / length squared].
    """
    width, height, thickness = sizes
    return weight * width / (2 * modulus * height * thickness)


def joint_moment(weight: float, width: float, boards: int) -> float:
    """Moment on each joint of a case without a back, W w / (4 n) [force x length].

    Each of the n boards between the two sides carries half of W / n on the average of the
    width, bends in a double curve, and takes that times w / 2 at each end. Sides much
    stiffer than the joints are assumed.
    """
    return weight * width / (4 * boards)


def back_needed(width: float) -> float:
    """Least thickness of the back of a hung case `width` wide [mm].

    Common practice: 1/4 in glued and fastened all round and to every fixed shelf; 1/2 in
    over about 30 in of width, or for books.
    """
    return THICK_BACK if width > WIDE_CASE else THIN_BACK
