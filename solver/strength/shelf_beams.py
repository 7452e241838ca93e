"""A shelf of a case as a beam: section with its lip, own weight, sag, the sag limit as a load."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from solver.carcass.boards_of_case import lip_sizes
from solver.job.boards import BOARDS, UNKNOWN_BOARD, UNKNOWN_WOOD, Board
from solver.job.case import Case
from solver.job.job import Job
from solver.job.materials import SheetStock
from solver.strength.beams import (
    CREEP_FACTOR,
    HARD_LIMITS,
    SagLimit,
    even_load_sag,
    first_day_ratio,
    longest_span,
    most_load,
    patch,
    shelf_strips,
    stiffness,
)
from solver.strength.constants import (
    KILOGRAMS_PER_MM3,
    MPA_PER_PSI,
    STANDARD_GRAVITY,
    grams_down,
    millimetres,
)
from solver.units import Grams, Ticks

ASSUMED = (
    "ends simply supported (clamped ends, which no joint quite gives, would sag a fifth)",
    "face grain along the span, thickness as measured",
    "a lip glued over its whole length, the load shared over the depth of the shelf",
    "no shear: tabulated E is from beams that have it in them",
)
"""What every sag rests on."""


@dataclass(frozen=True)
class LipSize:
    """Lip of a shelf: thickness front to back, above the shelf, below it [mm], its wood."""

    thickness: float
    above: float
    below: float
    board: Board


@dataclass(frozen=True)
class ShelfBeam:
    """A shelf that spans between two supports.

    Attributes
    ----------
    span
        Clear width between the supports [mm].
    stiffness
        E I of shelf and lip together [N mm2].
    own
        Own weight of shelf and lip [N].
    """

    span: float
    stiffness: float
    own: float

    def first_day(self, load: float) -> float:
        """Sag under a load [N] spread evenly, own weight not counted [mm]."""
        return even_load_sag(load, self.span, self.stiffness)

    def own_sag(self) -> float:
        """Sag under its own weight alone [mm]."""
        return self.first_day(self.own)

    def under(self, things: Iterable[tuple[float, float, float]]) -> float:
        """Sag under things as they stand and its own weight [mm].

        Each is (weight [N], from, to [mm]), measured from the left support.
        """
        return self.own_sag() + sum(
            patch(weight, start, end, self.span, self.stiffness) for weight, start, end in things
        )

    def carries(self, limit: SagLimit) -> Grams:
        """Most load spread evenly, own weight taken off, that keeps a limit, rounded down [g]."""
        ratio = first_day_ratio(limit, CREEP_FACTOR)
        return grams_down(most_load(self.span, self.stiffness, ratio) - self.own)

    def longest(self, load: float, limit: SagLimit) -> float:
        """Longest span at a limit with `load` [N] and its own weight on each such span [mm]."""
        per_length = (load + self.own) / self.span
        return longest_span(per_length, self.stiffness, first_day_ratio(limit, CREEP_FACTOR))


def shelf_beam(
    sizes: tuple[float, float, float], board: Board, lip: LipSize | None = None
) -> ShelfBeam:
    """Make the beam of a shelf.

    Parameters
    ----------
    sizes
        (span, depth with the lip, thickness) [mm].
    board
        What the shelf is made of.
    lip
        Its lip, part of the depth; None: without one.
    """
    span, depth, thickness = sizes
    breadth = depth - (lip.thickness if lip else 0.0)
    bonded = (lip.thickness, lip.above, lip.below, lip.board.modulus * MPA_PER_PSI) if lip else None
    strips = shelf_strips((breadth, thickness, board.modulus * MPA_PER_PSI), bonded)
    kinds = (board, lip.board) if lip else (board,)
    kilograms = sum(
        strip.breadth * strip.height * span * kind.density * KILOGRAMS_PER_MM3
        for strip, kind in zip(strips, kinds, strict=True)
    )
    return ShelfBeam(span, stiffness(strips), kilograms * STANDARD_GRAVITY)


def board_of(job: Job, material: str) -> Board:
    """Return what a sheet's material is made of; an unknown core where the job does not say."""
    named = job.ground.boards.get(material)
    return BOARDS[named] if named else UNKNOWN_BOARD


def wood_of(job: Job, moulding: str) -> Board:
    """Return what a moulding is made of; the least stiff wood where the job does not say."""
    named = job.ground.boards.get(moulding)
    return BOARDS[named] if named else UNKNOWN_WOOD


def thinnest(job: Job, material: str) -> Ticks:
    """Thickness of a material as measured, or the least of a band not measured yet [tick]."""
    sheet: SheetStock = next(sheet for sheet in job.sheets if sheet.material == material)
    return sheet.thickness if sheet.band is None else sheet.band.least


def spans_at_bottom(case: Case) -> bool:
    """Whether the bottom board spans from side to side.

    A case that stands rests on the floor or on its toe, and a toe carries it elsewhere too.
    """
    return case.kind in ("hung", "wall") and case.raised_bottom == 0


def beam_of_shelf(job: Job, case: Case, width: Ticks, depth: Ticks, index: int) -> ShelfBeam:
    """Return the beam of a shelf, or with `index` 0 of the bottom board, which has no lip.

    `width` is the clear width between its supports, `depth` with the lip [tick].
    """
    t = millimetres(thinnest(job, case.material))
    sizes = (millimetres(width), millimetres(depth), t)
    lip = lip_of(job, case) if index else None
    return shelf_beam(sizes, board_of(job, case.material), lip)


def lip_of(job: Job, case: Case) -> LipSize | None:
    """Return the lip of a case's shelves; None without one."""
    if case.lip is None:
        return None
    thick, above, below = lip_sizes(job, case)
    wood = wood_of(job, case.lip.moulding)
    return LipSize(millimetres(thick), millimetres(above), millimetres(below), wood)


def sag_load(job: Job, case: Case, width: Ticks, depth: Ticks, index: int) -> Grams | None:
    """Most load, spread evenly, at which a board keeps the limit of the job [g].

    None where no limit is held or the board does not span. Own weight is taken off. A load
    gathered at midspan sags a shelf by up to 8/5 of this; that is judged where things stand.
    """
    limits = HARD_LIMITS[job.ground.sag]
    if not limits or (index == 0 and not spans_at_bottom(case)):
        return None
    shelf = beam_of_shelf(job, case, width, depth, index)
    return min(shelf.carries(limit) for limit in limits)
