"""Casing that binds whichever way it is fixed: how far back it would have to stand."""

from __future__ import annotations

from dataclasses import replace

from solver.doorway import Trim
from solver.swing.of_job import strip_of, swing_of
from solver.swing.trim import fixed_binds
from solver.trim.pieces import Trimmed
from solver.trim_face import doorway_trim
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit

FARTHEST: dict[Unit, Ticks] = {"in": 6 * TICKS_PER_INCH, "mm": 150 * TICKS_PER_MM}
"""Casing farther back than this frames nothing [tick]."""


def clear_reveal(one: Trimmed, name: str) -> Ticks | None:
    """Return the least reveal at which a strip on the wall clears, in 1/16 in or mm [tick].

    None where none up to 6 in (150 mm) does. Only the case moves: trim that travels with it is
    left out.
    """
    strips = () if one.door is None else doorway_trim(one.job, one.case, one.door)
    strip = next((strip for strip in strips if strip.name == name), None)
    return None if strip is None else _least(one, strip)


def _least(one: Trimmed, trim: Trim) -> Ticks | None:
    assert one.door is not None
    swing = swing_of(one.job, one.case, one.planned.outside.depth)
    strip = strip_of(one.door, trim, leads=swing.back_leads)
    now = trim.reveal - trim.covers
    away = -1 if trim.side == "hinge" else 1
    step = TICKS_PER_INCH // 16 if one.job.unit == "in" else TICKS_PER_MM
    for reveal in range(-(-max(now, 0) // step) * step, FARTHEST[one.job.unit], step):
        by = away * (reveal - now)
        moved = replace(strip, left=strip.left + by, right=strip.right + by)
        if fixed_binds(swing, moved, one.door.opens_to) is None:
            return reveal
    return None
