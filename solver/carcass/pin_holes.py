"""The holes for shelf pins: where the first is, how far apart, how many.

All from the end of the sides that everything is marked from. 5 mm holes at 32 mm, the front
column 37 mm from the front edge: davelers.com/32mm/4988.html.
"""

from __future__ import annotations

from solver.carcass.outline import floor_height
from solver.job.case import Case
from solver.job.job import Job
from solver.plan.built import CasePlan
from solver.quantities import Length, Model
from solver.units import TICKS_PER_MM

HOLE = 5 * TICKS_PER_MM
"""Diameter of a pin [tick]."""
IN_FROM_EDGE = 37 * TICKS_PER_MM
"""Columns from the front edge, and from the back of the shelf [tick]."""
COLUMNS = 4
"""In each bay: two in its left board, two in its right one [-]."""


class PinHoles(Model):
    """The pin holes of one bay; every column is drilled alike, from the same end."""

    case: str
    bay: int
    first: Length
    """Centre of the lowest hole above the bottom end of the sides."""
    pitch: Length
    count: int
    """In each column."""
    columns: int
    diameter: Length
    front: Length
    """Front column from the front edge of the side."""
    rear: Length
    """Rear column from the same edge."""

    @property
    def total(self) -> int:
        """Holes of the bay [-]."""
        return self.count * self.columns


def pin_holes(job: Job, case: Case, planned: CasePlan) -> tuple[PinHoles, ...]:
    """Return the holes of each bay; none where shelves are fixed.

    The lowest hole carries a shelf whose underside is `first_hole` up; the highest leaves the
    least clear height over a shelf on it.
    """
    if case.fixing != "pins":
        return ()
    t = job.thickness(case.material)
    holes = []
    for bay in planned.bays:
        top = floor_height(job, case) + bay.inside.height
        room = top - job.look.clear_least - t - case.first_hole
        holes.append(
            PinHoles(
                case=case.name,
                bay=bay.number,
                first=case.first_hole - HOLE // 2,
                pitch=case.pin_pitch,
                count=max(0, room // case.pin_pitch + 1),
                columns=COLUMNS,
                diameter=HOLE,
                front=IN_FROM_EDGE,
                rear=bay.inside.depth - IN_FROM_EDGE,
            )
        )
    return tuple(holes)
