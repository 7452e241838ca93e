"""A hung case seen from above: at rest, where it is tightest, and fully open.

The room is at the foot of the drawing. Lengths and angles are those of the plan; where things
lie comes from the same layout that the plan's swing was worked out with.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import atan2, degrees, hypot, radians

from cli.drawings.fonts import printable
from cli.drawings.hatching import CUT_PITCH, hatched
from cli.drawings.running import Area
from cli.drawings.scene import Scene
from cli.drawings.shapes import (
    SMALL,
    Align,
    Arc,
    Dimension,
    Layer,
    Path,
    Point,
    Shape,
    Text,
    rectangle,
)
from solver.doorway.swing_answer import laid_out
from solver.doorway.swing_clearance import tightest
from solver.doorway.swing_of_job import doorway_of
from solver.doorway.swing_scene import Shape as Outline
from solver.doorway.swing_scene import (
    Swing,
    carried,
    case_outlines,
    hinge_jamb,
    latch_jamb,
    surroundings,
    turned,
)
from solver.job.hinge_side import hinge_side
from solver.job.job import Job
from solver.plan.built import CasePlan
from solver.plan.swinging import Swinging
from solver.units import TICKS_PER_MM, Ticks, Unit, format_length, with_unit

WALL = 12.0
"""How much of the wall is shown beyond the opening [mm] on paper."""
DETAIL = 45.0
"""Half the side of the detail's window [mm] on paper."""


@dataclass(frozen=True)
class View:
    """How the layout about the pin [tick] comes onto the drawing [mm].

    Attributes
    ----------
    swing
        The layout.
    mirrored
        Whether the hinges are on the right, seen from the room.
    """

    swing: Swing
    mirrored: bool

    def at(self, point: tuple[float, float]) -> Point:
        """Return a point about the pin as one of the drawing: the room at the foot."""
        x, y = point[0] / TICKS_PER_MM, point[1] / TICKS_PER_MM
        return (-x if self.mirrored else x), (y if self.swing.back_leads else -y)

    @property
    def flips(self) -> bool:
        """Whether the way of turning is that of a mirror."""
        return self.mirrored == self.swing.back_leads

    def outline(self, shape: Outline, angle: float = 0.0) -> list[Point]:
        """Return a shape's corners after opening by `angle` [degrees]."""
        return [self.at(turned(corner, radians(angle))) for corner in shape.corners]


def view_of(job: Job, case: CasePlan) -> View:
    """Return the view of a hung case as planned."""
    ordered = job.case(case.name)
    side = hinge_side(job, doorway_of(job, ordered), ordered)
    return View(laid_out(job, ordered, case.outside.depth), side == "right")


def swing_plan(job: Job, case: CasePlan, found: Swinging, scale: int) -> Scene:
    """Return the plan of a hung case in its three positions; `found` is the plan's swing."""
    view = view_of(job, case)
    swing, unit = view.swing, job.unit
    angles = (found.opens_fully, found.tightest_at, 0.0)
    moving = (*case_outlines(swing), *carried(swing))
    window = _window(view, moving, angles, scale)
    shapes: list[Shape] = [*_walls(view, window, scale)]
    layers: tuple[Layer, ...] = ("swing", "hidden", "outline")
    for angle, layer in zip(angles, layers, strict=True):
        shapes += [Path(tuple(view.outline(shape, angle)), layer, closed=True) for shape in moving]
    shapes += _sweep(view, found.opens_fully)
    shapes += _names(view, found, scale)
    shapes += _dimensions(view, unit, window, scale)
    title = f"Plan, {printable(case.name)}: the swing"
    note = "Solid: at rest. Dashed: tightest. Double-dotted: fully open. The room is at the foot."
    return Scene("swing", title, scale, tuple(shapes), note)


