"""Units inside the formulas of this package: millimetres, newtons, newtons per mm2.

Everywhere else lengths are ticks and masses are grams. They come in through :func:`millimetres`
and :func:`newtons`, and go out through the functions that round to the safe side.
"""

from __future__ import annotations

from math import ceil, floor

from solver.units import GRAMS_PER_POUND, TICKS_PER_MM, Grams, Ticks

MM_PER_INCH = 25.4
STANDARD_GRAVITY = 9.80665
"""[m/s2], by definition."""
NEWTONS_PER_POUND = float(GRAMS_PER_POUND) / 1000 * STANDARD_GRAVITY
"""[N/lbf]"""
MPA_PER_PSI = NEWTONS_PER_POUND / MM_PER_INCH**2
"""[N/mm2 per psi]"""
MPA_PER_PSF = MPA_PER_PSI / 144
"""[N/mm2 per lb/ft2]"""
KILOGRAMS_PER_MM3 = float(GRAMS_PER_POUND) / 1000 / (12 * MM_PER_INCH) ** 3
"""[kg/mm3 per lb/ft3]"""

_NOISE = 1e-9
"""Relative rounding error of a double that stands for a whole number, at most [-]."""


def millimetres(ticks: Ticks) -> float:
    """Return a length [tick] in millimetres [mm]."""
    return ticks / TICKS_PER_MM


def newtons(grams: float) -> float:
    """Return the weight [N] of a mass [g]."""
    return grams / 1000 * STANDARD_GRAVITY


def grams_of(force: float) -> float:
    """Return the mass [g] whose weight is `force` [N]."""
    return force / STANDARD_GRAVITY * 1000


def ticks_up(length: float) -> Ticks:
    """Round a length [mm] up to whole ticks: for a sag, a gap that is needed [tick]."""
    return ceil(length * TICKS_PER_MM * (1 - _NOISE))


def ticks_down(length: float) -> Ticks:
    """Round a length [mm] down to whole ticks: for a limit, a span that is allowed [tick]."""
    return floor(length * TICKS_PER_MM * (1 + _NOISE))


def grams_down(force: float) -> Grams:
    """Round a force [N] down to the weight of whole grams, 0 at least: a load allowed [g]."""
    return max(0, floor(grams_of(force) * (1 + _NOISE)))


def grams_up(force: float) -> Grams:
    """Round a force [N] up to the weight of whole grams: a load to be borne [g]."""
    return ceil(grams_of(force) * (1 - _NOISE))
