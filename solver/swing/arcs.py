"""A corner on its arc about the pin, and a fixed edge: where they meet, how near they come.

Everything is worked out from the circle and the line; nothing is stepped through.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, hypot, pi, sqrt
from typing import NamedTuple

from solver.swing.plane import Point, turned

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
    found = []
    for share in ((-b - sqrt(root)) / (2 * a), (-b + sqrt(root)) / (2 * a)):
        if -1e-12 <= share <= 1 + 1e-12:
            place = (start[0] + share * along[0], start[1] + share * along[1])
            found.append((angle_between(point, place), place))
    return found


def angle_between(first: Point, second: Point) -> float:
    """Angle from one point to another as seen from the pin, in [0, 2 pi) [rad]."""
    angle = (atan2(second[1], second[0]) - atan2(first[1], first[0])) % TURN
    return 0.0 if TURN - angle < 1e-12 else angle


def arc_to_edge(point: Point, limit: float, start: Point, end: Point) -> Nearest:
    """How near a point comes to a fixed edge while it turns from 0 to `limit` [rad]."""
    return min(_candidates(point, limit, start, end), key=lambda near: (near.distance, near.angle))


def _candidates(point: Point, limit: float, start: Point, end: Point) -> Iterator[Nearest]:
    """Every place where the distance can be least: meetings, ends of either, square on."""
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
