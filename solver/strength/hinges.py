"""Hinges: the pull, how many, what size, and the rating to ask for.

Any one set of units that belong together, but for the tables, which are in inches.
"""

from __future__ import annotations

from math import ceil, hypot

from solver.strength.constants import MM_PER_INCH

EN_1935_ARM, EN_1935_SPREAD = 500.0, 1540.0
"""Arm and hinge spacing of the door that hinges are rated on, EN 1935 as quoted by
techgoggler.com: 2000 x 1000 mm, hinges 1540 mm apart [mm]."""
LEAST_HINGES = 3
"""Hinges of a loaded case, at least: practice, jlconline.com A Door in Disguise [-]."""


def pull(weight: float, arm: float, spread: float) -> float:
    """Horizontal pull on the top hinge, and push on the bottom one, W a / s [force].

    Statics; OpenStax University Physics vol. 1, Example 12.6. Assumed: two hinges take all
    of it (those between them take none), plumb pins, the weight at rest.

    Parameters
    ----------
    weight
        W [force].
    arm
        Plan distance a of the centre of gravity from the line of the pins [length].
    spread
        Vertical distance s of top and bottom hinge, centre to centre [length].
    """
    return weight * arm / spread


def plan_arm(across: float, back: float) -> float:
    """Plan distance of a point from the pins, from its distances along and square to the case.

    sqrt(across2 + back2) [length]: a case is deep, so half its width is not the whole arm.
    """
    return hypot(across, back)


def pull_with(weight: float, arm: float, spread: float, edge: tuple[float, float]) -> float:
    """Pull with a load hung on the open latch edge as well, (W a + P r) / s [force].

    `edge` is the load P [force] and its distance r from the pins [length]. Both are taken
    to pull the same way, which is the worst.
    """
    load, reach = edge
    return (weight * arm + load * reach) / spread


def hinge_count(height: float) -> int:
    """Hinges of an ordinary door by its height [in]: 2 to 60, one more for each further 30 [-].

    NFPA 80 6.4, as quoted.
    """
    return 2 if height <= 60 else 2 + ceil((height - 60) / 30)


def case_hinge_count(height: float) -> int:
    """Hinges of a loaded case by its height [in]: by the rule for doors, and never under three."""
    return max(LEAST_HINGES, hinge_count(height))


LEAF_HEIGHTS = ((36.0, 4.5), (48.0, 5.0))
"""Leaf height by width of a door 1-3/4 in thick, both in [in]: butt-hinge table of the trade,
bigsurspiritgarden.com where-should-door-hinges-be-placed."""


def leaf_height(width: float) -> float | None:
    """Height of a butt hinge's leaf by the width of the leaf it carries [in]; None over 48 in.

    A starting point for the size alone: the table is for doors, so the load rating decides.
    """
    return next((leaf for most, leaf in LEAF_HEIGHTS if width <= most), None)


def butt_width(thickness: float, projection: float) -> float:
    """Open width of a butt that throws clear of the casing, 2 t - 1/2 + projection [in].

    Building Trades Pocketbook, "Doors"; take the next size up.
    """
    return 2 * thickness - 0.5 + projection


def rated_weight(weight: float, arm: float, spread: float, margin: float) -> float:
    """Weight that the hinges must be rated for [the unit of `weight`].

    margin x W x the larger of 1 and (a / s) / (500 / 1540): a rating is for a door of
    ordinary shape (EN 1935), and a case whose pull is worse than that needs more.
    """
    reference = EN_1935_ARM / EN_1935_SPREAD
    return margin * weight * max(1.0, arm / spread / reference)


def droop(play: float, width: float, spread: float) -> float:
    """How far the latch edge hangs when the top hinge gives by `play`: e w / s [length].

    Similar triangles: the case turns about the bottom hinge.
    """
    return play * width / spread


PLAY = MM_PER_INCH / 32
"""Give of the top hinge that foot clearance allows for, 1/32 in: common practice [mm]."""
