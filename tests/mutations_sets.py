"""The part of :mod:`tests.mutations` that is about matched sets."""

from __future__ import annotations

from solver.checking.findings import Code
from solver.plan.stocked import MatchedSet
from tests.edits import both, in_job, in_option
from tests.mutations_cutting import Change

SHELVES = tuple(f"hall/bay-{bay}-shelf-{k}" for bay in (1, 2) for k in (1, 2))


def _granted(sheet: int) -> Change:
    """Wish for matched shelves, and say that they lie on that sheet one after another."""
    said = MatchedSet(name="hall: shelves", parts=SHELVES, granted=True, sheet=sheet, laid="along")
    return both(in_job("cases.0.matched", True), in_option("sets", (said,)))


SETS: dict[Code, Change] = {
    Code.SETS_LISTED: in_job("cases.0.matched", True),
    # The backs' sheet has none of them.
    Code.SETS_SHEET: _granted(2),
    # On the boards' sheet the first shelf lies in another strip than the others.
    Code.SETS_SEQUENCE: _granted(1),
}
"""All of them."""
