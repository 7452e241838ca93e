"""A jamb out of plumb: which way the case drifts, and how far its latch edge rises or drops."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, cos, degrees, hypot, radians, sin
from typing import Any

from solver.job.doorway import Doorway, Lean
from solver.units import TICKS_PER_INCH, Ticks, Unit, with_unit

PLUMB_WITHIN = TICKS_PER_INCH // 16
"""Out of plumb over the height that is taken up at the hinges, without shims. Common practice, no
source; a published job moved its bottom pivot for 1/8 in [tick]."""
SHIM = "shim behind each hinge until all pins are in one plumb line"
SOURCE = (
    "jambs must be plumb (issuhub.com 12912 p. 32); the lower pin ahead of the upper lifts the toe "
    "and shuts by itself (chestofbooks.com Building-Trades-Pocketbook Doors): not on a loaded case"
)


def leans(door: Doorway, unit: Unit) -> Iterator[dict[str, Any]]:
    """Yield what a lean of either jamb means and what to do, as fields of a judgement."""
    if door.hinge_lean is not None:
        yield _hinge(door, door.hinge_lean, unit)
    if door.latch_lean is not None:
        yield _latch(door.latch_lean, unit)


def tilt(lean: Lean, *, swings_out: bool) -> tuple[Ticks, Ticks]:
    """How far the top of the pin line stands to the latch, and to the side it swings to [tick]."""
    across = lean.across if lean.across_way == "in" else -lean.across
    to_room = lean.through if lean.through_way == "room" else -lean.through
    return across, to_room if swings_out else -to_room


def rest_angle(lean: Lean, *, swings_out: bool) -> float | None:
    """Where a case that is let go comes to rest, from 0 shut to 180 [degrees]; None where plumb.

    Its centre of gravity is lowest on the side that the pin line leans to.
    """
    x, y = tilt(lean, swings_out=swings_out)
    if not x and not y:
        return None
    angle = degrees(atan2(y, x))
    if 0 <= angle <= 180:
        return angle
    return 0.0 if angle >= -90 else 180.0


def climb(lean: Lean, width: Ticks, angle: float, *, swings_out: bool) -> Ticks:
    """How far the latch edge rises from shut to `angle` [degrees]; below 0 where it drops [tick].

    The edge is `width` from the pin; each unit of lean over the reading's length tilts it:
    rise = w / L (x (1 - cos t) - y sin t).
    """
    x, y = tilt(lean, swings_out=swings_out)
    turn = radians(angle)
    return round(width / lean.over * (x * (1 - cos(turn)) - y * sin(turn)))


def _hinge(door: Doorway, lean: Lean, unit: Unit) -> dict[str, Any]:
    out = door.swing != "in"
    rest, off = rest_angle(lean, swings_out=out), hypot(lean.across, lean.through)
    rise = climb(lean, door.clear_width, 90, swings_out=out)
    moved = "rises" if rise > 0 else "drops"
    measured = f"{_text(lean, unit)} over {with_unit(lean.over, unit)}"
    if rest is None:
        return _row("hinge jamb", measured, "good", "plumb: the case stays where it is left")
    drift = _drift(rest)
    edge = f"its latch edge {moved} {with_unit(abs(rise), unit)} on the way to 90°"
    done = SHIM if off > PLUMB_WITHIN else "adjust at the hinges"
    verdict = "mind" if off > PLUMB_WITHIN else "good"
    return _row("hinge jamb", measured, verdict, f"{drift}; {edge}; {done}")


def _drift(rest: float) -> str:
    if rest == 0:
        return "the case shuts by itself, on fingers too"
    if rest >= 180:
        return "the case opens by itself, all the way"
    return f"the case drifts to stand open at about {rest:.0f}°"


def _latch(lean: Lean, unit: Unit) -> dict[str, Any]:
    off = hypot(lean.across, lean.through)
    even = off <= PLUMB_WITHIN
    do = "the gap looks even" if even else (
        "the latch gap tapers, and the face stands proud of the jamb at one end: shim the jamb, or "
        "let the trim that travels cover it"
    )  # fmt: skip
    measured = f"{_text(lean, unit)} over {with_unit(lean.over, unit)}"
    return _row("latch jamb", measured, "good" if even else "mind", do)


def _row(what: str, measured: str, verdict: str, do: str) -> dict[str, Any]:
    return {"what": what, "measured": measured, "verdict": verdict, "do": do, "source": SOURCE}


def _text(lean: Lean, unit: Unit) -> str:
    across = "into the opening" if lean.across_way == "in" else "away from the opening"
    through = "into the room" if lean.through_way == "room" else "to the back"
    tops = [
        f"top {with_unit(size, unit)} {way}"
        for size, way in ((lean.across, across), (lean.through, through))
        if size
    ]
    return " and ".join(tops) or "plumb both ways"
