"""The named limits that a sag is held against."""

from __future__ import annotations

from dataclasses import dataclass

from solver.units import Unit


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
