"""Weight and centre of gravity of a case, empty and with its contents.

The sum of volume x density over the parts, and of the things as they stand. Assumed: the parts of
the box lie evenly over its width and height, and all but the back evenly over its inside depth.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from solver.carcass.boards_of_case import lip_sizes
from solver.carcass.trim_face import doorway, face_of, leg_moulding, leg_name, new_casing
from solver.job.job import Job
from solver.plan.built import CasePlan, Placement
from solver.plan.plan import Option
from solver.strength.constants import KILOGRAMS_PER_MM3, STANDARD_GRAVITY, millimetres
from solver.strength.shelf_beams import board_of, wood_of
from solver.units import Grams


@dataclass(frozen=True)
class Mass:
    """A mass [kg] and where it lies: from the left, the front, the bottom end [mm]."""

    kilograms: float
    x: float
    z: float
    y: float

    @property
    def weight(self) -> float:
        """[N]."""
        return self.kilograms * STANDARD_GRAVITY

    @property
    def grams(self) -> Grams:
        """Rounded up [g]."""
        return ceil(self.kilograms * 1000 - 1e-6)


def combined_mass(masses: list[Mass]) -> Mass:
    """Return the sum of masses, at their common centre of gravity."""
    total = sum(mass.kilograms for mass in masses)
    if not total:
        return Mass(0.0, 0.0, 0.0, 0.0)
    x, z, y = (
        sum(mass.kilograms * getattr(mass, axis) for mass in masses) / total
        for axis in ("x", "z", "y")
    )
    return Mass(total, x, z, y)


def empty_case(job: Job, option: Option, planned: CasePlan) -> Mass:
    """Return the mass of the box: boards, back, lips, and casing that travels with it."""
    case, size = job.case(planned.name), planned.outside
    depth = millimetres(planned.bays[0].inside.depth)
    wide, high = millimetres(size.width), millimetres(size.height)
    parts = [
        Mass(
            millimetres(part.length)
            * millimetres(part.width)
            * millimetres(part.thickness)
            * board_of(job, part.material).density
            * KILOGRAMS_PER_MM3,
            wide / 2,
            depth + millimetres(part.thickness) / 2 if part.name == "back" else depth / 2,
            high / 2,
        )
        for part in option.parts
        if part.case == planned.name
    ]
    if case.lip is not None:
        thick, above, below = (millimetres(length) for length in lip_sizes(job, case))
        section = thick * (above + below + millimetres(job.thickness(case.material)))
        density = wood_of(job, case.lip.moulding).density * KILOGRAMS_PER_MM3
        shorter = millimetres(case.pin_clearance) if case.fixing == "pins" else 0.0
        parts += [
            Mass(
                section * (millimetres(bay.inside.width) - shorter) * density,
                wide / 2,
                thick / 2,
                high / 2,
            )
            for bay in planned.bays
            for _ in bay.shelves
        ]
    return combined_mass([*parts, *_trim_carried(job, planned)])


def _trim_carried(job: Job, planned: CasePlan) -> Iterator[Mass]:
    """Mass of the legs of new casing that a hung case carries, each as wide as it lies."""
    case, high = job.case(planned.name), millimetres(planned.outside.height)
    order, face = new_casing(case), face_of(job, case) if case.kind == "hung" else None
    if order is None or face is None or planned.swing is None:
        return
    door = doorway(job, case)
    carried = {choice.name for choice in planned.swing.trim if choice.travels}
    stock = leg_moulding(job, order)
    density = wood_of(job, stock.name).density * KILOGRAMS_PER_MM3
    for leg in face.legs:
        if leg_name(leg.side) in carried:
            section = millimetres(stock.width) * millimetres(stock.thickness)
            mirrored = door is not None and door.hinge_side == "right"
            at_right = (leg.side == "latch") != mirrored
            out = millimetres(planned.outside.width) if at_right else 0.0
            long = millimetres(leg.height - face.foot)
            yield Mass(section * long * density, out, 0.0, high / 2)


def things_in(planned: CasePlan) -> Iterator[Placement]:
    """Yield everything that stands in a case."""
    for bay in planned.bays:
        for opening in bay.openings:
            yield from opening.items


def contents(planned: CasePlan) -> Mass:
    """Mass of everything that stands in a case, each thing at its middle."""
    return combined_mass(
        [
            Mass(
                thing.mass / 1000,
                millimetres(bay.x + thing.x) + millimetres(thing.width) / 2,
                millimetres(thing.z) + millimetres(thing.depth) / 2,
                millimetres(opening.floor + thing.y) + millimetres(thing.height) / 2,
            )
            for bay in planned.bays
            for opening in bay.openings
            for thing in opening.items
        ]
    )
