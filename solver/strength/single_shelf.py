"""One shelf by itself: how far it sags under a load, against every named limit."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from solver.errors import InputError
from solver.strength.beams import LIMITS, SagLimit, long_term
from solver.strength.constants import MM_PER_INCH, MPA_PER_PSF, NEWTONS_PER_POUND, STANDARD_GRAVITY
from solver.strength.shelf_beams import ShelfBeam

FORMS = "50psf, 40 lb/ft2, 195 kg/m2, 2.4 kPa, 20 lb/ft, 30 kg/m, 45 lb, 20 kg"
_FOOT = 12 * MM_PER_INCH
_KILOGRAM = STANDARD_GRAVITY
_UNITS: dict[str, tuple[Literal["area", "length", "all"], float]] = {
    "psf": ("area", MPA_PER_PSF),
    "lb/ft2": ("area", MPA_PER_PSF),
    "lb/sqft": ("area", MPA_PER_PSF),
    "kg/m2": ("area", _KILOGRAM / 1e6),
    "n/m2": ("area", 1e-6),
    "pa": ("area", 1e-6),
    "kpa": ("area", 1e-3),
    "kn/m2": ("area", 1e-3),
    "lb/ft": ("length", NEWTONS_PER_POUND / _FOOT),
    "plf": ("length", NEWTONS_PER_POUND / _FOOT),
    "lb/in": ("length", NEWTONS_PER_POUND / MM_PER_INCH),
    "kg/m": ("length", _KILOGRAM / 1000),
    "n/m": ("length", 1e-3),
    "lb": ("all", NEWTONS_PER_POUND),
    "lbs": ("all", NEWTONS_PER_POUND),
    "kg": ("all", _KILOGRAM),
    "n": ("all", 1.0),
}
_LOAD = re.compile(r"\s*(\d+(?:\.\d+)?|\.\d+)\s*([a-z]+(?:\s*/\s*[a-z]+[2²]?)?)\s*", re.IGNORECASE)


@dataclass(frozen=True)
class Load:
    """A load as a person gives it.

    Attributes
    ----------
    per
        What it is on: each area, each length of shelf, or the whole shelf.
    value
        [N/mm2], [N/mm] or [N].
    """

    per: Literal["area", "length", "all"]
    value: float

    def total(self, span: float, depth: float) -> float:
        """Return the load on a whole shelf of that span and depth [mm]: [N]."""
        if self.per == "area":
            return self.value * span * depth
        return self.value * span if self.per == "length" else self.value


def parse_load(text: str) -> Load:
    """Read a load; InputError with the forms that work."""
    match = _LOAD.fullmatch(text)
    unit = re.sub(r"\s", "", match[2]).replace("²", "2").lower() if match else ""
    if match is None or unit not in _UNITS:
        msg = f"{text.strip()!r} is not a load; forms that work: {FORMS}"
        raise InputError(msg)
    per, factor = _UNITS[unit]
    if not float(match[1]) > 0:
        msg = f"{text.strip()!r}: a load above 0 is wanted"
        raise InputError(msg)
    return Load(per, float(match[1]) * factor)


@dataclass(frozen=True)
class LimitCheck:
    """How a shelf stands to one limit.

    Attributes
    ----------
    limit
        Which.
    sag, allowed
        Sag that it looks at, of the first day or after years, and what it allows [mm].
    longest
        Longest span at this limit under the same load on each length [mm].
    load
        Most load on this span at this limit [N].
    """

    limit: SagLimit
    sag: float
    allowed: float
    longest: float
    load: float

    @property
    def kept(self) -> bool:
        """Whether the limit is kept."""
        return self.sag <= self.allowed * (1 + 1e-9)


@dataclass(frozen=True)
class Deflection:
    """Answer to the single question; lengths [mm], own weight of the shelf not counted."""

    span: float
    first_day: float
    long_term: float
    limits: tuple[LimitCheck, ...]

    @property
    def ratio(self) -> float:
        """N of span / n, first day [-]."""
        return self.span / self.first_day

    @property
    def long_ratio(self) -> float:
        """N of span / n, long-term [-]."""
        return self.span / self.long_term


def deflection(beam: ShelfBeam, load: float) -> Deflection:
    """Return the sag of a shelf under `load` [N] spread evenly, without its own weight.

    Published span limits are worked out in the same way, so that the two can be compared.
    """
    weightless = ShelfBeam(beam.span, beam.stiffness, 0.0)
    first = weightless.first_day(load)
    after = long_term(first)
    checks = (
        _checked(weightless, load, limit, after if limit.long_term else first) for limit in LIMITS
    )
    return Deflection(beam.span, first, after, tuple(checks))


def _checked(beam: ShelfBeam, load: float, limit: SagLimit, sag: float) -> LimitCheck:
    allowed = limit.allows(beam.span)
    return LimitCheck(limit, sag, allowed, beam.longest(load, limit), load * allowed / sag)
