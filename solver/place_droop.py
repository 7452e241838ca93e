"""Droop that the size of a hung case allows for, before anything is planned.

The weight is not known yet: all things of the job are taken to stand in the case, with the
most shelves that it may have, so that the planned case droops no more than this.
"""

from __future__ import annotations

from solver.carcass.sizes import back_thickness
from solver.case import Case
from solver.doorway import Doorway
from solver.geometry import case_parts, lip_sizes, mass_of
from solver.job import Job
from solver.strength.amounts import KILOGRAMS_PER_MM3, STANDARD_GRAVITY, millimetres, ticks_up
from solver.strength.hinge_places import least_spread
from solver.strength.hinges import LEAST_HINGES, PLAY, droop
from solver.strength.shelf_beams import board_of, wood_of
from solver.strength.stability import PANEL_SHEAR, panel_droop
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, round_up

SPARE = TICKS_PER_INCH // 4
"""Height that droop and rounding take off: hinges are reckoned so much nearer [tick]."""
STEP: dict[Unit, Ticks] = {"in": TICKS_PER_INCH // 32, "mm": TICKS_PER_MM // 2}
"""Steps in which the droop is allowed for: nobody hangs a case truer [tick]."""


def droop_allowed(job: Job, case: Case, door: Doorway, most: tuple[Ticks, Ticks, Ticks]) -> Ticks:
    """Return how far the latch edge of a hung case may come down, up to a whole step [tick].

    Parameters
    ----------
    job, case
        With everything that may stand in the case.
    door
        Its doorway; old mortises say how far the hinges are apart.
    most
        Outside width and height and inside depth that it may come to, droop left aside [tick].
    """
    wide, high, _ = most
    if high <= LEAST_HINGES * SPARE:
        return 0
    apart = least_spread(door, wide, high - SPARE)
    sizes = millimetres(wide), millimetres(high - SPARE)
    found = droop(PLAY, sizes[0], millimetres(apart))
    back = back_thickness(job, case)
    if back:
        weight = _most_weight(job, case, most)
        found += panel_droop(weight, (*sizes, millimetres(back)), PANEL_SHEAR)
    return round_up(ticks_up(found), STEP[job.unit])


def _most_weight(job: Job, case: Case, most: tuple[Ticks, Ticks, Ticks]) -> float:
    """Everything in the job, and the box with the most shelves [N]."""
    bays, shelves = case.bay_counts[-1], case.shelf_counts[-1]
    wide, high, depth = most
    size = {"width": wide, "height": high, "sizes": "outside", "uprights": bays - 1}
    single = case.model_copy(update=size)
    kilograms = sum(mass_of(job, item)[0] * item.count for item in job.items) / 1000
    for part in case_parts(job, single, [shelves] * bays, depth):
        volume = millimetres(part.length) * millimetres(part.width) * millimetres(part.thickness)
        kilograms += volume * board_of(job, part.material).density * KILOGRAMS_PER_MM3
    if case.lip is not None:
        thick, above, below = (millimetres(one) for one in lip_sizes(job, case))
        section = thick * (above + below + millimetres(job.thickness(case.material)))
        density = wood_of(job, case.lip.moulding).density * KILOGRAMS_PER_MM3
        kilograms += section * millimetres(wide) * shelves * density
    return kilograms * STANDARD_GRAVITY
