"""Turning shapes about the pin among fixed ones: where they bind first, how near they come."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from solver.swing.arcs import Nearest, angle_between, arc_to_edge, meeting_angles
from solver.swing.plane import Point, Shape, overlap, turned

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
    found = [
        bind for one in moving for other in fixed if (bind := _first_of_pair(one, other, limit))
    ]
    return min(found, key=lambda bind: (bind.angle, bind.moving, bind.fixed), default=None)


def _first_of_pair(moving: Shape, fixed: Shape, limit: float) -> Bind | None:
    """Between two angles at which they touch they overlap throughout, or not at all."""
    touches = sorted(t for t in _touches(moving, fixed) if t[0] < limit)
    centre = fixed.corners[0]
    steps = [(0.0, (float(centre[0]), float(centre[1]))), *touches]
    still = [(float(x), float(y)) for x, y in fixed.corners]
    ends = [angle for angle, _ in steps[1:]] + [limit]
    for (angle, place), end in zip(steps, ends, strict=True):
        middle = (angle + end) / 2
        if overlap([turned(corner, middle) for corner in moving.corners], still) > TOUCH:
            return Bind(angle, moving.name, fixed.name, place)
    return None


def _touches(moving: Shape, fixed: Shape) -> Iterator[tuple[float, Point]]:
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
        (near for one in moving for other in fixed for near in _near_pairs(one, other, limit)),
        key=lambda near: (near.distance, near.angle),
    )


def _near_pairs(moving: Shape, fixed: Shape, limit: float) -> Iterator[Nearest]:
    """Distances of each corner's arc from each edge; fixed corners turn the other way."""
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
