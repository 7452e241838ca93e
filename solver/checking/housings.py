"""The rule on housings opposite each other in an upright, restated from the plan alone."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from solver.checking.findings import Code, Finding
from solver.checking.views import BayView, CaseView, at_least
from solver.plan.built import Shelf
from solver.units import Ticks


def opposite(view: CaseView) -> Iterator[Finding]:
    """Shelves housed from both sides of an upright at one height leave a third of it."""
    case = view.case
    if case.joint != "dado" or case.fixing != "fixed":
        return
    thick = _thinnest(view)
    for left, right in pairwise(view.bays):
        if any(_overlap(a, b) for a in left.bay.shelves for b in right.bay.shelves):
            yield from at_least(
                Code.LAYOUT_HOUSINGS,
                _upright(view, left),
                "what opposite housings leave of it",
                (thick + 2) // 3,
                max(0, thick - 2 * case.dado),
                view.unit,
            )


def _upright(view: CaseView, left: BayView) -> str:
    return f"{view.where}, upright {left.bay.number}"


def _overlap(one: Shelf, other: Shelf) -> bool:
    """Whether some height is common to both boards; faces that only meet are apart."""
    return max(one.underside, other.underside) < min(one.top, other.top)


def _thinnest(view: CaseView) -> Ticks:
    """Thickness of an upright, the least where it is not measured yet [tick]."""
    bands = [s.band for s in view.job.sheets if s.material == view.case.material]
    return min((band.least for band in bands if band is not None), default=view.thickness)
