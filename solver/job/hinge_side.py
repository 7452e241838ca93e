"""The side that a hung case is hinged on."""

from __future__ import annotations

from typing import Literal

from solver.job.case import Case
from solver.job.doorway import Doorway
from solver.job.job import Job

Side = Literal["left", "right"]


def hinge_side(job: Job, door: Doorway, case: Case) -> Side:
    """Return the side that a case is hinged on, seen from the room; a pair has one on each."""
    side = door.hinge_side or "left"
    first = next(c for c in job.cases if c.kind == "hung" and c.doorway == door.name)
    if first.name == case.name:
        return side
    return "right" if side == "left" else "left"


def hung_on(job: Job, case: Case) -> Side | None:
    """Return the same of a case that may not be hung: then None."""
    doors = [door for door in job.doorways if door.name == case.doorway]
    return hinge_side(job, doors[0], case) if case.kind == "hung" and doors else None
