"""Areas to sand and to finish."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from solver.stocked import Part
from solver.units import TICKS_PER_MM

SQUARE_METRE = (1000 * TICKS_PER_MM) ** 2
"""Square ticks in a square metre."""


def faces(parts: Iterable[Part]) -> Decimal:
    """Both faces of all parts, to 0.01 m2 [m2]; edges are left to the allowance in the time."""
    ticks = sum(2 * part.length * part.width for part in parts)
    return (Decimal(ticks) / SQUARE_METRE).quantize(Decimal("0.01"))
