"""The rule on what would mend a shelf that sags too far: each change mends it, and is the least.

A change is put into the board of the plan and the sag worked out anew, by the same road as that
of :mod:`solver.checking.sag`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from solver.bearing import Mend, ShelfStrength
from solver.boards import UNKNOWN_WOOD
from solver.checking.findings import Code, Finding, finding
from solver.checking.sag import LIMITS, Shape, pairs, shape, weights
from solver.checking.views import OpeningView, OptionView
from solver.units import TICKS_PER_INCH, TICKS_PER_MM

DISPLAY = ("display-first", "display-long")
LIP = 19.05
"""Thickness of a lip that is proposed where there is none, 3/4 in [mm]."""
STEPS = {
    ("lip", "in"): TICKS_PER_INCH // 8,
    ("lip", "mm"): 2 * TICKS_PER_MM,
    ("thickness", "in"): TICKS_PER_INCH // 32,
    ("thickness", "mm"): TICKS_PER_MM,
}
"""By how much sizes that are proposed go up [tick]."""


def mends(view: OptionView) -> Iterator[Finding]:
    """A shelf over a limit, and no other, says what mends it; each mends it, and no less would."""
    for opening, said in pairs(view):
        over = _over(said)
        if over < bool(said.mends) or (over and not _says_load(said)):
            needs = "some, the load among them" if over else "none"
            has = ", ".join(mend.what for mend in said.mends) or "none"
            yield finding(Code.STRENGTH_MENDS, opening.where, "what would mend it", needs, has)
        for mend in said.mends:
            yield from _mends(opening, said, mend)


def _over(said: ShelfStrength) -> bool:
    """Whether a sag, as shown, is over a limit."""
    first, years = said.sag_first, said.sag_long
    least = min(said.allowed_first, said.allowed_industry)
    return first > least or years > said.allowed_long


def _says_load(said: ShelfStrength) -> bool:
    return said.display_load <= 0 or any(mend.what == "less load" for mend in said.mends)


def _mends(opening: OpeningView, said: ShelfStrength, mend: Mend) -> Iterator[Finding]:
    """Hold one change against the sag that it leads to."""
    where, now = f"{opening.where}, {mend.what}", shape(opening)
    if (mend.mass is None, mend.length is None) != (
        mend.what != "less load",
        mend.what == "less load",
    ):
        yield finding(Code.STRENGTH_MENDS, where, "figure", "a load or a length", "another")
    if mend.what == "less load":
        if mend.mass != said.display_load:
            needs, has = f"{said.display_load} g", f"{mend.mass} g"
            yield finding(Code.STRENGTH_MENDS, where, "load", needs, has)
        return
    size = (mend.length or 0) / TICKS_PER_MM
    if mend.what == "upright":
        half = (now.span - now.thickness) / 2
        fits = max(0.0, half - 1 / TICKS_PER_MM) < size < half + 0.5 / TICKS_PER_MM  # whole ticks
        carries = replace(now, span=size).beam.carries(DISPLAY) if fits else -1.0
        if carries + 1 < said.load:
            needs = f"{said.load} g borne over half, {half:.3f} mm"
            yield finding(Code.STRENGTH_MENDS, where, "upright", needs, f"{size:.3f} mm")
        return
    step = STEPS[mend.what, opening.unit] / TICKS_PER_MM
    if (mend.length or 0) % STEPS[mend.what, opening.unit]:
        needs, has = f"whole steps of {step} mm", f"{size} mm"
        yield finding(Code.STRENGTH_MENDS, where, "size", needs, has)
    changed, less = (_with(now, mend.what, one) for one in (size, size - step))
    if changed is None or not _keeps(opening, changed):
        yield finding(Code.STRENGTH_MENDS, where, "size", "enough", f"{size:.2f} mm")
    elif less is not None and _keeps(opening, less, surely=True):
        yield finding(Code.STRENGTH_MENDS, where, "size", "the least", f"{size:.2f} mm")


def _with(now: Shape, what: str, size: float) -> Shape | None:
    """Return the board with a lip so high in all, or so thick; None where that is no more."""
    if what == "thickness":
        return replace(now, thickness=size) if size > now.thickness else None
    thick, above, below = now.lip
    if size <= now.thickness + above + below or now.depth <= (thick or LIP):
        return None
    lip = (thick or LIP, above, size - now.thickness - above)
    return replace(now, lip=lip, wood=now.wood if thick else UNKNOWN_WOOD)


def _keeps(opening: OpeningView, board: Shape, *, surely: bool = False) -> bool:
    """Whether it keeps both display limits; `surely`: by more than a tick of rounding."""
    sag = board.beam.sag(weights(opening))
    rounding = (-2 if surely else 2) / TICKS_PER_MM
    return all(sag * LIMITS[name][1] <= board.span / LIMITS[name][0] + rounding for name in DISPLAY)
