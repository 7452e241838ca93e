"""Shelves of a job as beams: materials by name, sizes by case, the sag limit as a load."""

from __future__ import annotations

from solver.boards import BOARDS, UNKNOWN_BOARD, UNKNOWN_WOOD, Board
from solver.case import Case
from solver.geometry import lip_sizes
from solver.job import Job
from solver.materials import SheetStock
from solver.strength.amounts import millimetres
from solver.strength.beam_of import LipSize, ShelfBeam, shelf_beam
from solver.strength.limits import HARD_LIMITS
from solver.units import Grams, Ticks


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


def beam(job: Job, case: Case, width: Ticks, depth: Ticks, index: int) -> ShelfBeam:
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
    shelf = beam(job, case, width, depth, index)
    return min(shelf.carries(limit) for limit in limits)
