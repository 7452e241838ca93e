"""Two cases hung in one doorway: one opened while the other is shut, and both together."""

from __future__ import annotations

from solver.doorway.swing_formulas import root_up
from solver.doorway.swing_scene import Swing, body
from solver.errors import InputError
from solver.job.case import Case
from solver.job.doorway import Doorway
from solver.job.job import Job
from solver.plan.swinging import PairSwing
from solver.units import Ticks

PAIR = 2


def others(job: Job, case: Case) -> Case | None:
    """Return the other case hung in the same doorway; InputError where there are more."""
    same = [c for c in job.cases if c.kind == "hung" and c.doorway == case.doorway]
    if len(same) > PAIR:
        names = ", ".join(repr(one.name) for one in same)
        msg = (
            f"doorway {case.doorway!r} has {len(same)} hung cases ({names}); two at most, one "
            "hinged on each jamb: give the others a doorway of their own"
        )
        raise InputError(msg)
    return next((one for one in same if one.name != case.name), None)


def hinge_side(job: Job, door: Doorway, case: Case) -> str:
    """Return the side that a case is hinged on, seen from the room; a pair has one on each."""
    side = door.hinge_side or "left"
    first = next(c for c in job.cases if c.kind == "hung" and c.doorway == door.name)
    if first.name == case.name:
        return side
    return "right" if side == "left" else "left"


def together(one: Swing, other: Swing) -> PairSwing:
    """What the gap between two cases must be, opened one by one and both at once.

    Opened both at once they come nearest while their corners pass level with the pins, each
    staying on its own side of a line between them; each keeps half the running clearance.
    """
    needed = sum(_past_level(swing) for swing in (one, other)) + one.clearance
    return PairSwing(gap=one.latch_gap, gap_together=needed, opens_together=one.latch_gap >= needed)


def _past_level(swing: Swing) -> Ticks:
    """How far the case reaches over its own width on the way, rounded up [tick]."""
    reach = max(
        root_up(x * x + y * y) if y < 0 and x > 0 else x
        for shape in body(swing)
        for x, y in shape.corners
    )
    return reach - swing.aside - swing.width
