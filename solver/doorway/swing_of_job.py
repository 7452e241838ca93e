"""The numbers of a swing, taken from a job: doorway, hung case, obstacles, the other of a pair."""

from __future__ import annotations

from math import isqrt

from solver.carcass.outline import back_thickness, boards_added, outside_height, outside_width
from solver.carcass.settled_job import most_outside_depth
from solver.doorway.swing_scene import WALL_REACH, Swing, SwingObstacle, TrimStrip, case_outlines
from solver.errors import InputError
from solver.job.case import Case, most_size
from solver.job.doorway import Doorway, Obstacle, Trim
from solver.job.job import Job
from solver.plan.swinging import PairSwing
from solver.units import Ticks


def doorway_of(job: Job, case: Case) -> Doorway:
    """Return the doorway that a hung case goes into; InputError where none is named."""
    named = [door for door in job.doorways if door.name == case.doorway]
    if not named:
        names = ", ".join(repr(door.name) for door in job.doorways) or "none is listed"
        msg = (
            f"case {case.name!r} is hung but names no doorway; "
            f'write doorway = "…" in its [[case]], one of: {names}'
        )
        raise InputError(msg)
    return named[0]


def swing_of(
    job: Job,
    case: Case,
    depth: Ticks | None = None,
    *,
    beside: Ticks | None = None,
    way: str | None = None,
) -> Swing:
    """Lay out the swing of a hung case, trim left aside.

    Parameters
    ----------
    job, case
        The job and the hung case, its width decided.
    depth
        Outside depth with the back; left out, the most that it may be [tick].
    beside
        Outside depth of the other case of a pair; left out, the most that it may be [tick].
    way
        "out" or "in" instead of the way that the doorway names.

    Returns
    -------
    Swing
        All its numbers [tick]. A jamb that was not measured counts as deep as the case.
    """
    door = doorway_of(job, case)
    deep = most_outside_depth(job, case) if depth is None else depth
    leads = (way or door.swing or "out") == "in"
    proud = door.stands_out - door.set_back
    jamb = door.jamb_depth if door.jamb_depth is not None else deep
    other = other_of_pair(job, case)
    if other is not None and beside is None:
        beside = most_outside_depth(job, other)
    taken = 0 if other is None else door.hinge_gap + outside_width(job, other)
    return Swing(
        opening=door.clear_width - taken,
        neighbour=None if other is None else beside,
        jamb=jamb,
        width=outside_width(job, case),
        depth=deep,
        hinge_gap=door.hinge_gap,
        aside=_aside(door),
        proud=door.pin.proud - door.pin.behind,
        stands_out=proud,
        clearance=door.running_clearance,
        back=back_thickness(job, case),
        back_inset=case.back_inset // 2 if case.back != "none" else 0,
        back_leads=leads,
        things=_obstacles(job, case, door, jamb, leads=leads),
    )


def _aside(door: Doorway) -> Ticks:
    if door.pin.inside is not None:
        return -door.pin.inside
    return door.hinge_gap if door.pin.aside is None else door.pin.aside


def _obstacles(
    job: Job, case: Case, door: Doorway, jamb: Ticks, *, leads: bool
) -> tuple[SwingObstacle, ...]:
    """Everything that stands where the case may get: obstacles at its height, walls, rooms."""
    bottom, height = case.above_floor, outside_height(job, case)
    boxes = [box_of(job, obstacle) for obstacle in door.in_the_swing]
    things = [
        _placed(obstacle) for obstacle in boxes if _at_height(obstacle, bottom, bottom + height)
    ]
    ahead, back = door.room_in_front, door.room_behind
    if leads:
        ahead, back = back, ahead
    wide = (-WALL_REACH, WALL_REACH)
    if ahead is not None:
        things.append(SwingObstacle("what is opposite", wide, (ahead, ahead + WALL_REACH)))
    if back is not None:
        things.append(
            SwingObstacle("what is in back of it", wide, (-jamb - back - WALL_REACH, -jamb - back))
        )
    if door.wall_by_hinge is not None:
        x = (-door.wall_by_hinge - WALL_REACH, -door.wall_by_hinge)
        things.append(SwingObstacle("wall by the hinge", x, (0, WALL_REACH)))
    if door.wall_by_latch is not None:
        at = door.clear_width + door.wall_by_latch
        things.append(SwingObstacle("wall by the latch", (at, at + WALL_REACH), (0, WALL_REACH)))
    return tuple(things)


