"""Evidence for trim, hardware and finish: plinths, flutes, waste, pins, paint."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from functools import partial

from solver.evidence.check import Check, Footing
from solver.flutes import flute_width, margin
from solver.hardware.areas import SQUARE_METRES_PER_FT2
from solver.hardware.finish import ML_PER_GALLON, millilitres
from solver.strength.joints import PINS
from solver.trim.allowance import with_waste
from solver.units import TICKS_PER_INCH, inches

TRIM, FLUTES, BUYING = "trim", "flutes", "buying and finish"
FLUTE_PAGE = "woodweb.com Flute_Size_and_Spacing"


def _in(ticks: int) -> float:
    return ticks / TICKS_PER_INCH


def _flute(width: str, count: int) -> float:
    return _in(flute_width(inches(width), count, "in"))


def _margin(width: str, count: int, flute: str, space: str) -> float:
    return _in(margin(inches(width), count, inches(flute), inches(space)))


def _gallons(area: int, coats: int, coverage: float) -> float:
    """Gallons for so many square feet, nothing over."""
    found = millilitres(area * SQUARE_METRES_PER_FT2, coats, coverage, 0, "in")
    return float(Fraction(found) / ML_PER_GALLON)


CHECKS: tuple[Check, ...] = (
    Check(
        FLUTES, "three flutes on a 3-1/2 in stile", FLUTE_PAGE, Footing.READ, 0.5, 0, "in",
        partial(_flute, "3-1/2", 3),
    ),
    Check(
        FLUTES, "four flutes on a 3-1/2 in stile", FLUTE_PAGE, Footing.READ, 0.375, 0, "in",
        partial(_flute, "3-1/2", 4),
    ),
    Check(
        FLUTES, "flat beside three 3/4 in flutes on 4 in, 1/2 in apart",
        "(4 - 3 x 3/4 - 2 x 1/2) / 2", Footing.ARITHMETIC, 0.375, 0, "in",
        partial(_margin, "4", 3, "3/4", "1/2"),
    ),
    Check(
        BUYING, "to buy for a need of 100 with 30 % waste",
        "woodweb.com Quantifying_the_Waste_Factor", Footing.READ, 143, 0, "",
        lambda: float(with_waste(100, Decimal("0.30"))),
    ),
    Check(
        BUYING, "shelf supports of four shelves", "paperzz.com 7843242", Footing.READ, 16, 0, "",
        lambda: float(4 * 2 * PINS),
    ),
    Check(
        BUYING, "primer for 300 ft2 at 300 ft2 a gallon, one coat",
        "engineerfix.com how-much-paint-do-you-need-for-cabinets-2", Footing.ARITHMETIC, 1, 0.001,
        "gal", partial(_gallons, 300, 1, 300),
    ),
    Check(
        BUYING, "topcoat for 350 ft2 at 350 ft2 a gallon, two coats",
        "engineerfix.com how-much-paint-do-you-need-for-cabinets-2", Footing.ARITHMETIC, 2, 0.001,
        "gal", partial(_gallons, 350, 2, 350),
    ),
)  # fmt: skip
"""Evidence for trim and hardware."""
