"""Keeping a hung case from racking: what the back does, and the joints without one.

Any one set of units that belong together.
"""

from __future__ import annotations

from solver.strength.amounts import MM_PER_INCH, MPA_PER_PSI

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
