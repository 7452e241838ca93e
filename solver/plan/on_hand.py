"""Pieces on hand: of which material, how large, and what a plan makes of them."""

from __future__ import annotations

from typing import Literal

from solver.job.have import PART_KINDS, Have
from solver.job.job import Job
from solver.quantities import Length, Model
from solver.units import Ticks


class Remnant(Model):
    """What is left of a piece that is cut down."""

    length: Length
    width: Length


class UsedPiece(Model):
    """A part that is there already, or comes from one piece that is."""

    have: int
    """Number of the [[have]], from 1."""
    part: str
    """Id of the part that it becomes."""
    how: Literal["as it is", "cut down", "fixed"]
    rests: tuple[Remnant, ...] = ()
    """What is left where it is cut down: by a crosscut, then a rip, or the other way round."""


class UnusedPieces(Model):
    """Pieces that are there and not used."""

    have: int
    count: int
    why: str | None = None
    """Why it serves for nothing, where that is not for want of parts that fit."""


class HaveOutcome(Model):
    """What of that which is there is used for what, and what is left."""

    used: tuple[UsedPiece, ...]
    left: tuple[UnusedPieces, ...]
    again: tuple[str, ...] = ()
    """Parts that were spoiled or found short, and are cut again."""
    kept: tuple[str, ...] = ()
    """What is held because parts are cut to it, in words."""


def material_of(job: Job, have: Have) -> str:
    """Return the material, or moulding, of something that is there."""
    if have.material is not None:
        return have.material
    if have.what in PART_KINDS:
        case = job.case(have.part_case)
        if have.part_kind == "lip":
            return case.lip.moulding if case.lip else ""
        return case.back if have.part_kind == "back" else case.material
    named = [sheet.material for sheet in job.sheets if sheet.name == have.name]
    return (named or [sheet.material for sheet in job.sheets])[0]


def size_of(job: Job, have: Have) -> tuple[Ticks, Ticks] | None:
    """Return length and width [tick]; width 0 for mouldings, None: not measured."""
    if have.length is not None:
        return have.length, have.width or 0
    if have.what == "sheet":
        stock = next(sheet for sheet in job.sheets if sheet.name == have.name)
        return stock.length, stock.width
    return None


def is_moulding(job: Job, material: str) -> bool:
    """Whether a material is a moulding of the job."""
    return any(moulding.name == material for moulding in job.mouldings)
