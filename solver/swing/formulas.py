"""The closed formulas of a square-edged case with the pin on the line of the hinge jamb.

They hold where the pin is level with the latch jamb as the corner passes (practice: the pin at
the wall's face); the general tests of :mod:`solver.swing.limits` agree with them there.
All in whole ticks: roots are taken of whole numbers and rounded to the safe side.
"""

from __future__ import annotations

from math import isqrt

from solver.units import Ticks


def root_up(square: int) -> Ticks:
    """Square root, rounded up [tick]."""
    root = isqrt(square)
    return root if root * root == square else root + 1


def sweep_radius(width: Ticks, depth: Ticks, aside: Ticks, proud: Ticks = 0) -> Ticks:
    """Radius of the far corner: R = sqrt((a + w)^2 + (p + d)^2), rounded up [tick]."""
    return root_up((aside + width) ** 2 + (proud + depth) ** 2)


def latch_gap(
    width: Ticks, depth: Ticks, aside: Ticks, clearance: Ticks, proud: Ticks = 0
) -> Ticks:
    """Gap at the latch: g = R - (a + w) + c, rounded up [tick]."""
    return sweep_radius(width, depth, aside, proud) - (aside + width) + clearance


def latch_gap_proud(
    width: Ticks, depth: Ticks, aside: Ticks, clearance: Ticks, proud: Ticks
) -> Ticks:
    """Gap at a jamb that ends at the face, the pin proud of it, rounded up [tick].

    The formula is g = sqrt((R + c)^2 - p^2) - (a + w).
    """
    radius = sweep_radius(width, depth, aside, proud) + clearance
    return root_up(radius**2 - proud**2) - (aside + width)


def widest_case(
    opening: Ticks, depth: Ticks, aside: Ticks, clearance: Ticks, proud: Ticks = 0
) -> Ticks:
    """Widest case: w = sqrt((W - c)^2 - (p + d)^2) - a, down [tick]; 0 if none is left."""
    square = (opening - clearance) ** 2 - (proud + depth) ** 2
    return max(0, isqrt(square) - aside) if square > 0 else 0


def deepest_case(
    opening: Ticks, width: Ticks, aside: Ticks, clearance: Ticks, proud: Ticks = 0
) -> Ticks:
    """Deepest case: d = sqrt((W - c)^2 - (a + w)^2) - p, down [tick]; 0 if none is left."""
    square = (opening - clearance) ** 2 - (aside + width) ** 2
    return max(0, isqrt(square) - proud) if square > 0 else 0


def narrowest_opening(
    width: Ticks, depth: Ticks, aside: Ticks, clearance: Ticks, proud: Ticks = 0
) -> Ticks:
    """Narrowest opening: W = R + c, rounded up [tick]."""
    return sweep_radius(width, depth, aside, proud) + clearance


def back_relief(width: Ticks, depth: Ticks, gap: Ticks) -> Ticks:
    """How far the back must be in for a gap: b = w - sqrt((w + g)^2 - d^2), rounded up [tick]."""
    square = (width + gap) ** 2 - depth**2
    return max(0, width - (isqrt(square) if square > 0 else 0))
