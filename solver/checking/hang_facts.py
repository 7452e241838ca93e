"""What a case weighs and where it turns or tips, worked out here from the plan and the job alone.

Moments are summed about the lower front left corner of the case; lengths in mm, forces in N.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from math import hypot

from solver.checking.trim import carried
from solver.checking.views import CaseView, OptionView
from solver.job.boards import BOARDS, UNKNOWN_BOARD, UNKNOWN_WOOD, Board
from solver.job.doorway import Doorway
from solver.plan.built import Placement
from solver.plan.hanging import HangSheet
from solver.plan.stocked import Part
from solver.units import GRAMS_PER_POUND, TICKS_PER_MM

GRAVITY = 9.80665  # m/s2
INCH = 25.4  # mm
POUND = float(GRAMS_PER_POUND) / 1000 * GRAVITY  # N
NO_PIN_GAP = INCH / 8
"""Pins beside the case where no doorway says it [mm]."""

Moment = tuple[float, float, float, float]
"""(kg, kg x mm from the left, from the front, from the bottom)."""


@dataclass(frozen=True)
class Load:
    """Weight [N] and its place from the left, the front and the bottom [mm]."""

    weight: float
    x: float
    z: float
    y: float

    @property
    def grams(self) -> float:
        """The mass that weighs it [g]."""
        return self.weight / GRAVITY * 1000


@dataclass(frozen=True)
class CaseFacts:
    """One case of sound size, beside what the plan says of how it is held."""

    view: CaseView
    sheet: HangSheet
    parts: tuple[Part, ...]

    @cached_property
    def door(self) -> Doorway | None:
        """The doorway that it goes into."""
        doors = self.view.job.doorways
        return next((one for one in doors if one.name == self.view.case.doorway), None)

    @property
    def width(self) -> float:
        """Outside [mm]."""
        return self.view.plan.outside.width / TICKS_PER_MM

    @property
    def height(self) -> float:
        """Outside [mm]."""
        return self.view.plan.outside.height / TICKS_PER_MM

    @property
    def depth(self) -> float:
        """Outside [mm]."""
        return self.view.plan.outside.depth / TICKS_PER_MM

    @property
    def inner(self) -> float:
        """Inside depth [mm]."""
        return self.view.depth / TICKS_PER_MM

    @property
    def back(self) -> float:
        """Thickness of the back, 0 without one [mm]."""
        return self.view.back / TICKS_PER_MM

    @cached_property
    def things(self) -> tuple[Placement, ...]:
        """All that stands in it."""
        return tuple(thing for _, _, thing in _standing(self.view))

    @cached_property
    def empty(self) -> Load:
        """The box: every part lies evenly over the outside, the back behind the rest."""
        boards = (_of_part(self, part) for part in self.parts)
        return _summed([*boards, *_lips(self), *_casing(self)])

    @cached_property
    def inside(self) -> Load:
        """All that stands in it, each thing at its middle."""
        moments = []
        for left, floor, thing in _standing(self.view):
            x = (left + thing.x + thing.width / 2) / TICKS_PER_MM
            z = (thing.z + thing.depth / 2) / TICKS_PER_MM
            y = (floor + thing.y + thing.height / 2) / TICKS_PER_MM
            moments.append(_moment(thing.mass / 1000, x, z, y))
        return _summed(moments)

    @cached_property
    def loaded(self) -> Load:
        """Case and contents."""
        return combined(self.empty, self.inside)

    @cached_property
    def full(self) -> Load:
        """The case with every shelf at its load limit, spread evenly."""
        grams = sum(opening.load_limit for bay in self.view.plan.bays for opening in bay.openings)
        limit = Load(grams / 1000 * GRAVITY, self.width / 2, self.inner / 2, self.height / 2)
        return combined(self.empty, limit)

    @property
    def spread(self) -> float:
        """From the top hinge to the bottom one, as the plan has them [mm]."""
        hinges = self.sheet.hinges
        return (hinges[-1].from_top - hinges[0].from_top) / TICKS_PER_MM if hinges else 0.0

    def across(self, x: float) -> float:
        """Distance along the case from the pins to a point, `x` from its left [mm]."""
        door = self.door
        if door is None:
            return x + NO_PIN_GAP
        led = self.width - x if door.hinge_side == "right" else x
        if door.pin.inside is not None:
            return abs(led - door.pin.inside / TICKS_PER_MM)
        aside = door.hinge_gap if door.pin.aside is None else door.pin.aside
        return led + aside / TICKS_PER_MM

    def square(self, z: float) -> float:
        """Distance square to the case from the pins to a point, `z` from its front [mm]."""
        door = self.door
        if door is None:
            return z
        led = self.depth - z if door.swing == "in" else z
        return abs(led + (door.pin.proud - door.pin.behind) / TICKS_PER_MM)

    @property
    def reach(self) -> float:
        """From the pins to the latch edge, along the case [mm]."""
        right = self.door is not None and self.door.hinge_side == "right"
        return self.across(0.0 if right else self.width)

    def pull(self, load: Load) -> float:
        """On the top hinge: moments of the weight about the bottom one, along and square [N]."""
        along, square = load.weight * self.across(load.x), load.weight * self.square(load.z)
        return hypot(along, square) / self.spread


def facts(view: OptionView) -> Iterator[CaseFacts]:
    """Yield every case of sound size that the plan has a sheet of."""
    hanging = view.option.hanging
    if hanging is None:
        return
    sheets = {sheet.case: sheet for sheet in hanging.cases}
    for case in view.cases:
        size, sheet = case.plan.outside, sheets.get(case.plan.name)
        if sheet is None or min(size.width, size.height, size.depth) <= 0 or not case.plan.bays:
            continue
        parts = tuple(part for part in view.option.parts if part.case == case.plan.name)
        known = CaseFacts(case, sheet, parts)
        if known.empty.weight > 0:
            yield known


def combined(one: Load, two: Load) -> Load:
    """Return two loads as one."""
    return _summed([_moment(load.weight / GRAVITY, load.x, load.z, load.y) for load in (one, two)])


def board(view: CaseView, material: str, unknown: Board = UNKNOWN_BOARD) -> Board:
    """Return what a material or moulding is made of, as the job says."""
    return BOARDS.get(view.job.ground.boards.get(material, ""), unknown)


def _standing(view: CaseView) -> Iterator[tuple[int, int, Placement]]:
    """(left of its bay, floor of its opening, the thing)."""
    for bay in view.plan.bays:
        for opening in bay.openings:
            for thing in opening.items:
                yield bay.x, opening.floor, thing


def _moment(kilograms: float, x: float, z: float, y: float) -> Moment:
    return kilograms, kilograms * x, kilograms * z, kilograms * y


def _summed(moments: list[Moment]) -> Load:
    total = sum(one[0] for one in moments)
    if total <= 0:
        return Load(0.0, 0.0, 0.0, 0.0)
    x, z, y = (sum(one[axis] for one in moments) / total for axis in (1, 2, 3))
    return Load(total * GRAVITY, x, z, y)


def _of_part(case: CaseFacts, part: Part) -> Moment:
    thick = part.thickness / TICKS_PER_MM
    volume = part.length * part.width / TICKS_PER_MM**2 * thick
    mass = volume * _density(board(case.view, part.material))
    z = case.inner + thick / 2 if part.name == "back" else case.inner / 2
    return _moment(mass, case.width / 2, z, case.height / 2)


def _lips(case: CaseFacts) -> Iterator[Moment]:
    """One lip to a shelf: as long as its bay is wide, less the pin clearance of a shelf on pins."""
    view, ordered = case.view, case.view.case
    if ordered.lip is None:
        return
    thick, above, below = (one / TICKS_PER_MM for one in view.lip)
    high = view.thickness / TICKS_PER_MM + above + below
    less = ordered.pin_clearance if ordered.fixing == "pins" else 0
    density = _density(board(view, ordered.lip.moulding, UNKNOWN_WOOD))
    for bay in view.plan.bays:
        length = (bay.inside.width - less) / TICKS_PER_MM
        for _ in bay.shelves:
            mass = thick * high * length * density
            yield _moment(mass, case.width / 2, thick / 2, case.height / 2)


def _casing(case: CaseFacts) -> Iterator[Moment]:
    """New casing that travels with the case, at the edge that carries it."""
    for name, length, at in carried(case.view):
        stock = case.view.job.moulding(name)
        volume = stock.width * stock.thickness * length / TICKS_PER_MM**3
        mass = volume * _density(board(case.view, name, UNKNOWN_WOOD))
        yield _moment(mass, at / TICKS_PER_MM, 0.0, case.height / 2)


def _density(of: Board) -> float:
    """[kg/mm3] from [lb/ft3]."""
    return of.density * float(GRAMS_PER_POUND) / 1000 / (12 * INCH) ** 3
