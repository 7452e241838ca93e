"""Areas to sand and to finish."""

from __future__ import annotations

from decimal import Decimal

from solver.hardware.finish import area_of
from solver.hardware.needs import Held


def finished_area(held: Held) -> Decimal:
    """Area of a case that is sanded and finished, to 0.01 m2: that which paint is bought for."""
    area = area_of(held).square_metres
    return (Decimal(area.numerator) / area.denominator).quantize(Decimal("0.01"))
