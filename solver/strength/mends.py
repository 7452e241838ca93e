"""What would mend a shelf that sags too far: each change by itself, its least size computed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from solver.bearing import Mend
from solver.boards import UNKNOWN_WOOD
from solver.case import Case
from solver.job import Job
from solver.strength.amounts import MM_PER_INCH, millimetres
from solver.strength.beam_of import LipSize, ShelfBeam, shelf_beam
from solver.strength.limits import DISPLAY_FIRST, DISPLAY_LONG
from solver.strength.of_job import beam, board_of, lip_of, thinnest
from solver.units import (
    TICKS_PER_INCH,
    TICKS_PER_MM,
    Grams,
    Ticks,
    Unit,
    format_mass,
    round_up,
    with_unit,
)

STEPS_MOST = 64
"""Sizes tried, smallest first [-]."""
LIP_THICKNESS = 0.75 * MM_PER_INCH
"""Thickness of the lip that is proposed where there is none, 3/4 in [mm]."""

LIP_STEP: dict[Unit, Ticks] = {"in": TICKS_PER_INCH // 8, "mm": 2 * TICKS_PER_MM}
THICKNESS_STEP: dict[Unit, Ticks] = {"in": TICKS_PER_INCH // 32, "mm": TICKS_PER_MM}
"""Steps in which sizes are proposed [tick]."""

Keeps = Callable[[ShelfBeam], bool]


def mends(
    job: Job, case: Case, board: tuple[Ticks, Ticks, int], load: Grams, keeps: Keeps, most: Grams
) -> tuple[Mend, ...]:
    """Return what would let a shelf keep its limits.

    Parameters
    ----------
    job, case
        What it belongs to.
    board
        (clear span, depth [tick], index, 0 for the bottom board, which has no lip).
    load
        What stands on it [g].
    keeps
        Whether a beam in place of this one would keep them.
    most
        Most load spread evenly that this one may carry [g].
    """
    found = (
        _higher_lip(job, case, board, keeps),
        _thicker(job, case, board, keeps),
        _upright(job, case, board, load),
        _less(job, load, most),
    )
    return tuple(mend for mend in found if mend is not None)


def _higher_lip(job: Job, case: Case, at: tuple[Ticks, Ticks, int], keeps: Keeps) -> Mend | None:
    span, depth = millimetres(at[0]), millimetres(at[1])
    thick, now = thinnest(job, case.material), lip_of(job, case) if at[2] else None
    lip = now or LipSize(LIP_THICKNESS, 0.0, 0.0, UNKNOWN_WOOD)
    if depth <= lip.thickness:
        return None
    board, step = board_of(job, case.material), LIP_STEP[job.unit]
    up = thick + round(lip.above * TICKS_PER_MM)
    for high in _sizes(up + round(lip.below * TICKS_PER_MM), step):
        tried = replace(lip, below=millimetres(high - up))
        if keeps(shelf_beam((span, depth, millimetres(thick)), board, tried)):
            what = "a higher lip" if now else "a lip"
            text = f"{what}, {with_unit(high, job.unit)} high in all, glued to the front edge"
            return Mend(what="lip", text=text, length=high)
    return None


def _thicker(job: Job, case: Case, at: tuple[Ticks, Ticks, int], keeps: Keeps) -> Mend | None:
    span, depth = millimetres(at[0]), millimetres(at[1])
    board, lip = board_of(job, case.material), lip_of(job, case) if at[2] else None
    for thick in _sizes(thinnest(job, case.material), THICKNESS_STEP[job.unit]):
        if keeps(shelf_beam((span, depth, millimetres(thick)), board, lip)):
            text = f"a board at least {with_unit(thick, job.unit)} thick"
            return Mend(what="thickness", text=text, length=thick)
    return None


def _sizes(over: Ticks, step: Ticks) -> range:
    """Whole steps over a size, the least first [tick]."""
    first = round_up(over + 1, step)
    return range(first, first + STEPS_MOST * step, step)


def _upright(job: Job, case: Case, at: tuple[Ticks, Ticks, int], load: Grams) -> Mend | None:
    """Two bays instead of one; all that stands there on the one half, to be safe."""
    half = (at[0] - thinnest(job, case.material)) // 2
    if half <= 0:
        return None
    shorter = beam(job, case, half, at[1], at[2])
    if min(shorter.carries(DISPLAY_FIRST), shorter.carries(DISPLAY_LONG)) < load:
        return None
    text = f"an upright at half the width: it then spans {with_unit(half, job.unit)}"
    return Mend(what="upright", text=text, length=half)


def _less(job: Job, load: Grams, most: Grams) -> Mend | None:
    if most <= 0:
        return None
    if most >= load:
        return Mend(
            what="less load",
            text="the same things spread evenly, heavy ones to the ends",
            mass=most,
        )
    return Mend(
        what="less load",
        text=f"not over {format_mass(most, job.unit)}, spread evenly",
        mass=most,
    )
