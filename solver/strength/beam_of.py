"""A shelf as a beam: section from the sizes, own weight, sag under what stands on it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from solver.boards import Board
from solver.strength.amounts import (
    KILOGRAMS_PER_MM3,
    MPA_PER_PSI,
    STANDARD_GRAVITY,
    grams_down,
)
from solver.strength.beams import (
    CREEP_FACTOR,
    UNIFORM,
    bending,
    longest_span,
    most_load,
    patch,
    shelf_strips,
    stiffness,
)
from solver.strength.limits import SagLimit, first_day_ratio
from solver.units import Grams

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
        return bending(UNIFORM, load, self.span, self.stiffness)

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
