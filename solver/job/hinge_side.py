"""The side that a hung case is hinged on."""

from __future__ import annotations

from typing import Literal

from solver.job.case import Case
from solver.job.job import Job


def hinge_side(job: Job, case: Case) -> Literal["left", "right"] | None:
    """Return the side that a case is hinged on, seen from the room; None where it is not hung.

    Of two cases in a doorway the first has the side that is asked for, the other one the other.
    """
    door = next((door for door in job.doorways if door.name == case.doorway), None)
    if case.kind != "hung" or door is None:
        return None
    first = next(c for c in job.cases if c.kind == "hung" and c.doorway == door.name)
    left = ((door.hinge_side or "left") == "left") == (first.name == case.name)
    return "left" if left else "right"
