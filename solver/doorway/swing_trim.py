"""Whether each strip of trim travels with the case or stays on the wall: by what would bind.

A strip that hides a gap travels where it can; one that only frames the opening stays where it can.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees, radians

from solver.doorway.sweep import first_bind
from solver.doorway.swing_of_job import strip_of
from solver.doorway.swing_scene import (
    Swing,
    TrimStrip,
    case_outlines,
    hinge_jamb,
    latch_jamb,
    strip_shape,
    surroundings,
)
from solver.job.doorway import Doorway, Trim
from solver.plan.swinging import TrimChoice


def with_trim(
    swing: Swing, door: Doorway, strips: Sequence[Trim], opens_to: int
) -> tuple[Swing, tuple[TrimChoice, ...]]:
    """Return the swing with every strip on the case or on the wall, and why [degrees]."""
    choices = []
    for trim in sorted(strips, key=lambda one: bool(one.covers)):
        strip = strip_of(door, trim, leads=swing.back_leads)
        choice = _choose(swing, trim, strip, opens_to)
        swing = (
            swing.but(carried=(*swing.carried, strip))
            if choice.travels
            else swing.but(fixed_trim=(*swing.fixed_trim, strip))
        )
        choices.append(choice)
    return swing, tuple(choices)


def _choose(swing: Swing, trim: Trim, strip: TrimStrip, opens_to: int) -> TrimChoice:
    on_case, on_wall = carried_binds(swing, strip, opens_to), fixed_binds(swing, strip, opens_to)
    hides_gap = bool(trim.covers)
    wished, other = (on_case, on_wall) if hides_gap else (on_wall, on_case)
    as_wished = wished is None or (other is not None and other <= wished)
    travels = hides_gap if as_wished else not hides_gap
    binds = on_case if travels else on_wall
    return TrimChoice(
        name=trim.name,
        travels=travels,
        binds_at=_rounded(binds),
        why=_why(on_case, on_wall, hides_gap),
    )


def carried_binds(swing: Swing, strip: TrimStrip, opens_to: int) -> float | None:
    """How far the case is open when the strip on it binds [degrees]; None where it never does."""
    still = (hinge_jamb(swing), latch_jamb(swing), *surroundings(swing))
    bind = first_bind((strip_shape(swing, strip),), still, radians(opens_to))
    return None if bind is None else degrees(bind.angle)


def fixed_binds(swing: Swing, strip: TrimStrip, opens_to: int) -> float | None:
    """How far the case is open when it binds on the strip on the wall [degrees]; None: never."""
    moving = (
        *case_outlines(swing),
        *(strip_shape(swing, travelling) for travelling in swing.carried),
    )
    bind = first_bind(moving, (strip_shape(swing, strip),), radians(opens_to))
    return None if bind is None else degrees(bind.angle)


def _rounded(angle: float | None) -> float | None:
    return None if angle is None else round(angle, 1)


def _why(on_case: float | None, on_wall: float | None, hides_gap: bool) -> str:
    """Say what the strip would do on the case and on the wall."""
    case = "clear on the case" if on_case is None else f"on the case it binds at {on_case:.0f}°"
    wall = "clear on the wall" if on_wall is None else f"on the wall it binds at {on_wall:.0f}°"
    if on_case is None and on_wall is None:
        reason = "travels, to hide the gap" if hides_gap else "stays, nothing is in its way"
        return f"{reason}; {case} and {wall}"
    return f"{case}, {wall}"
