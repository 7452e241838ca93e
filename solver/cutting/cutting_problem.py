"""The cutting problem: parts and stock of one material or one moulding, and how the shop cuts.

Callers split a list by material and thickness. All lengths are ticks of 1/320 mm.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, TypeAlias

from solver.units import Ticks, Unit

Stages: TypeAlias = Literal["2", "3", "any"]
FirstCut: TypeAlias = Literal["rip", "crosscut", "either"]


@dataclass(frozen=True)
class CutPart:
    """One piece to cut.

    Attributes
    ----------
    id
        Its name in the plan; unique within the problem.
    length, width
        Finished size; the length lies along the sheet's length unless turned [tick].
    may_turn
        Whether it may lie across the sheet: parts without grain.
    set
        Name of the set whose parts are wished from one sheet, in the order of the list;
        for :func:`solver.cutting.matched_sets.solve_matched`, others disregard it.
    """

    id: str
    length: Ticks
    width: Ticks
    may_turn: bool
    set: str | None = None


@dataclass(frozen=True)
class CutSheet:
    """One size of sheet.

    Attributes
    ----------
    stock, material
        Names in the buy list.
    length, width
        Along and across the grain [tick].
    price
        Price of one; None where it is not known.
    on_hand
        How many are there already, at no price [-].
    limit
        How many can be bought at most; None is any number [-].
    """

    stock: str
    material: str
    length: Ticks
    width: Ticks
    price: Decimal | None
    on_hand: int = 0
    limit: int | None = None


@dataclass(frozen=True)
class CuttingProblem:
    """Parts and sheets of one material, and how the shop cuts.

    Attributes
    ----------
    kerf, edge_trim, margin
        Width of a saw cut, lost off each factory edge, slack kept beside each piece [tick].
    stages
        "2": strips, crosscuts and one more cut that trims a piece to width. "3": three
        stages and no more. "any": edge-to-edge cuts without a limit.
    first_cut
        "rip": the first cuts run along the sheet's length, "crosscut": across it,
        "either": each sheet as it comes best.
    unit
        The unit of lengths in messages.
    trimming
        Whether two stages may be followed by the cut that trims a piece to width; without it
        every piece is as wide as its strip.
    """

    parts: tuple[CutPart, ...]
    sheets: tuple[CutSheet, ...]
    kerf: Ticks
    edge_trim: Ticks = 0
    margin: Ticks = 0
    stages: Stages = "any"
    first_cut: FirstCut = "either"
    unit: Unit = "in"
    trimming: bool = True


@dataclass(frozen=True)
class StickStock:
    """One length in which a moulding is sold; fields as in :class:`CutSheet`."""

    stock: str
    length: Ticks
    price: Decimal | None
    on_hand: int = 0
    limit: int | None = None


@dataclass(frozen=True)
class StickPart:
    """One piece of moulding; the length has its mitre allowance in it [tick]."""

    id: str
    length: Ticks


@dataclass(frozen=True)
class StickProblem:
    """Pieces of one moulding and the lengths it is sold in.

    Attributes
    ----------
    kerf, margin
        Between pieces; slack kept with each piece [tick].
    """

    pieces: tuple[StickPart, ...]
    sticks: tuple[StickStock, ...]
    kerf: Ticks
    unit: Unit = "in"
    margin: Ticks = 0