def swing_words(found: Swinging, unit: Unit) -> list[str]:
    """Return what the plan knows of the swing, a line each."""

    def told(length: Ticks) -> str:
        return with_unit(length, unit)

    latch = "latch jamb" if found.pair is None else "other case"
    words = [
        f"At rest: {told(found.latch_gap)} at the {latch} (at least"
        f" {told(found.latch_gap_needed)}), {told(found.hinge_gap)} at the hinge jamb.",
        f"Tightest, {found.tightest_at:g}° open: {told(found.tightest)} at the {latch}.",
        f"Fully open, {found.opens_fully:g}°: clear way {told(found.passage_full)};"
        f" {told(found.passage_90)} at 90° or as far as it opens.",
        f"The farthest corner sweeps {told(found.radius)} about the pin.",
    ]
    if found.pair is not None:
        words.append(f"Both opened at once need {told(found.pair.gap_together)} between them.")
    if found.stopped_by:
        words.append(f"It is stopped by {printable(found.stopped_by)}.")
    if found.binds:
        words.append(f"It binds {found.binds_at:g}° open: {printable(found.binds)}.")
    if not found.swings:
        words.append(f"It does not swing to {found.opens_to}° as it is.")
    return words


def latch_detail(job: Job, case: CasePlan, found: Swinging, scale: int) -> Scene:
    """Return the corner that passes the latch jamb, where it is tightest."""
    view = view_of(job, case)
    swing = view.swing
    _, angle = tightest(swing, found.opens_to)
    jamb = latch_jamb(swing)
    moving = case_outlines(swing)
    place, corner = _closest(view, moving, jamb, angle)
    half = DETAIL * scale
    middle = (place[0] + corner[0]) / 2, (place[1] + corner[1]) / 2
    window = middle[0] - half, middle[1] - half, middle[0] + half, middle[1] + half
    shapes: list[Shape] = [*_fixed(view, (jamb, *surroundings(swing)), window, scale)]
    positions: tuple[tuple[float, Layer], ...] = ((0.0, "thin"), (angle, "outline"))
    for at, layer in positions:
        for shape in moving:
            points = clipped(view.outline(shape, at), window)
            if points:
                shapes.append(Path(tuple(points), layer, closed=True))
    shapes.append(rectangle((window[0], window[2]), (window[1], window[3]), "thin"))
    text = f"{with_unit(found.tightest, job.unit)} when {angle:.1f}° open"
    shapes += [
        Path((corner, place), "mark"),
        Text((middle[0], window[3] + 2 * scale), text, bold=True, align="middle"),
    ]
    title = f"Where the swing is tightest, {printable(case.name)}"
    note = "Wide: the case where it is tightest. Narrow: at rest. Hatched: the jamb."
    return Scene("swing-detail", title, scale, tuple(shapes), note)


def _closest(
    view: View, moving: Sequence[Outline], jamb: Outline, angle: float
) -> tuple[Point, Point]:
    """The point of the jamb's outline and the turned corner that are nearest to each other."""
    corners = [point for shape in moving for point in view.outline(shape, angle)]
    edges = view.outline(jamb)
    pairs = [
        (_foot(corner, start, end), corner)
        for corner in corners
        for start, end in zip(edges, edges[1:] + edges[:1], strict=True)
    ]
    return min(pairs, key=lambda pair: hypot(pair[0][0] - pair[1][0], pair[0][1] - pair[1][1]))


def _foot(point: Point, start: Point, end: Point) -> Point:
    """The point of a straight piece that is nearest to another."""
    along = end[0] - start[0], end[1] - start[1]
    square = along[0] ** 2 + along[1] ** 2
    share = ((point[0] - start[0]) * along[0] + (point[1] - start[1]) * along[1]) / square
    share = min(1.0, max(0.0, share))
    return start[0] + along[0] * share, start[1] + along[1] * share


def _window(view: View, moving: Sequence[Outline], angles: Sequence[float], scale: int) -> Area:
    """What is shown: the case in its positions, the opening, and a piece of the wall."""
    swing = view.swing
    px, py = swing.pin
    points = [point for shape in moving for a in angles for point in view.outline(shape, a)]
    points += [view.at((x - px, y - py)) for x in (0, swing.opening) for y in (0, -swing.jamb)]
    more = WALL * scale
    xs, ys = zip(*points, strict=True)
    return min(xs) - more, min(ys) - more / 3, max(xs) + more, max(ys) + more / 3


def _walls(view: View, window: Area, scale: int) -> Iterator[Shape]:
    swing = view.swing
    jambs = hinge_jamb(swing), latch_jamb(swing)
    yield from _fixed(view, (*jambs, *surroundings(swing)), window, scale)


