"""What a sag grows to in years under a load that stays."""

from __future__ import annotations

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
