"""An exhaustive solver of what fits, for tiny jobs, to judge the real one by.

One case of one bay, one shelf count, a fixed depth, no lip and one row deep. It tries every
set of marks and every share of things among the openings, and knows nothing of the program's
own layout: sizes and load limits are worked out here again from the job alone. The wishes about
how a layout looks are tried out by :mod:`tests.eye_brute`.

Rules, as in the project's description of the job: an opening must be as high as its tallest
pile and the headroom; the run is the things of each kind with the kind's own gap between them,
the common gap between kinds and both end margins, inside the clear width less the share kept
free; depth, load limit, least and most clear height; a group stands in openings that follow
one another.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from math import ceil

from solver.job.case import settled
from solver.job.inventory import Item
from solver.job.job import Job

POUND = Fraction("453.59237")
FOOT = 12 * 8128
"""Ticks in a foot."""

Clear = tuple[int, ...]
Tallest = tuple[int, ...]
"""Height of the tallest pile in each opening, 0 where it is empty."""


@dataclass(frozen=True)
class Best:
    """What no layout can beat: the least visible area of things left out [mm2]."""

    left_out: int


@dataclass(frozen=True)
class Shelf:
    """Room of one opening: run for things and gaps, depth [tick], and load [g]."""

    run: int
    depth: int
    load: int


@dataclass(frozen=True)
class Share:
    """Things of one kind in one opening."""

    used: int
    width: int
    tallest: int


@dataclass(frozen=True)
class State:
    """What stands in each opening so far, and which openings the current group uses."""

    run: tuple[int, ...]
    load: tuple[int, ...]
    tallest: Tallest
    left_out: int
    """Visible area [mm2]."""
    group: frozenset[int] = frozenset()


def solve(job: Job) -> Best | None:
    """Return the best over all layouts, or None where no marks keep to the clear heights."""
    heights = list(all_clear(job))
    if not heights:
        return None
    contents = all_contents(job, len(heights[0]))
    return Best(
        min(
            left_out
            for left_out, some in contents.items()
            if any(fits(job, clear, tallest) for tallest in some for clear in heights)
        )
    )


def fits(job: Job, clear: Clear, tallest: Tallest) -> bool:
    """Whether every pile has its headroom."""
    room = job.look.headroom
    return all(h >= top + room for h, top in zip(clear, tallest, strict=True) if top)


# --- Clear heights ------------------------------------------------------------------------


def all_clear(job: Job) -> Iterator[Clear]:
    """Clear heights, lowest first, of every set of marks that the job allows."""
    case, look = job.cases[0], job.look
    t = job.thickness(case.material)
    assert case.sizes == "outside"
    assert case.bay_count == 1
    assert case.lip is None
    floor, top = case.raised_bottom + t, settled(case.height) - t
    (count,) = case.shelf_counts
    most = top if look.clear_most is None else look.clear_most
    for marks in combinations(_places(job, floor, top), count):
        floors = [floor, *(mark + t for mark in marks)]
        clear = tuple(end - start for start, end in zip(floors, [*marks, top], strict=True))
        if all(look.clear_least <= h <= most for h in clear):
            yield clear


def _places(job: Job, floor: int, top: int) -> list[int]:
    """Every place that the underside of a shelf may have."""
    case = job.cases[0]
    pins = case.fixing == "pins"
    start, step = (case.first_hole, case.pin_pitch) if pins else (0, job.head.marking_step)
    return [place for place in range(start, top, step) if place > floor]


# --- What stands where --------------------------------------------------------------------


def all_contents(job: Job, openings: int) -> dict[int, set[Tallest]]:
    """Every way to share the things among the openings: tallest piles by area left out [mm2]."""
    shelf = room(job)
    empty = (0,) * openings
    states = {State(empty, empty, empty, 0)}
    last: str | None = None
    for item in sorted(job.items, key=lambda item: item.group or ""):
        if item.group is None or item.group != last:
            states = {_without_group(state) for state in states if _together(state.group)}
        last = item.group
        states = {after for state in states for after in _placed(job, item, state, shelf)}
    found: dict[int, set[Tallest]] = {}
    for state in states:
        if _together(state.group):
            found.setdefault(state.left_out, set()).add(state.tallest)
    return found


def _together(openings: frozenset[int]) -> bool:
    return not openings or max(openings) - min(openings) + 1 == len(openings)


def _without_group(state: State) -> State:
    return State(state.run, state.load, state.tallest, state.left_out)


def _placed(job: Job, item: Item, state: State, shelf: Shelf) -> Iterator[State]:
    """Every state after some, all or none of a kind has been placed."""
    each = mass(job, item)
    shares = kind_shares(job, item, shelf)

    def place(index: int, left: int, now: State) -> Iterator[State]:
        if index == len(now.run):
            out = now.left_out + left * area(item)
            yield State(now.run, now.load, now.tallest, out, now.group)
            return
        yield from place(index + 1, left, now)
        for share in shares:
            run = now.run[index] + share.width + (job.look.gap if now.run[index] else 0)
            load = now.load[index] + share.used * each
            if share.used > left or run > shelf.run or load > shelf.load:
                continue
            after = State(
                _with(now.run, index, run),
                _with(now.load, index, load),
                _with(now.tallest, index, max(now.tallest[index], share.tallest)),
                now.left_out,
                now.group | {index} if item.group else now.group,
            )
            yield from place(index + 1, left - share.used, after)

    yield from place(0, item.count, state)


def _with(values: tuple[int, ...], index: int, value: int) -> tuple[int, ...]:
    return (*values[:index], value, *values[index + 1 :])


def kind_shares(job: Job, item: Item, shelf: Shelf) -> list[Share]:
    """Every number of a kind in one opening and its tallest pile, as narrow as it can be."""
    gap = job.look.gap if item.gap is None else item.gap
    narrowest: dict[tuple[int, int], int] = {}
    for piles in _pile_sets(_piles(job, item, shelf), item.count):
        width = sum(w for w, _, _ in piles) + (len(piles) - 1) * gap
        key = sum(used for _, _, used in piles), max(height for _, height, _ in piles)
        if width <= min(shelf.run, narrowest.get(key, shelf.run)):
            narrowest[key] = width
    return [Share(used, width, tallest) for (used, tallest), width in narrowest.items()]


Pile = tuple[int, int, int]
"""Width, height and number of things of one place."""


def _pile_sets(piles: list[Pile], count: int) -> Iterator[list[Pile]]:
    """Every non-empty choice of piles, with repeats, of at most `count` things."""
    for index, pile in enumerate(piles):
        if pile[2] <= count:
            yield [pile]
            for rest in _pile_sets(piles[index:], count - pile[2]):
                yield [pile, *rest]


def _piles(job: Job, item: Item, shelf: Shelf) -> list[Pile]:
    """Every way to fill one place: standing or lying, one to `stack` on each other."""
    assert item.rows == 1
    extra = job.look.guess_allowance if item.guessed else 0
    w, h, d = (size + extra for size in (item.width, item.height, item.depth))
    stances = {(w, h, d), (h, w, d), (w, d, h)} if item.may_lie else {(w, h, d)}
    fitting = [(w, h) for w, h, d in stances if d + job.look.front_margin <= shelf.depth]
    return [(w, n * h, n) for w, h in fitting for n in range(1, item.stack + 1)]


# --- Room and load ------------------------------------------------------------------------


def room(job: Job) -> Shelf:
    """Room of each opening."""
    case, look = job.cases[0], job.look
    assert isinstance(case.depth, int)
    depth = case.depth - (0 if case.back == "none" else job.thickness(case.back))
    width = settled(case.width) - 2 * job.thickness(case.material)
    free = int(Fraction(str(look.spare)) * width)
    load = look.shelf_load
    if load is None:
        load = int(min(Fraction(40 * width * depth, FOOT**2), Fraction(200)) * POUND)
    return Shelf(width - free - 2 * look.end_margin, depth, load)


def area(item: Item) -> int:
    """Visible front of one thing by its listed size, rounded up [mm2]."""
    return ceil(Fraction(item.width * item.height, 320**2))


def mass(job: Job, item: Item) -> int:
    """Mass of one thing [g]; without a weight 40 lb on each square foot of its footprint."""
    if item.weight is not None:
        return item.weight
    extra = job.look.guess_allowance if item.guessed else 0
    area = Fraction((item.width + extra) * (item.depth + extra), FOOT**2)
    return max(1, int(40 * area * POUND))