def _fixed(view: View, shapes: Sequence[Outline], window: Area, scale: int) -> Iterator[Shape]:
    """What does not move, hatched as cut through, as far as the window shows it."""
    for shape in shapes:
        points = clipped(view.outline(shape), window)
        if not points:
            continue
        xs, ys = zip(*points, strict=True)
        yield Path(tuple(points), "place", closed=True, filled=True)
        hatch = hatched((min(xs), max(xs)), (min(ys), max(ys)), 1, scale, CUT_PITCH)
        if hatch is not None:
            yield hatch


def _sweep(view: View, opens: float) -> Iterator[Shape]:
    """The arc of the farthest corner, and the pin."""
    corner = max(
        (corner for shape in case_outlines(view.swing) for corner in shape.corners),
        key=lambda at: hypot(*at),
    )
    start, end = (view.at(turned(corner, radians(a))) for a in (0.0, opens))
    first, last = degrees(atan2(start[1], start[0])), degrees(atan2(end[1], end[0]))
    if view.flips:
        first, last = last, first
    while last < first:
        last += 360
    yield Arc((0.0, 0.0), hypot(*start), "thin", first, last)


def _names(view: View, found: Swinging, scale: int) -> Iterator[Shape]:
    """The pin, and what each position is."""
    swing = view.swing
    yield Arc((0.0, 0.0), 1.0 * scale, "mark", filled=True)
    beside = (3.0 if view.mirrored else -3.0) * scale, (-4.5 if swing.back_leads else 2.0) * scale
    yield Text(beside, "pin", align="start" if view.mirrored else "end", halo=True)
    deep = swing.depth / 2
    rows = ((0.0, 0.3, "at rest"), (found.opens_fully, 0.6, f"open {found.opens_fully:g}°"))
    for angle, share, text in rows:
        x, y = view.at(turned((share * swing.width, -deep), radians(angle)))
        yield Text((x, y - SMALL / 2 * scale), text, align="middle", halo=True)
    far = turned((swing.width + swing.aside, 0), radians(found.tightest_at))
    x, y = view.at(far)
    up = 1.5 if swing.back_leads else -1.5 - SMALL
    text = f"tightest {found.tightest_at:g}°"
    align: Align = "start" if view.mirrored else "end"
    yield Text((x, y + up * scale), text, align=align, halo=True)


def _dimensions(view: View, unit: Unit, window: Area, scale: int) -> Iterator[Shape]:
    """The case's width and the opening's, on the side away from the swing."""
    swing = view.swing
    px, _ = swing.pin
    side = 1 if not swing.back_leads else -1  # away from the swing
    edge = window[3] if side > 0 else window[1]
    rest = (swing.aside, swing.aside + swing.width)
    spans = ((rest, swing.width), ((-px, swing.opening - px), swing.opening))
    for step, ((low, high), value) in enumerate(spans):
        ends = sorted((view.at((low, -swing.depth)), view.at((high, -swing.depth))))
        across = edge + side * (6.0 + 10.0 * step) * scale
        text = format_length(value, unit)
        yield Dimension(ends[0], ends[1], "x", across, value, text)


def clipped(points: Sequence[Point], window: Area) -> list[Point]:
    """Return the corners of the part of a convex outline in a window; none where nothing is.

    Sutherland and Hodgman, Reentrant polygon clipping, Communications of the ACM 17 (1974).
    """
    corners = list(points)
    for axis, limit, keeps_less in (
        (0, window[0], False),
        (1, window[1], False),
        (0, window[2], True),
        (1, window[3], True),
    ):
        corners = _half(corners, axis, limit, keeps_less)
    return corners


def _half(points: list[Point], axis: int, limit: float, keeps_less: bool) -> list[Point]:
    """Keep what lies on one side of a line across an axis."""

    def inside(point: Point) -> bool:
        return point[axis] <= limit if keeps_less else point[axis] >= limit

    corners: list[Point] = []
    for before, point in zip(points[-1:] + points[:-1], points, strict=True):
        if inside(before) != inside(point):
            share = (limit - before[axis]) / (point[axis] - before[axis])
            corners.append(
                (
                    before[0] + (point[0] - before[0]) * share,
                    before[1] + (point[1] - before[1]) * share,
                )
            )
        if inside(point):
            corners.append(point)
    return corners
