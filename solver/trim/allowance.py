"""The trade's allowance for running trim, beside what the sticks are planned to be."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from math import ceil

from solver.explained import Explained
from solver.job import Job
from solver.plan import Option
from solver.units import with_unit

PAINTED, CLEAR = Decimal("0.05"), Decimal("0.10")
"""woodweb.com Waste_Allowance_for_Running_Trim [-]."""


def with_waste(need: int, waste: Decimal) -> int:
    """Return what is bought where a share is lost: need / (1 - waste), rounded up.

    woodweb.com Quantifying_the_Waste_Factor.
    """
    return ceil(need / (1 - waste))


def allowances(job: Job, option: Option) -> Iterator[Explained]:
    """Yield, for each moulding, what the allowance would buy and what the plan buys."""
    waste = CLEAR if job.finished.kind == "clear" else PAINTED
    for name in dict.fromkeys(stick.stock for stick in option.mouldings):
        sticks = [stick for stick in option.mouldings if stick.stock == name]
        need = sum(piece.length for stick in sticks for piece in stick.pieces)
        planned = with_unit(sum(stick.length for stick in sticks), job.unit)
        yield Explained(
            what=f"{name} by the trade's allowance",
            value=f"{with_unit(with_waste(need, waste), job.unit)} (the plan's sticks: {planned})",
            formula=f"need / (1 - {waste}), and one stick to spare where it is stained",
            numbers=f"{with_unit(need, job.unit)} / {1 - waste}",
            source="woodweb.com Waste_Allowance_for_Running_Trim, Quantifying_the_Waste_Factor; "
            "a plan of the sticks says it exactly",
        )
