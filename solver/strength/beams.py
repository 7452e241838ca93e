"""Deflection of straight beams, by the equation and the coefficients of the Wood Handbook.

Every function takes any one set of units that belong together: lb and in with psi, or
N and mm with N/mm2.

Source: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), Eq. 9-2 and
Table 9-1 (p. 9-2). Assumed: an elastic beam of one section, small deflections, loads at
rest. Not covered: creep (:mod:`solver.strength.creep`), play and give of the supports.
"""

from __future__ import annotations

from typing import NamedTuple


class Coefficients(NamedTuple):
    """k_b for bending and k_s for shear [-]."""

    bending: float
    shear: float


UNIFORM = Coefficients(5 / 384, 1 / 8)
"""Load spread evenly, both ends simply supported, at midspan."""
UNIFORM_CLAMPED = Coefficients(1 / 384, 1 / 8)
"""Load spread evenly, both ends clamped, at midspan."""
MIDSPAN = Coefficients(1 / 48, 1 / 4)
"""One load at midspan, both ends simply supported."""
MIDSPAN_CLAMPED = Coefficients(1 / 192, 1 / 4)
"""One load at midspan, both ends clamped."""
QUARTER_POINTS = Coefficients(11 / 768, 1 / 8)
"""Half the load at each outer quarter point, simply supported, at midspan."""
AT_QUARTER_POINT = Coefficients(1 / 96, 1 / 8)
"""The same, under a load."""
CANTILEVER_UNIFORM = Coefficients(1 / 8, 1 / 2)
"""Cantilever, load spread evenly, at the free end."""
CANTILEVER_END = Coefficients(1 / 3, 1.0)
"""Cantilever, load at the free end, there."""


def inertia(breadth: float, height: float) -> float:
    """Second moment of area of a rectangle, b h3 / 12 [length to the fourth]."""
    return breadth * height**3 / 12


def bending(k: Coefficients, load: float, span: float, stiffness: float) -> float:
    """Bending deflection k_b W L3 / (E I) [length].

    Parameters
    ----------
    k
        Coefficients of the way it is loaded and held [-].
    load
        Total load W, not load per length [force].
    span
        Clear span L [length].
    stiffness
        E I [force x length squared].
    """
    return k.bending * load * span**3 / stiffness


def shear(k: Coefficients, load: float, span: float, rigidity: float) -> float:
    """Shear deflection k_s W L / (G A') [length], `rigidity` being G A' [force].

    Tabulated E is from beams of span 14 times their height and has shear in it already
    (Wood Handbook Table 5-3, footnote c): it is not added to a deflection worked out with
    such an E. At a shelf's slenderness it is about 2 per cent.
    """
    return k.shear * load * span / rigidity


def effective_area(breadth: float, height: float) -> float:
    """A' = 5 b h / 6 of a rectangle [area]. Wood Handbook Eq. 9-4, from memory."""
    return 5 * breadth * height / 6


def patch(load: float, start: float, end: float, span: float, stiffness: float) -> float:
    """Deflection at midspan under a load spread evenly from `start` to `end` [length].

    Point loads of w dx at x give w x (3 L2 - 4 x2) / (48 E I) for x up to L/2, and the same
    from the other end; integrated, so that start = 0 and end = L give UNIFORM. The greatest
    deflection may lie beside midspan; of one load anywhere it is at most 2.6 per cent more.

    Parameters
    ----------
    load
        Total of the load [force].
    start, end
        Where it stands, from the left support; 0 <= start < end <= span [length].
    span, stiffness
        As in :func:`bending`.
    """
    middle = span / 2
    left = _integral(min(end, middle), span) - _integral(min(start, middle), span)
    right = _integral(span - max(start, middle), span) - _integral(span - max(end, middle), span)
    return load / (end - start) * (left + right) / (48 * stiffness)


def _integral(x: float, span: float) -> float:
    return 1.5 * span**2 * x**2 - x**4
