"""The stock of an option with what is there in its own size, and what came of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.job import Job
from solver.on_hand import HaveOutcome
from solver.planning.have_outcome import outcome
from solver.planning.have_sheets import as_they_are
from solver.planning.stock import StockAnswer
from solver.stocked import Part, Sheet


@dataclass(frozen=True)
class Drawn:
    """Sheets as they are, the parts that are cut from them, and the use of what is there."""

    sheets: tuple[Sheet, ...]
    to_cut: tuple[Part, ...]
    have: HaveOutcome | None


def drawn(job: Job, parts: Sequence[Part], stock: StockAnswer) -> Drawn:
    """Return the sheets of a stock as the shop finds them; None is told where nothing is there."""
    sheets, there = as_they_are(job, stock.sheets), {one.part for one in stock.used}
    return Drawn(
        sheets=sheets,
        to_cut=tuple(part for part in parts if part.id not in there),
        have=outcome(job, parts, stock.used, sheets, stock.sticks) if job.have else None,
    )
