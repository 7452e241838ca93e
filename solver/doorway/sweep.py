"""Outlines that turn about the pin among fixed ones: where they bind first, how near they come."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import atan2, hypot, pi, sqrt
from typing import NamedTuple

from solver.doorway.swing_scene import Point, Shape, overlap, turned

TURN = 2 * pi


class Nearest(NamedTuple):
    """How near two things come: distance [tick], at which angle [rad], and where on the fixed."""

    distance: float
    angle: float
    place: Point


def meeting_angles(point: Point, start: Point, end: Point) -> list[tuple[float, Point]]:
    """Angles in [0, 2 pi) [rad] at which a turning point lies on a fixed edge, with the place."""
    along = (end[0] - start[0], end[1] - start[1])
    a = along[0] ** 2 + along[1] ** 2
    b = 2 * (start[0] * along[0] + start[1] * along[1])
    c = start[0] ** 2 + start[1] ** 2 - point[0] ** 2 - point[1] ** 2
    root = b * b - 4 * a * c
    if a == 0 or root < 0:
        return []
    meetings = []
    for share in ((-b - sqrt(root)) / (2 * a), (-b + sqrt(root)) / (2 * a)):
        if -1e-12 <= share <= 1 + 1e-12:
            place = (start[0] + share * along[0], start[1] + share * along[1])
            meetings.append((angle_between(point, place), place))
    return meetings


def angle_between(first: Point, second: Point) -> float:
    """Angle from one point to another as seen from the pin, in [0, 2 pi) [rad]."""
    angle = (atan2(second[1], second[0]) - atan2(first[1], first[0])) % TURN
    return 0.0 if TURN - angle < 1e-12 else angle


def arc_to_edge(point: Point, limit: float, start: Point, end: Point) -> Nearest:
    """How near a point comes to a fixed edge while it turns from 0 to `limit` [rad]."""
    return min(_candidates(point, limit, start, end), key=lambda near: (near.distance, near.angle))


def _candidates(point: Point, limit: float, start: Point, end: Point) -> Iterator[Nearest]:
    """Yield where the distance can be least: meetings, ends of arc and edge, square on."""
    for angle, place in meeting_angles(point, start, end):
        if angle <= limit:
            yield Nearest(0.0, angle, place)
    for angle in (0.0, limit):
        at = turned(point, angle)
        place = foot(at, start, end)
        yield Nearest(hypot(at[0] - place[0], at[1] - place[1]), angle, place)
    radius = hypot(*point)
    for place in (start, end, foot((0.0, 0.0), start, end)):
        angle = angle_between(point, place)
        if angle <= limit and any(place):
            yield Nearest(abs(hypot(*place) - radius), angle, place)


def foot(point: Point, start: Point, end: Point) -> Point:
    """The nearest place of an edge to a point [tick]."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    long = dx * dx + dy * dy
    share = ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / long if long else 0.0
    share = min(1.0, max(0.0, share))
    return start[0] + share * dx, start[1] + share * dy


TOUCH = 1e-3
"""Shapes that share less than this do but touch [tick]: three millionths of a millimetre."""


@dataclass(frozen=True)
class Bind:
    """The first place at which something binds.

    Attributes
    ----------
    angle
        How far it has opened by then [rad].
    moving, fixed
        Names of the two.
    place
        Where, relative to the pin [tick].
    """

    angle: float
    moving: str
    fixed: str
    place: Point


def first_bind(moving: Sequence[Shape], fixed: Sequence[Shape], limit: float) -> Bind | None:
    """The first place at which any moving shape runs into any fixed one up to `limit` [rad]."""
    binds = [
        bind
        for outline in moving
        for other in fixed
        if (bind := _first_of_pair(outline, other, limit))
    ]
    return min(binds, key=lambda bind: (bind.angle, bind.moving, bind.fixed), default=None)


def _first_of_pair(moving: Shape, fixed: Shape, limit: float) -> Bind | None:
    """Return where two outlines first overlap.

    Between two angles at which they touch they overlap throughout or not at all, so one angle in
    between is tried.
    """
    touches = sorted(t for t in _touching_angles(moving, fixed) if t[0] < limit)
    centre = fixed.corners[0]
    steps = [(0.0, (float(centre[0]), float(centre[1]))), *touches]
    still = [(float(x), float(y)) for x, y in fixed.corners]
    ends = [angle for angle, _ in steps[1:]] + [limit]
    for (angle, place), end in zip(steps, ends, strict=True):
        middle = (angle + end) / 2
        if overlap([turned(corner, middle) for corner in moving.corners], still) > TOUCH:
            return Bind(angle, moving.name, fixed.name, place)
    return None


def _touching_angles(moving: Shape, fixed: Shape) -> Iterator[tuple[float, Point]]:
    """Every angle at which a corner of either lies on an edge of the other, and where."""
    for corner in moving.corners:
        for start, end in fixed.edges:
            yield from meeting_angles(corner, start, end)
    for corner in fixed.corners:
        for start, end in moving.edges:
            for _, at_rest in meeting_angles(corner, start, end):
                place = (float(corner[0]), float(corner[1]))
                yield angle_between(at_rest, corner), place


def nearest(moving: Sequence[Shape], fixed: Sequence[Shape], limit: float) -> Nearest:
    """How near any moving shape comes to any fixed one up to `limit` [rad]; not below 0."""
    return min(
        (
            near
            for outline in moving
            for other in fixed
            for near in _nearest_of_pair(outline, other, limit)
        ),
        key=lambda near: (near.distance, near.angle),
    )


def _nearest_of_pair(moving: Shape, fixed: Shape, limit: float) -> Iterator[Nearest]:
    """Yield the distance of each corner's arc from each edge; fixed corners turn the other way."""
    for corner in moving.corners:
        for start, end in fixed.edges:
            yield arc_to_edge(corner, limit, start, end)
    for corner in fixed.corners:
        for start, end in moving.edges:
            # Seen from the case, the room turns backwards: mirrored, it turns forwards.
            near = arc_to_edge(_mirrored(corner), limit, _mirrored(start), _mirrored(end))
            yield Nearest(near.distance, near.angle, (float(corner[0]), float(corner[1])))


def _mirrored(point: Point) -> Point:
    return point[0], -point[1]
