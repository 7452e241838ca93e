"""Counting cuts: how many openings, how wide and how strong, the tall things need at least.

Whatever the layout, all things of a height or more stand in openings that reach it. So these
openings have the width of those things and bear their mass together, and there are as many of
them as things that cannot share one need. None of this rules out a layout; it is what proofs
rest on, since it speaks of heights alone.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from solver.layout.reachable import NOTHING, Choice, largest, with_any
from solver.layout.shapes import Kind, LayoutProblem
from solver.layout.variables import LayoutVariables, Linear
from solver.units import Ticks

Reaches = Callable[[int, int, Ticks], Linear]
"""A boolean by class, opening and height of a thing: true where such things may stand."""


@dataclass(frozen=True)
class _Row:
    """One opening of a class: `times` bays, width for things with a gap each, load, literal."""

    times: int
    room: Ticks
    load: int
    literal: Linear


def enough_openings(
    v: LayoutVariables, left: int | None = None, reaches: Reaches | None = None
) -> None:
    """Tall things need enough openings that reach their height.

    `left` is the most things that may be left out, None where that is not known.
    """
    lowest = {k: _lowest(kind) for k, kind in enumerate(v.problem.kinds) if kind.forms}
    most = [_most_of(v, "room"), _most_of(v, "load")]
    tall: list[int] = []
    widths = loads = NOTHING
    for height in sorted(set(lowest.values()), reverse=True):
        for k in (k for k, least in lowest.items() if least == height):
            tall.append(k)
            kind = v.problem.kinds[k]
            widths = with_any(widths, _choices(v.problem, kind), _once(v.problem, kind), most[0])
            loads = with_any(loads, [(kind.mass, kind.count)], 0, most[1])
        rows = [
            _Row(
                one.times,
                largest(widths, _room(v, c)),
                largest(loads, one.shape.load_at(o)),
                (reaches or v.reaches)(c, o, height),
            )
            for c, one in enumerate(v.classes)
            for o in range(one.shape.openings)
        ]
        _of_height(v, tall, rows, left)


def _of_height(v: LayoutVariables, tall: list[int], rows: list[_Row], left: int | None) -> None:
    """Width, mass and number of the openings for the kinds `tall`."""
    problem = v.problem
    widths: list[Linear] = [row.times * row.room * row.literal for row in rows]
    loads: list[Linear] = [row.times * row.load * row.literal for row in rows]
    need = mass = 0
    for k in tall:
        kind, sure = problem.kinds[k], _sure(problem.kinds[k], left)
        extra, share = _once(problem, kind), _share(problem, kind)
        need += _width(problem, kind) + extra
        widths.append((share + (0 if sure else extra)) * v.left[k])
        mass += kind.mass * kind.count
        loads.append(kind.mass * v.left[k])
    v.model.add(sum(widths) >= need)
    v.model.add(sum(loads) >= mass)
    if left is not None:
        fewest = _fewest(problem, [problem.kinds[k] for k in tall], rows, left)
        v.model.add(sum(row.times * row.literal for row in rows) >= fewest)


def _room(v: LayoutVariables, c: int) -> Ticks:
    return v.shape(c).run + v.problem.wishes.gap


def _most_of(v: LayoutVariables, what: str) -> int:
    """The most room or load that any opening has."""
    if what == "room":
        return max(_room(v, c) for c in range(len(v.classes)))
    return max(v.shape(c).load_at(k) for c, k in v.openings())


def _choices(problem: LayoutProblem, kind: Kind) -> list[Choice]:
    """What one place of a kind takes, its gap with it, in every way it may stand [tick]."""
    gap = min(problem.wishes.gap, kind.gap)
    return [(form.width + gap, -(-kind.count // form.things)) for form in kind.forms]


def _lowest(kind: Kind) -> Ticks:
    return min(form.height for form in kind.forms)


def _sure(kind: Kind, left: int | None) -> bool:
    """Whether some of a kind stand in any case."""
    return left is not None and kind.count > left


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


def _fewest(problem: LayoutProblem, tall: list[Kind], rows: list[_Row], left: int) -> int:
    """Least number of openings for the kinds `tall`, `left` things of them gone [-]."""
    widths: list[Ticks] = []
    loose, most = 0, 0
    for kind in tall:
        sure = _sure(kind, left)
        loose += _once(problem, kind) if sure else 0
        if all(form.things == 1 for form in kind.forms):
            widths += [_share(problem, kind)] * kind.count
        else:  # stacks are counted by width alone
            loose += _width(problem, kind)
            most = max(most, _share(problem, kind))
    masses = [kind.mass for kind in tall for _ in range(kind.count)]
    return max(
        fewest_bins(_without_largest(widths, left), loose - left * most, _most(rows, "room")),
        fewest_bins(_without_largest(masses, left), 0, _most(rows, "load")),
    )


def _most(rows: Sequence[_Row], what: str) -> int:
    return max(int(getattr(row, what)) for row in rows)


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
    best = 0
    for small in (0, *sorted({size for size in sizes if 2 * size <= room})):
        alone = [size for size in sizes if size > room - small]
        large = [size for size in sizes if room - small >= size and 2 * size > room]
        rest = sum(size for size in sizes if small <= size and 2 * size <= room)
        over = rest + (max(0, loose) if small == 0 else 0) - (len(large) * room - sum(large))
        best = max(best, len(alone) + len(large) + max(0, -(-over // room)))
    return best
