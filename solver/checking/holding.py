"""Which bays a hold speaks of."""

from __future__ import annotations

from solver.checking.views import BayView
from solver.job.holds import Hold


def speaks_of(hold: Hold, bay: BayView) -> bool:
    """Whether a hold is about that bay, by the name of the case and its number where given."""
    return hold.case in (None, bay.case.plan.name) and hold.bay in (None, bay.bay.number)
