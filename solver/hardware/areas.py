"""Areas as people of the job's unit read them."""

from __future__ import annotations

from fractions import Fraction

from solver.units import Unit

SQUARE_METRES_PER_FT2 = Fraction(3048, 10000) ** 2


def area_text(area: Fraction, unit: Unit, places: int = 0) -> str:
    """Write an area [m2] in the job's unit, to so many places of ft2, one more of m2 [-]."""
    if unit == "in":
        return f"{float(area / SQUARE_METRES_PER_FT2):.{places}f} ft2"
    return f"{float(area):.{places + 1}f} m2"
