"""Conservative scales: other sizes under which whatever fits one board still fits.

A conservative scale along the sheet gives each kind and way to lie a value, such that every
choice of parts that fits side by side adds up to at most 1. With such scales f along and
g across, the products f g of all parts on one board add up to at most 1 (Fekete and
Schepers 2004); dual feasible functions are special cases. With g fixed, the best f is a
linear program whose rows are the choices that fit. The rows are found one by one as knapsacks, and
f and g are improved in turn (Belov, Kartak, Rohling and Scheithauer 2013).

The programs run in floating point. Their values are then made whole numbers and the most that
fits each board is found exactly in these, so the resulting row does not depend on tolerances.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from ortools.linear_solver import pywraplp  # type: ignore[import-untyped]

from solver.cutting.padded_sizes import PaddedProblem
from solver.cutting.strip_knapsack import SideKnapsack

Values: TypeAlias = list[list[float]]
"""A value for each kind and way to lie [-]."""

WHOLE = 10**6
"""Values are taken as whole numbers of 1/WHOLE."""

TURNS_MOST = 12
"""How often the two scales of one start are improved in turn [-]."""

ROUNDS_MOST = 200
"""Rows added to a linear program before it is left as it is [-]."""

KEPT = 7
"""Scales kept to start the next program from, beside the newest [-]."""

LEAST_GAIN = 1e-4
"""An improvement of less than this share does not count [-]."""


@dataclass(frozen=True)
class Pair:
    """A scale along and one across, multiplied out, in whole numbers.

    Attributes
    ----------
    worth
        Product for each kind and way to lie [-].
    capacity
        The most that each board can hold of it [-].
    """

    worth: tuple[tuple[int, ...], ...]
    capacity: tuple[int, ...]

    @property
    def top(self) -> int:
        """The most that any board can hold [-]."""
        return max(self.capacity)


class Scales:
    """Improves pairs of scales; rows found for one pair are kept for the next."""

    def __init__(self, padded: PaddedProblem) -> None:
        sides = []
        for axis in (0, 1):
            extents = [[lie[axis] for lie in kind.lies] for kind in padded.kinds]
            rooms = [(board.length, board.width)[axis] for board in padded.boards]
            sides.append(Side(extents, padded.demand, rooms))
        self.sides = tuple(sides)

    @property
    def work(self) -> int:
        """Steps of knapsacks and linear programs so far [-]."""
        return sum(side.work for side in self.sides)

    def better(self, counts: Values, held: Values, axis: int) -> Pair:
        """Start from values fixed in one direction; return the best pair found.

        Parameters
        ----------
        counts
            How many of each kind lie each way; what is maximised is their worth [-].
        held
            Values across the direction that is improved first [-].
        axis
            Direction improved first: 0 along the sheet, 1 across.
        """
        scales: list[Values] = [held, held]
        value = 0.0
        for turn in range(TURNS_MOST):
            at = (axis + turn) % 2
            scales[at], reached = self.sides[at].best(_times(counts, scales[1 - at]))
            if turn > 0 and reached < value * (1 + LEAST_GAIN):
                break
            value = reached
        return self.exact(scales[0], scales[1])

    def exact(self, along: Values, across: Values) -> Pair:
        """Return a pair in whole numbers, with the most that boards hold of it."""
        f, g = ([[int(v * WHOLE) for v in own] for own in scale] for scale in (along, across))
        tops = [side.most(whole) for side, whole in zip(self.sides, (f, g), strict=True)]
        worth = tuple(
            tuple(a * b for a, b in zip(own, other, strict=True))
            for own, other in zip(f, g, strict=True)
        )
        return Pair(worth, tuple(a * b for a, b in zip(*tops, strict=True)))


class Side:
    """One direction: its knapsack, and the linear program over all choices that fit.

    Parts of one size have one value: a value for each kind is hardly ever better, and takes
    many times as long. There are as many of a size as parts that have it.
    """

    def __init__(
        self, extents: list[list[int]], demand: Sequence[int], rooms: Sequence[int]
    ) -> None:
        sizes = sorted({extent for own in extents for extent in own})
        at = {size: i for i, size in enumerate(sizes)}
        counts = [0] * len(sizes)
        for own, count in zip(extents, demand, strict=True):
            for extent in set(own):
                counts[at[extent]] += count
        self.line = SideKnapsack(sizes, counts, rooms)
        self.work = 0
        self._places = [[at[extent] for extent in own] for own in extents]
        self._program: Any = pywraplp.Solver.CreateSolver("GLOP")
        self._program.SuppressOutput()
        self._scale = [self._program.NumVar(0, 1, "") for _ in sizes]
        self._program.Objective().SetMaximization()
        self._allowed: list[list[float]] = [[size / max(rooms) for size in sizes]]

    def best(self, weights: Values) -> tuple[Values, float]:
        """Return a scale of nearly the most weight, by kind and way to lie, and that weight [-]."""
        sums = [0.0] * len(self._scale)
        for own, places in zip(weights, self._places, strict=True):
            for w, at in zip(own, places, strict=True):
                sums[at] += w
        held = self._best(sums)
        return [[held[at] for at in places] for places in self._places], _weight(sums, held)

    def most(self, values: list[list[int]]) -> list[int]:
        """Return, exactly, the most that each room holds of whole values."""
        whole = [0] * len(self._scale)
        for own, places in zip(values, self._places, strict=True):
            for v, at in zip(own, places, strict=True):
                whole[at] = max(whole[at], v)
        return self.line.most(whole)

    def _best(self, weights: list[float]) -> list[float]:
        """Return the best scale of the program.

        Rows are sought half way between the program's answer and the best scale known to
        hold: they cut deeper there, and there is always a valid scale.
        """
        self._want(weights)
        held = max(self._allowed, key=lambda scale: _weight(weights, scale))
        for _ in range(ROUNDS_MOST):
            self.work += self.line.cells + self._size()
            if self._program.Solve() != pywraplp.Solver.OPTIMAL:
                break
            wanted = [max(0.0, value.solution_value()) for value in self._scale]
            if _weight(weights, held) >= _weight(weights, wanted) * (1 - LEAST_GAIN):
                break
            middle = [(a + b) / 2 for a, b in zip(wanted, held, strict=True)]
            if not self._holds(middle):
                continue
            held = middle
            if self._holds(wanted):
                held = wanted
                break
        self._allowed = [*self._allowed[-KEPT:], held]
        return held

    def _want(self, weights: list[float]) -> None:
        """Set what is maximised, scaled to about 1."""
        top = max(weights) or 1.0
        for value, w in zip(self._scale, weights, strict=True):
            self._program.Objective().SetCoefficient(value, w / top if w > 1e-9 * top else 0.0)

    def _holds(self, scale: list[float]) -> bool:
        """Return True where no choice that fits is worth more than 1; else add that choice."""
        self.work += self.line.cells
        worth, counts = self.line.best(scale)
        if worth <= 1 + 1e-6:
            return True
        row = self._program.Constraint(-self._program.infinity(), 1)
        for value, count in zip(self._scale, counts, strict=True):
            if count:
                row.SetCoefficient(value, count)
        return False

    def _size(self) -> int:
        """Rough cost of solving the program once more, in cells of a table [-]."""
        return 100_000 + 40 * int(self._program.NumConstraints()) * len(self._scale)


def _weight(weights: Sequence[float], scale: Sequence[float]) -> float:
    return sum(w * v for w, v in zip(weights, scale, strict=True))


def _times(one: Values, other: Values) -> Values:
    return [
        [a * b for a, b in zip(own, by, strict=True)] for own, by in zip(one, other, strict=True)
    ]
