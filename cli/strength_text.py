"""Figures of strength as people read them, each rounded to its safe side."""

from __future__ import annotations

from math import ceil, floor

from solver.strength.amounts import MM_PER_INCH, NEWTONS_PER_POUND, STANDARD_GRAVITY
from solver.units import Unit

_NOISE = 1e-6


def sag_text(millimetres: float, unit: Unit, *, down: bool = False) -> str:
    """Write a small length [mm] in thousandths of an inch, or hundredths of a millimetre.

    Rounded up, as a sag must be; `down` for one that is allowed.
    """
    step, places = (MM_PER_INCH / 1000, 3) if unit == "in" else (0.01, 2)
    steps = millimetres / step
    whole = floor(steps + _NOISE) if down else ceil(steps - _NOISE)
    return f"{whole / 10**places:.{places}f} {unit}"


def size_text(millimetres: float, unit: Unit) -> str:
    """Write a length that is allowed [mm] to a tenth of an inch, or a millimetre, rounded down."""
    if unit == "in":
        return f"{floor(millimetres / MM_PER_INCH * 10 + _NOISE) / 10:.1f} in"
    return f"{floor(millimetres + _NOISE)} mm"


def force_text(newtons: float, unit: Unit, *, down: bool = False) -> str:
    """Write a force [N] as the mass that weighs it, pounds or kilograms to 0.1.

    Rounded up, as a load must be; `down` for one that is allowed.
    """
    tenths = newtons / (NEWTONS_PER_POUND if unit == "in" else STANDARD_GRAVITY) * 10
    whole = floor(tenths + _NOISE) if down else ceil(tenths - _NOISE)
    return f"{whole / 10:.1f} {'lb' if unit == 'in' else 'kg'}"


def ratio_text(ratio: float) -> str:
    """Write span over sag, rounded down: L/237."""
    return f"L/{floor(ratio + _NOISE)}"
