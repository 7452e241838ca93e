"""Waste as the trade reckons it: a share of what is bought, not of what is needed.

So what is to be bought is need / (1 - waste): 100 at 30 % is 143, not 130; woodweb.com
Quantifying the Waste Factor. Small jobs are governed by pieces, not by area: the plan of the
sheets decides, and the shops' average stands beside it to compare.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from solver.bought import SheetUse
from solver.plan import Option
from solver.trim.allowance import with_waste
from solver.units import TICKS_PER_MM

SQUARE_METRE = (1000 * TICKS_PER_MM) ** 2
"""[square tick]"""
USUAL = Decimal("0.15")
"""Waste of cabinet shops on average, sheet and solid together: woodweb.com Woodshop Waste
Percentage [-]."""


def waste(need: Decimal, bought: Decimal) -> Decimal:
    """Share of what is bought that is not used [-]; both in one unit, `bought` above 0."""
    return 1 - need / bought


def sheet_uses(option: Option) -> Iterator[SheetUse]:
    """Yield, for each material, how much of its sheets is used."""
    for material in dict.fromkeys(sheet.material for sheet in option.sheets):
        sheets = [sheet for sheet in option.sheets if sheet.material == material]
        need = sum(piece.length * piece.width for sheet in sheets for piece in sheet.pieces)
        there = sum(sheet.length * sheet.width for sheet in sheets)
        each = Decimal(there) / len(sheets)
        yield SheetUse(
            material=material,
            sheets=len(sheets),
            need=_square_metres(need),
            area=_square_metres(there),
            waste=waste(Decimal(need), Decimal(there)).quantize(Decimal("0.01")),
            by_area=(Decimal(with_waste(need, USUAL)) / each).quantize(Decimal("0.1")),
        )


def _square_metres(ticks: int) -> Decimal:
    return (Decimal(ticks) / SQUARE_METRE).quantize(Decimal("0.01"))