def box_of(job: Job, obstacle: Obstacle) -> Obstacle:
    """Return an obstacle with its sizes, those of the case that stands there where it names one."""
    if obstacle.case is None:
        return obstacle
    case = job.case(obstacle.case)
    across, up = boards_added(job, case)
    wide, deep = most_size(case.width) + across, most_outside_depth(job, case)
    top = case.above_floor + most_size(case.height) + up
    sizes = (deep, wide) if case.kind == "hung" else (wide, deep)
    size = {"width": sizes[0], "depth": sizes[1], "bottom": case.above_floor, "top": top}
    return obstacle.model_copy(update=size)


def _at_height(obstacle: Obstacle, bottom: Ticks, top: Ticks) -> bool:
    """Whether an obstacle is at the height of the case at all."""
    return obstacle.bottom < top and (obstacle.top is None or obstacle.top > bottom)


def _placed(obstacle: Obstacle) -> SwingObstacle:
    assert obstacle.width is not None
    assert obstacle.depth is not None
    y = (obstacle.out, obstacle.out + obstacle.depth)
    if obstacle.towards == "away":
        return SwingObstacle(obstacle.name, (-obstacle.along - obstacle.width, -obstacle.along), y)
    return SwingObstacle(obstacle.name, (obstacle.along, obstacle.along + obstacle.width), y)


def strip_of(door: Doorway, trim: Trim, *, leads: bool) -> TrimStrip:
    """Where a strip of trim lies, x from the hinge jamb."""
    edge = trim.covers - trim.reveal
    trailing = (trim.face == "room") == leads
    if trim.side == "hinge":
        return TrimStrip(trim.name, edge - trim.width, edge, trim.thickness, trailing)
    at = door.clear_width - edge
    return TrimStrip(trim.name, at, at + trim.width, trim.thickness, trailing)


CASES_MOST = 2


def other_of_pair(job: Job, case: Case) -> Case | None:
    """Return the other case hung in the same doorway; InputError where there are more."""
    same = [c for c in job.cases if c.kind == "hung" and c.doorway == case.doorway]
    if len(same) > CASES_MOST:
        names = ", ".join(repr(one.name) for one in same)
        msg = (
            f"doorway {case.doorway!r} has {len(same)} hung cases ({names}); two at most, one "
            "hinged on each jamb: give the others a doorway of their own"
        )
        raise InputError(msg)
    return next((one for one in same if one.name != case.name), None)


def pair_swing(one: Swing, other: Swing) -> PairSwing:
    """What the gap between two cases must be, opened one by one and both at once.

    Opened both at once they come nearest while their corners pass level with the pins, each
    staying on its own side of a line between them; each keeps half the running clearance.
    """
    needed = sum(_reach_beyond_width(swing) for swing in (one, other)) + one.clearance
    return PairSwing(gap=one.latch_gap, gap_together=needed, opens_together=one.latch_gap >= needed)


def _reach_beyond_width(swing: Swing) -> Ticks:
    """How far a corner reaches beyond the case's own width while it opens, rounded up [tick]."""
    reach = max(
        _root_up(x * x + y * y) if y < 0 and x > 0 else x
        for shape in case_outlines(swing)
        for x, y in shape.corners
    )
    return reach - swing.aside - swing.width


def _root_up(square: int) -> Ticks:
    """Square root, rounded up [tick]."""
    root = isqrt(square)
    return root if root * root == square else root + 1
