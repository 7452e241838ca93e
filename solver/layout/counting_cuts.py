"""Counting cuts: how many openings, how wide and how strong, the tall things need at least.

Whatever the layout, all things of a height or more stand in openings that reach it. So these
openings have the width of those things and bear their mass together, and there are as many of
them as things that cannot share one need. None of this rules out a layout; it is what proofs
rest on, since it speaks of heights alone.

An opening is never filled beyond the largest sum of widths that it can hold (subset sums). Widths
come in few sizes, so that the sums leave gaps: an opening of 22 in may hold 20-1/2 in of things at
most. Taking that for its width makes bounds much tighter. A set of sums is a whole number, one bit
for each sum.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate

from solver.layout.layout_problem import Kind, LayoutProblem
from solver.layout.variables import LayoutVariables, Linear
from solver.units import Grams, Ticks

Reaches = Callable[[int, int, Ticks], Linear]
"""A boolean by class, opening and height of a thing: true where such things may stand."""


@dataclass(frozen=True)
class _Row:
    """One opening of a class: `times` bays, width for things with a gap each, load, literal."""

    times: int
    room: Ticks
    load: int
    literal: Linear


def leave_out_at_most(v: LayoutVariables, left: int) -> None:
    """No more than so many things are left out; and so tall things need enough openings."""
    v.model.add(sum(v.left.values()) <= left)
    enough_openings(v, left)


def enough_openings(
    v: LayoutVariables, left: int | None = None, reaches: Reaches | None = None
) -> None:
    """Tall things need enough openings that reach their height.

    `left` is the most things that may be left out, None where that is not known.
    """
    heights = {k: lowest(kind) for k, kind in enumerate(v.problem.kinds) if kind.forms}
    openings = [(c, o) for c, one in enumerate(v.classes) for o in range(one.shape.openings)]
    widths = _Filled({_room(v, c) for c, _ in openings})
    loads = _Filled({v.shape(c).load_at(o) for c, o in openings})
    tall = Tall(v.problem, left)
    for height in sorted(set(heights.values()), reverse=True):
        for k in (k for k, least in heights.items() if least == height):
            tall.add(k)
            kind = v.problem.kinds[k]
            widths.add(_choices(v.problem, kind), _once(v.problem, kind))
            loads.add([(kind.mass, kind.count)], 0)
        rows = [
            _Row(
                v.classes[c].times,
                widths.largest(_room(v, c)),
                loads.largest(v.shape(c).load_at(o)),
                (reaches or v.reaches)(c, o, height),
            )
            for c, o in openings
        ]
        _of_height(v, tall, rows)


class _Filled:
    """The largest sum of things within each room; none is added once every room is full."""

    def __init__(self, rooms: Collection[int]) -> None:
        self._rooms, self._most, self._sums = rooms, max(rooms), NOTHING
        self._largest: dict[int, int] = {}

    def add(self, choices: Iterable[Choice], once: int) -> None:
        """Add a kind; the arguments as for :func:`with_any`."""
        if any(self.largest(room) < room for room in self._rooms):
            self._sums = with_any(self._sums, choices, once, self._most)
            self._largest = {}

    def largest(self, room: int) -> int:
        """Return the largest sum of at most `room`."""
        if room not in self._largest:
            self._largest[room] = largest(self._sums, room)
        return self._largest[room]


class Tall:
    """All kinds of a height or more, added up kind by kind, tallest first.

    Attributes
    ----------
    need, mass
        Width and mass of them all [tick], [g].
    widths, masses
        Of each thing that shares openings with others as it is.
    loose, most
        Width that counts as divisible, and the most of it in one thing [tick].
    gone_widths, gone_masses
        What a kind's things take less where some are left out, by kind.
    """

    def __init__(self, problem: LayoutProblem, left: int | None) -> None:
        self.problem, self.left = problem, left
        self.need = self.mass = self.loose = self.most = 0
        self.widths: list[int] = []
        self.masses: list[int] = []
        self.gone_widths: dict[int, int] = {}
        self.gone_masses: dict[int, int] = {}

    def add(self, k: int) -> None:
        """Add a kind by its index."""
        problem, kind = self.problem, self.problem.kinds[k]
        extra, share = _once(problem, kind), _share(problem, kind)
        sure = self.left is not None and kind.count > self.left  # some of it stand in any case
        self.need += _width(problem, kind) + extra
        self.mass += kind.mass * kind.count
        self.gone_widths[k] = share + (0 if sure else extra)
        self.gone_masses[k] = kind.mass
        self.loose += extra if sure else 0
        if all(form.things == 1 for form in kind.forms):
            self.widths += [share] * kind.count
        else:  # stacks are counted by width alone
            self.loose += _width(problem, kind)
            self.most = max(self.most, share)
        self.masses += [kind.mass] * kind.count

    def fewest(self, room: Ticks, load: Grams, left: int) -> int:
        """Least number of openings with such room and load for them, `left` things gone [-]."""
        return max(
            fewest_bins(_without_largest(self.widths, left), self.loose - left * self.most, room),
            fewest_bins(_without_largest(self.masses, left), 0, load),
        )


def _of_height(v: LayoutVariables, tall: Tall, rows: list[_Row]) -> None:
    """Width, mass and number of the openings for the tall kinds."""
    widths: list[Linear] = [row.times * row.room * row.literal for row in rows]
    loads: list[Linear] = [row.times * row.load * row.literal for row in rows]
    widths += [width * v.left[k] for k, width in tall.gone_widths.items()]
    loads += [mass * v.left[k] for k, mass in tall.gone_masses.items()]
    v.model.add(sum(widths) >= tall.need)
    v.model.add(sum(loads) >= tall.mass)
    if tall.left is not None:
        room, load = max(row.room for row in rows), max(row.load for row in rows)
        fewest = tall.fewest(room, load, tall.left)
        v.model.add(sum(row.times * row.literal for row in rows) >= fewest)


def _room(v: LayoutVariables, c: int) -> Ticks:
    return v.shape(c).run + v.problem.wishes.gap


def _choices(problem: LayoutProblem, kind: Kind) -> list[Choice]:
    """What one place of a kind takes, its gap with it, in every way it may stand [tick]."""
    gap = min(problem.wishes.gap, kind.gap)
    return [(form.width + gap, -(-kind.count // form.things)) for form in kind.forms]


def lowest(kind: Kind) -> Ticks:
    """Least height that a thing of a kind can stand at [tick]."""
    return min(form.height for form in kind.forms)


def _once(problem: LayoutProblem, kind: Kind) -> Ticks:
    """What a kind takes once wherever it stands: its last gap is the one between kinds [tick]."""
    return max(0, problem.wishes.gap - kind.gap)


def _share(problem: LayoutProblem, kind: Kind) -> Ticks:
    """Least width of one thing, its gap with it, rounded up [tick]."""
    gap = min(problem.wishes.gap, kind.gap)
    return min(-(-(form.width + gap) // form.things) for form in kind.forms)


def _width(problem: LayoutProblem, kind: Kind) -> Ticks:
    """Least width of all things of a kind together, gaps with them [tick]."""
    gap = min(problem.wishes.gap, kind.gap)
    return min(kind.count * (form.width + gap) // form.things for form in kind.forms)


def _without_largest(sizes: list[int], count: int) -> list[int]:
    return sorted(sizes, reverse=True)[count:]


def fewest_bins(sizes: Sequence[int], loose: int, room: int) -> int:
    """Return a lower bound of the bins of size `room` for `sizes` and a divisible rest `loose`.

    Martello and Toth (1990), Knapsack Problems, section 8.3, bound L2: no two sizes over half
    a bin share one, and those that leave no place for a size of at least `small` have bins
    to themselves.
    """
    if room <= 0:
        return 0
    ordered, best = sorted(sizes), 0
    sums = [0, *accumulate(ordered)]
    half = bisect_right(ordered, room // 2)
    for small in (0, *dict.fromkeys(ordered[:half])):
        large = bisect_right(ordered, room - small)
        alone = len(ordered) - large
        over = sums[half] - sums[bisect_left(ordered, small)]
        over += max(0, loose) if small == 0 else 0
        over -= (large - half) * room - (sums[large] - sums[half])
        best = max(best, alone + large - half + max(0, -(-over // room)))
    return best


Sums = int
"""A set of sums: bit s is set where s can be reached."""
NOTHING: Sums = 1
"""Only the empty sum."""

Choice = tuple[int, int]
"""(size, most pieces of it)."""


def with_any(sums: Sums, choices: Iterable[Choice], once: int, most: int) -> Sums:
    """Add a kind to a set of sums: none of it, or any number of pieces of its sizes.

    `once` comes on top (or off) where there is any piece of it. Sums over `most` are dropped.
    """
    mask = (1 << (most + abs(once) + 1)) - 1
    none, some = sums, 0
    room = most + max(0, -once)  # what comes off once makes room for a piece
    for size, count in choices:
        fits = min(count, room // size) if size else 0
        added = _repeated(none, size, fits, mask)
        some |= _repeated(some, size, fits, mask) | added
    moved = some << once if once >= 0 else some >> -once
    return (sums | moved) & ((1 << (most + 1)) - 1)


def _repeated(sums: Sums, size: int, count: int, mask: Sums) -> Sums:
    """The sums with 1 to `count` pieces of a size more."""
    found = 0
    for _ in range(count):
        sums = (sums << size) & mask
        found |= sums
    return found


def largest(sums: Sums, room: int) -> int:
    """Return the largest sum of at most `room`; less than nothing is nothing."""
    return max(0, (sums & ((1 << (max(0, room) + 1)) - 1)).bit_length() - 1)


def all_sums(kinds: Iterable[tuple[Sequence[Choice], int]], most: int) -> Sums:
    """Return the sums of any pieces of the kinds, each with its choices and what it takes once.

    Once `most` itself is reached the kinds that follow are not looked at: no sum is larger.
    """
    sums = NOTHING
    for choices, once in kinds:
        if sums >> most:
            break
        sums = with_any(sums, choices, once, most)
    return sums
