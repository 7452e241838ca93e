"""The grid of open sizes of one combination of shelf counts, one axis for each open size.

An axis has the whole cutting steps within the range, its ends and the wish. Its cliffs are the
sizes at which one strip or one piece fewer comes out of a sheet or a stick.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from solver.carcass.outline import back_counted, boards_added, boards_around, depth_wanted
from solver.carcass.settled_job import CaseSize, SizeName, Sizes, most_of, settle
from solver.job.case import Case, SizeRange
from solver.job.job import Job
from solver.units import Ticks, round_up

Point = tuple[int, ...]
"""One choice of sizes: for each axis the index of its value [-]."""
Counts = Mapping[str, tuple[int, ...]]


@dataclass(frozen=True)
class Axis:
    """One open size of one case.

    Attributes
    ----------
    case, what
        Which.
    values
        The sizes that are tried, ascending; as the case's sizes are given, depths inside [tick].
    wish
        The size wished for; one of `values` [tick].
    least, most
        Ends of the range as the job gives it [tick].
    added
        What a value lacks to be as the job gives it: the back of an outside depth [tick].
    """

    case: str
    what: SizeName
    values: tuple[Ticks, ...]
    wish: Ticks
    least: Ticks
    most: Ticks
    added: Ticks = 0

    @property
    def wished(self) -> int:
        """Index of the wish [-]."""
        return bisect_left(self.values, self.wish)


def axes_of(job: Job, counts: Counts) -> tuple[Axis, ...]:
    """Return every open size, case by case: width, height, depth."""
    return tuple(
        _axis(job, case, what, size, len(counts[case.name]))
        for case in job.cases
        for what, size in _open(job, case)
    )


def _open(job: Job, case: Case) -> Iterator[tuple[SizeName, SizeRange]]:
    if isinstance(case.width, SizeRange):
        yield "width", case.width
    if isinstance(case.height, SizeRange):
        yield "height", case.height
    depth = depth_wanted(job, case)
    if isinstance(depth, SizeRange):
        yield "depth", depth


def _axis(job: Job, case: Case, what: SizeName, size: SizeRange, bays: int) -> Axis:
    added = back_counted(job, case) if what == "depth" else 0
    apart = bays * (bays - 1) if what == "width" else 0
    return Axis(
        case=case.name,
        what=what,
        values=_values(size, job.shop.cutting_step, apart),
        wish=size.wished,
        least=size.least + added,
        most=size.most + added,
        added=added,
    )


def _values(size: SizeRange, step: Ticks, apart: Ticks) -> tuple[Ticks, ...]:
    """Return the sizes on the cutting step within the range, its ends and the wish, ascending.

    Of sizes nearer to each other than `apart` only one is kept: the wish before the ends, the ends
    before the steps. The last bay of a case takes the few ticks that do not divide by the bays, so
    only a width that is larger by `apart` makes every bay as wide or wider.
    """
    chosen = [size.wished]
    on_step = range(round_up(size.least, step), size.most + 1, step)
    for value in (size.least, size.most, *on_step):
        if all(value != one and abs(value - one) >= apart for one in chosen):
            chosen.append(value)
    return tuple(sorted(chosen))


@dataclass(frozen=True)
class Grid:
    """All choices of the open sizes of a job, for one combination of shelf counts."""

    job: Job
    counts: Counts
    axes: tuple[Axis, ...]

    @property
    def low(self) -> Point:
        """The least of every size."""
        return tuple(0 for _ in self.axes)

    @property
    def high(self) -> Point:
        """The most of every size."""
        return tuple(len(axis.values) - 1 for axis in self.axes)

    def sizes(self, point: Point) -> Sizes:
        """Return the sizes of every case at a point."""
        sizes = {case.name: most_of(self.job, case) for case in self.job.cases}
        for axis, at in zip(self.axes, point, strict=True):
            old = sizes[axis.case]
            kept = {"width": old.width, "height": old.height, "depth": old.depth}
            sizes[axis.case] = CaseSize(**{**kept, axis.what: axis.values[at]})
        return sizes

    def settled(self, point: Point) -> tuple[Job, dict[str, Ticks]]:
        """Return the job with the sizes of a point, and the inside depth of each case [tick]."""
        sizes = self.sizes(point)
        depths = {name: size.depth for name, size in sizes.items()}
        return settle(self.job, self.counts, sizes), depths

    def distance(self, point: Point) -> Ticks:
        """Return how far the sizes are from the wished ones, all together [tick]."""
        return sum(
            abs(axis.values[at] - axis.wish) for axis, at in zip(self.axes, point, strict=True)
        )

    def nearest(self, low: Point, high: Point) -> Point:
        """Return the point of a box that is nearest to the wish."""
        return tuple(
            min(max(axis.wished, a), b) for axis, a, b in zip(self.axes, low, high, strict=True)
        )


def moved(point: Point, axis: int, at: int) -> Point:
    """Return the point with the index `at` on one axis."""
    return (*point[:axis], at, *point[axis + 1 :])


def not_above(low: Sequence[int], high: Sequence[int]) -> bool:
    """Whether no index of `low` is over that of `high`."""
    return all(a <= b for a, b in zip(low, high, strict=True))


PARTS = 64
"""Steps between the sizes there are and the wished ones, all moved at once [-]."""


def moved_towards(start: Point, wish: Point, good: Callable[[Point], bool]) -> Point:
    """Return sizes nearer to the wish that are good, from `start`, which is.

    All sizes are moved at once, then each by itself, so that sizes that depend on each other, such
    as the depths of a pair that share a sheet, give way alike. Each move is found by halving. Where
    everything between a good point and the start is good, no size can be moved further on its own;
    else the result is some good point.
    """
    point = _furthest([_between(start, wish, part) for part in range(PARTS + 1)], good)
    for axis in sorted(range(len(point)), key=lambda n: (-abs(wish[n] - point[n]), n)):
        step = 1 if wish[axis] >= point[axis] else -1
        steps = [moved(point, axis, at) for at in range(point[axis], wish[axis] + step, step)]
        point = _furthest(steps, good)
    return point


def _between(start: Point, end: Point, part: int) -> Point:
    return tuple(a + (b - a) * part // PARTS for a, b in zip(start, end, strict=True))


def _furthest(points: Sequence[Point], good: Callable[[Point], bool]) -> Point:
    """Return the last of the points that is good, by halving; the first one is."""
    least, most = 0, len(points)
    while most - least > 1:
        middle = (least + most) // 2
        if good(points[middle]):
            least = middle
        else:
            most = middle
    return points[least]


def pieces_per_side(
    whole: Ticks, piece: Ticks, kerf: Ticks, *, trim: Ticks = 0, margin: Ticks = 0
) -> int:
    """Return how many pieces of a size come out of a side of a sheet, or of a stick [-].

    Parameters
    ----------
    whole, piece
        The side of the sheet, and what is wanted of each strip or piece [tick].
    kerf, trim, margin
        Width of a cut, lost at each end, slack kept with each piece [tick].
    """
    return max(0, (whole - 2 * trim + kerf) // (piece + margin + kerf))


def cliffs_of(grid: Grid) -> tuple[tuple[int, ...], ...]:
    """Return for each axis the indices of the values at which some count falls."""
    return tuple(_cliffs(grid, axis) for axis in grid.axes)


def _cliffs(grid: Grid, axis: Axis) -> tuple[int, ...]:
    counts = [_counts(grid, axis, value) for value in axis.values]
    return tuple(n for n, (a, b) in enumerate(pairwise(counts), start=1) if a != b)


def _counts(grid: Grid, axis: Axis, value: Ticks) -> tuple[int, ...]:
    """Return the counts of everything that is cut to a size: strips, boards, a back, lips."""
    job, shop = grid.job, grid.job.shop
    case = job.case(axis.case)
    cut_sizes = {
        material: _cut_to(job, case, axis, value, len(grid.counts[case.name]), material)
        for material in dict.fromkeys((case.material, case.back))
    }
    return tuple(
        pieces_per_side(side, size, shop.kerf, trim=shop.edge_trim, margin=shop.margin)
        for sheet in job.sheets
        for size in cut_sizes.get(sheet.material, ())
        for side in (sheet.length, sheet.width)
    )


def _cut_to(
    job: Job, case: Case, axis: Axis, value: Ticks, bays: int, material: str
) -> tuple[Ticks, ...]:
    """Return the sizes that parts of a material get from one size of the case [tick]."""
    t, side = job.thickness(case.material), 1 if axis.what == "height" else 0
    if axis.what == "depth":
        return (value,) if material == case.material else ()
    whole = value + boards_added(job, case)[side]
    inside = whole - boards_around(job, case)[side]
    if material != case.material:
        return (max(1, whole - case.back_inset),)
    dado = 2 * case.dado_depth
    if axis.what == "height":
        return (whole, inside + dado) if bays > 1 else (whole,)
    bay = (inside - (bays - 1) * t) // bays
    ends = dado if case.fixing == "fixed" else -case.pin_clearance
    return inside + dado, max(1, bay + ends)
