"""Beams by the Wood Handbook: deflection, lipped sections, creep, gathered loads, longest spans.

The named limits that a sag is held against.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from solver.units import Unit

CREEP_FACTOR = 2.0
"""Long-term sag over first-day sag [-].

Wood Handbook FPL-GTR-190 ch. 5, p. 5-38: "after several years the additional deformation
caused by creep may approximately equal the initial, instantaneous elastic deformation".
AWC NDS 3.5.2 has 1.5 for seasoned lumber and 2.0 otherwise; the larger is taken. A rise of
28 C can double or treble creep: a case above a radiator is outside this.
"""
CREEP_SEASONED = 1.5
"""The same for seasoned lumber, AWC NDS 3.5.2 [-]."""


def long_term(first_day: float, factor: float = CREEP_FACTOR) -> float:
    """Return the sag after years, factor x first-day sag [the unit of `first_day`]."""
    return factor * first_day


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


@dataclass(frozen=True)
class Strip:
    """One rectangle of the section.

    Attributes
    ----------
    breadth, height
        Front to back, and up and down [length].
    bottom
        Height of its lower edge above any common level [length].
    modulus
        Its E along the span [force / length squared].
    """

    breadth: float
    height: float
    bottom: float
    modulus: float

    @property
    def axial(self) -> float:
        """E A [force]."""
        return self.modulus * self.breadth * self.height

    @property
    def centre(self) -> float:
        """Height of its centre [length]."""
        return self.bottom + self.height / 2


def neutral_axis(strips: Sequence[Strip]) -> float:
    """Height of the neutral axis, sum(E A y) / sum(E A) [length]."""
    return sum(s.axial * s.centre for s in strips) / sum(s.axial for s in strips)


def stiffness(strips: Sequence[Strip]) -> float:
    """E I of the bonded section, sum(E I + E A (y - y0)2) [force x length squared]."""
    axis = neutral_axis(strips)
    return sum(
        s.modulus * inertia(s.breadth, s.height) + s.axial * (s.centre - axis) ** 2 for s in strips
    )


def shelf_strips(
    board: tuple[float, float, float], lip: tuple[float, float, float, float] | None
) -> tuple[Strip, ...]:
    """Return the strips of a shelf, its lower face at level 0.

    Parameters
    ----------
    board
        (breadth, thickness, E) of the board alone.
    lip
        (thickness front to back, above the shelf, below it, E) of the lip; None: no lip.
    """
    breadth, thickness, modulus = board
    shelf = Strip(breadth, thickness, 0.0, modulus)
    if lip is None:
        return (shelf,)
    thick, above, below, lip_modulus = lip
    return shelf, Strip(thick, thickness + above + below, -below, lip_modulus)


MOST = (8, 5)
"""A load gathered at midspan sags a shelf 8/5 of the same load spread evenly (k_b 1/48 over
5/384), no load more [-]."""


def least_share(width: float, span: float, margin: float) -> float:
    """Sag under one thing where it sags the shelf least, over that of its load spread evenly [-].

    That is at one end, `margin` from the support: 0 for a thing that is narrow and may stand
    close to it, up to 1.14 for one three quarters as wide as the span.
    """
    start = max(0.0, min(margin, span - width))
    there = patch(1.0, start, min(span, start + width), span, 1.0)
    return there / bending(UNIFORM, 1.0, span, 1.0)


def even_share(span: float, margin: float) -> float:
    """Sag under a load spread evenly but for a `margin` at each end, over that without any [-]."""
    there = patch(1.0, margin, span - margin, span, 1.0)
    return there / bending(UNIFORM, 1.0, span, 1.0)


def longest_span(per_length: float, stiffness: float, ratio: float) -> float:
    """Longest span L of an evenly loaded shelf that sags no more than L / n [length].

    5 q L4 / (384 E I) = L / n, so L = (384 E I / (5 n q)) ^ 1/3.

    Source: Wood Handbook Eq. 9-2 with k_b = 5/384; reproduces the twelve lengths printed
    in Architectural Woodwork Standards 1st ed. 4.4.14.10.11-.13. Simply supported ends, no
    shear, no creep.

    Parameters
    ----------
    per_length
        Load q on each length of shelf [force / length].
    stiffness
        E I [force x length squared].
    ratio
        n [-].
    """
    return float((stiffness / (UNIFORM.bending * ratio * per_length)) ** (1 / 3))


def most_load(span: float, stiffness: float, ratio: float) -> float:
    """Most load, spread evenly, that sags a shelf no more than span / n [force].

    W = E I / (k_b n L2); own weight of the shelf is part of W.
    """
    return stiffness / (UNIFORM.bending * ratio * span**2)


@dataclass(frozen=True)
class SagLimit:
    """One limit.

    Attributes
    ----------
    key
        For programs.
    named
        For people, in an inch job and in a metric one.
    ratio
        n of span / n [-].
    long_term
        Whether it holds for the sag after years, not for that of the first day.
    source
        Where it comes from.
    """

    key: str
    named: tuple[str, str]
    ratio: float
    long_term: bool
    source: str

    def name(self, unit: Unit) -> str:
        """Return its name for people in the unit of their job."""
        return self.named[unit == "mm"]

    def allows(self, span: float) -> float:
        """Return the most sag that it allows at a span [the unit of `span`]."""
        return span / self.ratio


DISPLAY_FIRST = SagLimit(
    "display-first",
    ("display, first day: L/600, 0.02 in/ft", "display, first day: L/600, 1.7 mm/m"),
    12 / 0.02,
    long_term=False,
    source="the eye notices 1/32 in per foot: issuhub.com 5674 p. 25; no standard",
)
DISPLAY_LONG = SagLimit(
    "display-long",
    ("display, long-term: L/384, 1/32 in/ft", "display, long-term: L/384, 2.6 mm/m"),
    12 * 32,
    long_term=True,
    source="the eye notices 1/32 in per foot: issuhub.com 5674 p. 25; no standard",
)
PANEL_MAKERS = SagLimit(
    "panel-makers",
    ("panel makers: L/240",) * 2,
    240,
    long_term=False,
    source="joneakes.com Pro Shelving that does not Sag",
)
INDUSTRY = SagLimit(
    "industry",
    ("industry's maximum: L/144",) * 2,
    144,
    long_term=False,
    source="Architectural Woodwork Standards, 1st ed. (2009), section 10, 1.2.21.3.1.1",
)

LIMITS = (DISPLAY_FIRST, DISPLAY_LONG, PANEL_MAKERS, INDUSTRY)
"""All of them, the one with the least sag of the first day first or second."""
HARD_LIMITS: dict[str, tuple[SagLimit, ...]] = {
    "industry": (INDUSTRY,),
    "display": (DISPLAY_FIRST, DISPLAY_LONG, INDUSTRY),
    "none": (),
}
"""What shelves are held to, by the word of the job."""


def first_day_ratio(limit: SagLimit, creep: float) -> float:
    """Return n of span / n that the sag of the first day must keep [-]."""
    return limit.ratio * creep if limit.long_term else limit.ratio
