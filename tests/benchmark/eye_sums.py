"""The sums by which two planners are compared: figures of one front, and a table of many.

Restated here from the words of the wishes, from the front alone; nothing is taken from the
planner. Whoever reads the table should know that the wishes aim at most of these, so they show
that the planner does what it says; that it looks better is what the pictures are for.
"""

from __future__ import annotations

import statistics
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import astuple, dataclass, fields
from itertools import pairwise

from solver.units import TICKS_PER_INCH
from tests.arrangement_measures import Rectangle, balance, mass_deviation, symmetry
from tests.benchmark.eye_fronts import Front, Space, Thing


@dataclass(frozen=True)
class Sums:
    """Figures of one front, less is better.

    Attributes
    ----------
    left_out
        Things without a place [-].
    parted
        Openings used beyond one a kind [-].
    single
        Openings with exactly one thing of a kind of three or more that stands elsewhere too [-].
    rises
        Openings taller than the one below, by more than one marking step [-].
    range
        Largest less smallest step from one opening to the next one up [in].
    odd
        Kinds with an odd number of places in an opening, beyond one in each [-].
    outline
        Share of the outline without mirror image: area between the outlines of the shelves and
        their mirror images, over twice the area below the outlines [-].
    """

    left_out: int
    parted: int
    single: int
    rises: int
    range: float
    odd: int
    outline: float


def sums(one: Front) -> Sums:
    """Return the figures of a front."""
    heights = [space.height for space in one.spaces]
    steps = [low - high for low, high in pairwise(heights)]
    spread = max(steps) - min(steps) if len(steps) > 1 else 0
    return Sums(
        left_out=one.left_out,
        parted=sum(len(one.holding(kind)) - 1 for kind in one.kinds()),
        single=sum(_singles(one.holding(kind)) for kind in one.kinds()),
        rises=sum(-step > one.step for step in steps),
        range=spread / TICKS_PER_INCH,
        odd=sum(_odd(space) for space in one.spaces),
        outline=_without_mirror(one),
    )


def _singles(held: Sequence[int]) -> int:
    return held.count(1) if sum(held) >= 3 and len(held) > 1 else 0


def _odd(space: Space) -> int:
    return max(0, sum(count % 2 for count in space.places().values()) - 1)


def _without_mirror(one: Front) -> float:
    apart = below = 0
    for space in one.spaces:
        differing, area = outline_areas(one.width, space.things)
        apart, below = apart + differing, below + area
    return apart / (2 * below)


def outline_areas(width: int, things: Sequence[Thing]) -> tuple[int, int]:
    """Return the area between a shelf's outline and its mirror image, and that below it [tick2]."""
    ends = {0, width}
    for one in things:
        ends |= {one.x, one.x + one.width, width - one.x, width - one.x - one.width}
    apart = below = 0
    for left, right in pairwise(sorted(ends)):
        here = _outline(left, right, things)
        apart += abs(here - _outline(width - right, width - left, things)) * (right - left)
        below += here * (right - left)
    return apart, below


def _outline(left: int, right: int, things: Sequence[Thing]) -> int:
    """Height of the outline over a stretch that no thing begins or ends within [tick]."""
    over = (one.top for one in things if one.x <= left and right <= one.x + one.width)
    return max(over, default=0)


TITLES = {
    "left_out": "left out",
    "parted": "places beyond one a kind",
    "single": "single things apart from their kind",
    "rises": "openings taller than the one below",
    "range": "range of steps, in",
    "odd": "odd kinds beyond one a shelf",
    "outline": "outline without mirror image, median",
}


def table(sets: Mapping[str, Sequence[Sums]]) -> Iterator[str]:
    """Yield the lines of a table in Markdown: a row for each figure, a column for each set."""
    yield " | ".join(("| sum", *sets)) + " |"
    yield "|---" * (len(sets) + 1) + "|"
    for field in fields(Sums):
        cells = [_summed([getattr(one, field.name) for one in found]) for found in sets.values()]
        if field.name == "outline":
            cells = [
                f"{statistics.median(one.outline for one in found):.1%}" for found in sets.values()
            ]
        yield " | ".join((f"| {TITLES[field.name]}", *cells)) + " |"


def _summed(figures: Sequence[float]) -> str:
    total = sum(figures)
    return f"{total:.1f}" if isinstance(total, float) else str(total)


def lines(found: Mapping[int, Sums]) -> Iterator[str]:
    """Yield a line for each collection, in the order of the figures."""
    yield "seed  left  parted  single  rises  range in  odd  outline"
    for seed, one in found.items():
        left, parted, single, rises, spread, odd, outline = astuple(one)
        yield (
            f"{seed}  {left:4}  {parted:6}  {single:6}  {rises:5}  {spread:8.2f}  {odd:3}"
            f"  {outline:7.1%}"
        )


Published = Callable[[Front], float]


def rectangles(one: Front) -> tuple[tuple[float, float], list[Rectangle]]:
    """Return the inside of a case as a frame, and the fronts of the things in it [in]."""
    low, last = one.spaces[0].floor, one.spaces[-1]
    frame = one.width / TICKS_PER_INCH, (last.floor + last.height - low) / TICKS_PER_INCH
    found = []
    for space in one.spaces:
        for thing in space.things:
            edges = thing.x, space.floor - low + thing.y, thing.width, thing.height
            found.append(Rectangle(*(edge / TICKS_PER_INCH for edge in edges)))
    return frame, found


PUBLISHED: dict[str, Published] = {
    "balance, left to right": lambda one: -balance(*rectangles(one)),
    "symmetry, left to right": lambda one: -symmetry(*rectangles(one)),
    "centre of mass off the middle": lambda one: mass_deviation(*rectangles(one)),
}
"""Other people's measures, so turned that less is better."""


def better(old: Sequence[Front], new: Sequence[Front]) -> Iterator[str]:
    """Yield a line for each published measure: in how many pairs the new front is better."""
    for name, measure in PUBLISHED.items():
        pairs = [(measure(a), measure(b)) for a, b in zip(old, new, strict=True)]
        wins, losses = sum(b < a for a, b in pairs), sum(b > a for a, b in pairs)
        medians = [abs(statistics.median(side)) for side in zip(*pairs, strict=True)]
        yield (
            f"{name}: better {wins}, worse {losses} of {len(pairs)}"
            f" (median {medians[0]:.3f} before, {medians[1]:.3f} now)"
        )
