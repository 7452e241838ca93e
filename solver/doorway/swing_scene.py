"""A case in its opening, seen from above: what turns and what stays, laid out about the pin.

Positions of the swing are from the corner of hinge jamb and wall: `x` runs along the wall to the
latch jamb, `y` out of the wall on the side that the case swings to. Outlines have the pin as their
origin. Opening turns the case from x towards y. Swinging out and in, hinged left and right are all
laid out like this. Corners are whole ticks at rest; turned, they are floats, and whoever uses them
rounds to the safe side.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import cos, sin

from solver.units import TICKS_PER_MM, Ticks

Corner = tuple[Ticks, Ticks]
Point = tuple[float, float]


@dataclass(frozen=True)
class Shape:
    """A convex outline.

    Attributes
    ----------
    name
        What it is, for people.
    corners
        In order round it, either way; relative to the pin at rest [tick].
    """

    name: str
    corners: tuple[Corner, ...]

    @property
    def edges(self) -> Iterator[tuple[Corner, Corner]]:
        """Its edges, each from corner to corner [tick]."""
        return zip(self.corners, (*self.corners[1:], self.corners[0]), strict=True)


def rectangle(name: str, x: tuple[Ticks, Ticks], y: tuple[Ticks, Ticks]) -> Shape:
    """Return the rectangle between two x and two y [tick]."""
    return Shape(name, ((x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1])))


def turned(point: Point, angle: float) -> Point:
    """Return the point [tick] after the case has opened by `angle` [rad]."""
    c, s = cos(angle), sin(angle)
    return point[0] * c - point[1] * s, point[0] * s + point[1] * c


def overlap(one: list[Point], other: list[Point]) -> float:
    """How deep two convex outlines overlap, by separating axes; not over 0: not at all [tick]."""
    return min(_shared(one, other), _shared(other, one))


def _shared(one: list[Point], other: list[Point]) -> float:
    """Least overlap along the normals of the edges of `one` [tick]."""
    least = float("inf")
    for (ax, ay), (bx, by) in zip(one, one[1:] + one[:1], strict=True):
        nx, ny = ay - by, bx - ax
        length = (nx * nx + ny * ny) ** 0.5
        if length == 0:
            continue
        mine = [(x * nx + y * ny) / length for x, y in one]
        others = [(x * nx + y * ny) / length for x, y in other]
        least = min(least, min(max(mine), max(others)) - max(min(mine), min(others)))
    return least


WALL_REACH: Ticks = 20_000 * TICKS_PER_MM
"""How far walls reach; no case reaches so far [tick]."""


@dataclass(frozen=True)
class Relief:
    """What is taken off the corner that is diagonal from the pin, seen from above.

    Attributes
    ----------
    across
        Along the case's width [tick].
    deep
        Along its depth, from the trailing face [tick].
    stepped
        True for a step, False for a straight bevel.
    """

    across: Ticks
    deep: Ticks
    stepped: bool


@dataclass(frozen=True)
class TrimStrip:
    """A strip of trim on the face that the case swings to; x from the hinge jamb [tick]."""

    name: str
    left: Ticks
    right: Ticks
    thickness: Ticks
    trailing: bool = False
    """True on the other face of the wall."""


@dataclass(frozen=True)
class SwingObstacle:
    """Something that stands in the swing; x from the hinge jamb, y from the wall [tick]."""

    name: str
    x: tuple[Ticks, Ticks]
    y: tuple[Ticks, Ticks]


@dataclass(frozen=True)
class Swing:
    """Every number that the swing depends on [tick].

    Attributes
    ----------
    opening, jamb
        Clear width between the jambs, and their depth [tick].
    width, depth
        Of the case, outside; back included [tick].
    back, back_inset
        Thickness of the planted back, and how much it stays in at each edge [tick].
    back_leads
        Whether the back is on the side it swings to.
    hinge_gap
        Case to hinge jamb [tick].
    aside
        Pin beyond the case's hinge side; below 0 set in from it [tick].
    proud
        Pin in front of the leading face; below 0 behind it [tick].
    stands_out
        Leading face in front of the wall; below 0 set back [tick].
    clearance
        Room that a passing corner keeps [tick].
    relief
        Of the corner diagonal from the pin.
    carried, fixed_trim
        Trim that travels with the case, and trim that stays on the wall.
    things
        What stands in the swing, walls included.
    neighbour
        Depth of the other case, where that and not a jamb is at the latch [tick].
    """

    opening: Ticks
    jamb: Ticks
    width: Ticks
    depth: Ticks
    hinge_gap: Ticks
    aside: Ticks
    clearance: Ticks
    proud: Ticks = 0
    stands_out: Ticks = 0
    back: Ticks = 0
    back_inset: Ticks = 0
    back_leads: bool = False
    relief: Relief | None = None
    carried: tuple[TrimStrip, ...] = ()
    fixed_trim: tuple[TrimStrip, ...] = ()
    things: tuple[SwingObstacle, ...] = ()
    neighbour: Ticks | None = None

    @property
    def pin(self) -> Corner:
        """The pin from the corner of hinge jamb and wall face [tick]."""
        return self.hinge_gap - self.aside, self.stands_out + self.proud

    @property
    def latch_gap(self) -> Ticks:
        """Between the case and the latch jamb at rest [tick]."""
        return self.opening - self.hinge_gap - self.width

    def but(self, **changes: object) -> Swing:
        """Return the same with some numbers changed."""
        return replace(self, **changes)  # type: ignore[arg-type]


def case_outlines(swing: Swing) -> tuple[Shape, ...]:
    """The case itself, as built: box and planted back, less the relief; about the pin."""
    back, inset, deep = swing.back, swing.back_inset, swing.depth
    box = (back, deep) if swing.back_leads else (0, deep - back)
    shapes = _relieved(swing, "case", (0, swing.width), box)
    if back:
        at = (0, back) if swing.back_leads else (deep - back, deep)
        shapes += _relieved(swing, "back", (inset, swing.width - inset), at)
    return tuple(_placed(swing, shape) for shape in shapes)


def _relieved(
    swing: Swing, name: str, u: tuple[Ticks, Ticks], v: tuple[Ticks, Ticks]
) -> list[Shape]:
    """A rectangle of the case, u from the hinge side, v from the leading face, less the relief."""
    relief = swing.relief
    if relief is None or not relief.across:
        return [rectangle(name, u, v)]
    right, begins = swing.width - relief.across, swing.depth - relief.deep
    if relief.stepped:
        parts = [rectangle(name, u, (v[0], min(v[1], begins)))] if begins > v[0] else []
        low = (max(v[0], begins), v[1])
        return parts + ([rectangle(name, (u[0], min(u[1], right)), low)] if low[1] > low[0] else [])
    line = ((swing.width, begins), (right, swing.depth))
    return [Shape(name, _cut(rectangle(name, u, v).corners, *line))]


def _cut(corners: tuple[Corner, ...], start: Corner, end: Corner) -> tuple[Corner, ...]:
    """Clip an outline to the hinge side of a line; corners of the cut are rounded outwards."""

    def side(at: Corner) -> int:
        return (end[0] - start[0]) * (at[1] - start[1]) - (end[1] - start[1]) * (at[0] - start[0])

    inner = side((0, 0)) > 0
    outline: list[Corner] = []
    for corner, next_corner in zip(corners, (*corners[1:], corners[0]), strict=True):
        a, b = side(corner), side(next_corner)
        if a == 0 or (a > 0) == inner:
            outline.append(corner)
        if a * b < 0:
            outline.append(_between(corner, next_corner, abs(a), abs(b)))
    return tuple(outline)


def _between(one: Corner, other: Corner, a: int, b: int) -> Corner:
    """Divide the line between two corners as a to b, rounded away from the pin's corner [tick]."""
    return (
        -((-(one[0] * b + other[0] * a)) // (a + b)),
        -((-(one[1] * b + other[1] * a)) // (a + b)),
    )


def _placed(swing: Swing, shape: Shape) -> Shape:
    """From (u, v) of the case to (x, y) about the pin."""
    return Shape(shape.name, tuple((u + swing.aside, -v - swing.proud) for u, v in shape.corners))


def carried(swing: Swing) -> tuple[Shape, ...]:
    """Trim that travels with the case, about the pin."""
    return tuple(strip_shape(swing, strip) for strip in swing.carried)


def strip_shape(swing: Swing, strip: TrimStrip) -> Shape:
    """A strip of trim where it lies at rest, about the pin."""
    px, py = swing.pin
    y = (-swing.jamb - strip.thickness, -swing.jamb) if strip.trailing else (0, strip.thickness)
    return rectangle(strip.name, (strip.left - px, strip.right - px), (y[0] - py, y[1] - py))


def hinge_jamb(swing: Swing) -> Shape:
    """The hinge jamb and the wall that it ends."""
    px, py = swing.pin
    return rectangle("hinge jamb", (-WALL_REACH - px, -px), (-swing.jamb - py, -py))


def latch_jamb(swing: Swing) -> Shape:
    """The latch jamb and the wall that it ends; of a pair, the other case shut."""
    px, py = swing.pin
    x = (swing.opening - px, swing.opening + WALL_REACH - px)
    if swing.neighbour is not None:
        y = (swing.stands_out - swing.neighbour - py, swing.stands_out - py)
        return rectangle("other case", x, y)
    return rectangle("latch jamb", x, (-swing.jamb - py, -py))


def surroundings(swing: Swing) -> tuple[Shape, ...]:
    """Trim that stays and everything that stands in the swing, about the pin."""
    px, py = swing.pin
    things = (
        rectangle(t.name, (t.x[0] - px, t.x[1] - px), (t.y[0] - py, t.y[1] - py))
        for t in swing.things
    )
    return (*(strip_shape(swing, strip) for strip in swing.fixed_trim), *things)
