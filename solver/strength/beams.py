"""Sag of a shelf as a simply supported beam, by the Wood Handbook (FPL-GTR-190, ch. 9).

Even and patch loads; the section of a shelf with a lip, by transformed sections; creep; the
longest span and the most load at a limit; the named limits that a sag is held against.

There is no shear term. Tabulated E is from beams of span 14 times their height and has shear in it
already (Wood Handbook Table 5-3, footnote c); at a shelf's slenderness shear is about 2 per cent.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.units import Unit

EVEN_LOAD = 5 / 384
"""k_b of a load spread evenly, both ends simply supported, at midspan: Wood Handbook Table 9-1 [-].
"""


def even_load_sag(load: float, span: float, stiffness: float) -> float:
    """Sag at midspan under a load spread evenly, 5 W L3 / (384 E I) [length].

    Parameters
    ----------
    load
        Total load W, not load per length [force].
    span
        Clear span L [length].
    stiffness
        E I [force x length squared].
    """
    return EVEN_LOAD * load * span**3 / stiffness


def patch(load: float, start: float, end: float, span: float, stiffness: float) -> float:
    """Sag at midspan under a load spread evenly from `start` to `end` [length].

    Point loads of w dx at x give w x (3 L2 - 4 x2) / (48 E I) for x up to L/2, and the same
    from the other end; integrated, so that start = 0 and end = L give the even load. The greatest
    deflection may lie beside midspan; of one load anywhere it is at most 2.6 per cent more.

    Parameters
    ----------
    load
        Total of the load [force].
    start, end
        Where it stands, from the left support; 0 <= start < end <= span [length].
    span, stiffness
        As in :func:`even_load_sag`.
    """
    middle = span / 2
    left = _integral(min(end, middle), span) - _integral(min(start, middle), span)
    right = _integral(span - max(start, middle), span) - _integral(span - max(end, middle), span)
    return load / (end - start) * (left + right) / (48 * stiffness)


def _integral(x: float, span: float) -> float:
    return 1.5 * span**2 * x**2 - x**4


def inertia(breadth: float, height: float) -> float:
    """Second moment of area of a rectangle, b h3 / 12 [length to the fourth]."""
    return breadth * height**3 / 12


@dataclass(frozen=True)
class SectionStrip:
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


def neutral_axis(strips: Sequence[SectionStrip]) -> float:
    """Height of the neutral axis, sum(E A y) / sum(E A) [length]."""
    return sum(s.axial * s.centre for s in strips) / sum(s.axial for s in strips)


def stiffness(strips: Sequence[SectionStrip]) -> float:
    """E I of the bonded section, sum(E I + E A (y - y0)2) [force x length squared]."""
    axis = neutral_axis(strips)
    return sum(
        s.modulus * inertia(s.breadth, s.height) + s.axial * (s.centre - axis) ** 2 for s in strips
    )


def shelf_strips(
    board: tuple[float, float, float], lip: tuple[float, float, float, float] | None
) -> tuple[SectionStrip, ...]:
    """Return the strips of a shelf, its lower face at level 0.

    Parameters
    ----------
    board
        (breadth, thickness, E) of the board alone.
    lip
        (thickness front to back, above the shelf, below it, E) of the lip; None: no lip.
    """
    breadth, thickness, modulus = board
    shelf = SectionStrip(breadth, thickness, 0.0, modulus)
    if lip is None:
        return (shelf,)
    thick, above, below, lip_modulus = lip
    return shelf, SectionStrip(thick, thickness + above + below, -below, lip_modulus)


CREEP_FACTOR = 2.0
"""Long-term sag over first-day sag [-].

Wood Handbook FPL-GTR-190 ch. 5, p. 5-38: "after several years the additional deformation
caused by creep may approximately equal the initial, instantaneous elastic deformation".
AWC NDS 3.5.2 has 1.5 for seasoned lumber and 2.0 otherwise; the larger is taken. A rise of
28 C can double or treble creep: a case above a radiator is outside this.
"""


def long_term(first_day: float) -> float:
    """Return the sag after years, twice that of the first day [the unit of `first_day`]."""
    return CREEP_FACTOR * first_day


MIDSPAN_SHARE = (8, 5)
"""Sag under a load gathered at midspan, the worst place, over that of the same load spread evenly:
k_b 1/48 over 5/384, as numerator and denominator [-]."""


def end_load_share(width: float, span: float, margin: float) -> float:
    """Sag under one thing at the end of a shelf, over that of its load spread evenly [-].

    A thing sags the shelf least at an end, `margin` from the support. The share is 0 for a
    narrow thing close to the support, and up to 1.14 for one three quarters as wide as the span.
    """
    start = max(0.0, min(margin, span - width))
    there = patch(1.0, start, min(span, start + width), span, 1.0)
    return there / even_load_sag(1.0, span, 1.0)


def inset_load_share(span: float, margin: float) -> float:
    """Sag under a load spread evenly but for a `margin` at each end, over that without any [-]."""
    there = patch(1.0, margin, span - margin, span, 1.0)
    return there / even_load_sag(1.0, span, 1.0)


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
    return float((stiffness / (EVEN_LOAD * ratio * per_length)) ** (1 / 3))


def most_load(span: float, stiffness: float, ratio: float) -> float:
    """Most load, spread evenly, that sags a shelf no more than span / n [force].

    W = E I / (k_b n L2); own weight of the shelf is part of W.
    """
    return stiffness / (EVEN_LOAD * ratio * span**2)


@dataclass(frozen=True)
class SagLimit:
    """A named limit of sag.

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
"""All named limits, the strictest for the first day among the first two."""
HARD_LIMITS: dict[str, tuple[SagLimit, ...]] = {
    "industry": (INDUSTRY,),
    "display": (DISPLAY_FIRST, DISPLAY_LONG, INDUSTRY),
    "none": (),
}
"""What shelves are held to, by the word of the job."""


def first_day_ratio(limit: SagLimit, creep: float) -> float:
    """Return n of span / n that the sag of the first day must keep [-]."""
    return limit.ratio * creep if limit.long_term else limit.ratio
