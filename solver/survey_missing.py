"""What has not been measured or asked yet, by name."""

from __future__ import annotations

from solver.doorway import Doorway
from solver.survey_old_door import DUTIES

HUNG = {
    "diagonals": "both diagonals",
    "jamb_depth": "jamb depth",
    "floor_covering": "floor covering",
    "pile": "thickness of pile and pad (0 on a hard floor)",
    "highest_floor_in_swing": "highest point of the floor in the swing",
    "hinge_side": "hinge side",
    "swing": "which way it swings",
    "hinge_lean": "plumb of the hinge jamb",
    "latch_lean": "plumb of the latch jamb",
    "stop": "door stop (0 where there is none)",
    "behind": "what is behind it",
    "room_in_front": "room in front",
    "room_behind": "room behind",
}
"""Measurements of a doorway that a case hangs in, in the order of the form."""
SPACE = {"ceiling": "height of the ceiling"}
"""What an alcove or a free space needs beside widths and heights."""


def missing(door: Doorway, *, hung: bool = True) -> tuple[str, ...]:
    """Return the names of the measurements and answers that are not there."""
    found = []
    if len(door.widths) < 3:
        found.append(f"{3 - len(door.widths)} of the three widths (top, middle, bottom)")
    if len(door.heights) < 2:
        found.append("the second height (left and right)")
    wanted = HUNG if hung else SPACE
    found += [name for key, name in wanted.items() if getattr(door, key) is None]
    if not hung:
        return (*found, *(() if door.ways_in else ("the way in: doors and turns",)))
    if not door.old_mortises:
        found.append("old hinge mortises, from the head down")
    if door.casing is None and not door.trim:
        found.append("casing: width, thickness, reveal")
    if door.obstacles is None and not door.in_the_swing:
        found.append('what stands in the swing (obstacles = "none" where nothing does)')
    found += _unasked(door)
    return tuple(found)


def _unasked(door: Doorway) -> list[str]:
    if door.old_door is None:
        return ["what the old door did: [doorway.old_door]"]
    keys = [duty.key for duty in DUTIES if getattr(door.old_door, duty.key) is None]
    return [f"old door: {', '.join(keys)}"] if keys else []
