"""A swing tried out in small steps of angle, with the shapes turned by a general library."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import Polygon, affinity, unary_union
from shapely.geometry.base import BaseGeometry

from solver.doorway.swing_scene import (
    Shape,
    Swing,
    carried,
    case_outlines,
    hinge_jamb,
    latch_jamb,
    surroundings,
)

STEP = 0.05
"""Step of the sweep [degrees]."""
SHARED = 400.0
"""Shared area above which shapes overlap [square ticks]; less is a touch, or rounding."""


@dataclass(frozen=True)
class Stepped:
    """What the sweep met."""

    binds_at: float | None
    """The first step at which something overlaps [degrees]."""
    nearest: float
    """Least distance of the case itself from the latch jamb on any step [tick]."""


def outline(shapes: Sequence[Shape]) -> BaseGeometry:
    """All shapes as one."""
    return unary_union([Polygon(shape.corners) for shape in shapes])


def stepped(swing: Swing, opens_to: int, step: float = STEP) -> Stepped:
    """Turn the case step by step and look."""
    case, moving = outline(case_outlines(swing)), outline((*case_outlines(swing), *carried(swing)))
    latch = outline((latch_jamb(swing),))
    still = outline((hinge_jamb(swing), latch_jamb(swing), *surroundings(swing)))
    binds, near = None, float("inf")
    for number in range(int(opens_to / step) + 1):
        angle = number * step
        near = min(near, affinity.rotate(case, angle, origin=(0, 0)).distance(latch))
        turned = affinity.rotate(moving, angle, origin=(0, 0))
        if binds is None and turned.intersection(still).area > SHARED:
            binds = angle
            break
    return Stepped(binds, near)


def stepped_passage(swing: Swing, angle: float) -> float:
    """Clear way from the latch jamb back to the bounding box of the turned case [tick]."""
    moving = outline((*case_outlines(swing), *carried(swing)))
    reach = affinity.rotate(moving, angle, origin=(0, 0)).bounds[2] + swing.pin[0]
    return float(swing.opening - max(0.0, reach))
