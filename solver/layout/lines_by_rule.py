"""Shelf lines by rule: every row as high as its tallest thing asks, and a steady fall if it may be.

Rows of all bays of a line group lie on common lines. Counted are the marking steps of the first
bay that uses all of them; those of a group add up to nothing (`BayShape.constant`).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate, combinations, islice, pairwise

from solver.layout.layout_problem import Form, LayoutProblem, LineGroup, MarkHeld, Spot
from solver.layout.rules_kept import heights_kept, marks_kept
from solver.units import Ticks

TRIED = 500
"""Choices of common lines that are tried for a bay with fewer shelves [-]."""


class Rows:
    """The rows of a line group, and how high each may be [marking steps]."""

    def __init__(self, problem: LayoutProblem, group: LineGroup) -> None:
        self.problem, self.group = problem, group
        bays = problem.bays
        self.full = [bay for bay in group.bays if bays[bay].shelves == group.most]
        self.first, self.last = bays[self.full[0]], group.most
        wishes = problem.wishes
        self.least = [self._steps(k, wishes.clear_least) for k in range(group.most + 1)]
        self.most = [min(self._cap(bay, k) for bay in self.full) for k in range(group.most + 1)]

    def need(self, k: int, form: Form) -> int:
        """Steps of a row that is high enough for a form in every bay."""
        bays = self.problem.bays
        return max(
            self.least[k],
            *(self._at(b, k, self.problem.needed(form, bays[b], k)) for b in self.full),
        )

    def _steps(self, k: int, height: Ticks) -> int:
        return max(self._at(bay, k, height) for bay in self.full)

    def _at(self, bay: int, k: int, height: Ticks) -> int:
        """Least steps for a clear height in one bay, as the first bay counts them."""
        shape = self.problem.bays[bay]
        return -((shape.constant(k) - height) // shape.step) + self._away(bay, k)

    def _cap(self, bay: int, k: int) -> int:
        shape, most = self.problem.bays[bay], self.problem.wishes.clear_most
        height = shape.inside if most is None else most - shape.higher_if_thin(k)
        return (height - shape.constant(k)) // shape.step + self._away(bay, k)

    def _away(self, bay: int, k: int) -> int:
        """How the count of a bay's outer openings differs from the first bay's."""
        away = self.problem.bays[bay].line - self.first.line
        return (away if k == 0 else 0) - (away if k == self.last else 0)

    def spread(self, needs: Sequence[int]) -> list[int] | None:
        """Marks of the lines for rows of at least so many steps; None where nothing does."""
        held = self._held()
        if self.last == 0:
            return []
        steps = None if held else self.steady(needs)
        if steps is None:
            ends = [(0, 0), *sorted(held.items()), (self.last + 1, 0)]
            parts = [self._shares(needs, a, b) for a, b in pairwise(ends)]
            steps = [step for part in parts if part is not None for step in part]
            if len(steps) <= self.last:
                return None
        return list(accumulate(steps))[:-1]

    def _held(self) -> dict[int, int]:
        """Marks held, as the first bay counts them, by number of the line."""
        holding, held = self.problem.holding, dict[Spot, int]()
        if holding.fixed and holding.before is not None:
            held |= dict(holding.before.marks)
        held |= {(m.bay, m.shelf): m.mark for m in holding.held if isinstance(m, MarkHeld)}
        return {
            shelf: mark + self.problem.bays[bay].line - self.first.line
            for (bay, shelf), mark in held.items()
            if bay in self.full and shelf <= self.last
        }

    def _shares(
        self, needs: Sequence[int], low: tuple[int, int], high: tuple[int, int]
    ) -> list[int] | None:
        """Steps of the rows between two lines: what is over is shared, the lowest rows first."""
        rows = range(low[0], high[0])
        steps = {k: self.least[k] for k in rows}
        rest = high[1] - low[1] - sum(steps.values())
        for _ in range(rest):
            may = [k for k in rows if steps[k] < self.most[k]]
            if not may:
                return None
            short = [k for k in may if steps[k] < needs[k]]
            k = short[0] if short else min(may, key=lambda k: (steps[k] - needs[k], k))
            steps[k] += 1
        return None if rest < 0 else [steps[k] for k in rows]

    def steady(self, needs: Sequence[int]) -> list[int] | None:
        """Steps of rows that fall by one step from row to row, as much as they may; else None."""
        shape, wishes, count = self.first, self.problem.wishes, self.last + 1
        constants = [shape.constant(k) for k in range(count)]
        mean, middle = Fraction(sum(constants), count), Fraction(self.last, 2)
        sign = -1 if wishes.tallest == "top" else 1
        low, high = Fraction(0), Fraction(shape.inside)
        for k in range(count):
            slope = sign * (middle - k)
            least = constants[k] + shape.step * (needs[k] + 1) - mean
            most = constants[k] + shape.step * (self.most[k] - 1) - mean
            if slope == 0 and not least <= 0 <= most:
                return None
            if slope:
                ends = sorted((least / slope, most / slope))
                low, high = max(low, ends[0]), min(high, ends[1])
        if low > high:
            return None
        fall = high if wishes.rhythm in ("steady", "graduated") else low
        if wishes.step is not None:
            fall = min(max(low, Fraction(wishes.step)), high)
        heights = [mean + fall * sign * (middle - k) for k in range(count)]
        exact = accumulate((h - c) / shape.step for h, c in zip(heights, constants, strict=True))
        lines = [0, *map(round, exact)]
        return [b - a for a, b in pairwise(lines)]


def marks_by_rule(
    problem: LayoutProblem, rows: Sequence[Rows], needs: Sequence[Sequence[int]]
) -> dict[Spot, int] | None:
    """Marks by (bay, shelf) for rows that need so many steps, group by group; None: not found."""
    marks = dict[Spot, int]()
    for one, wanted in zip(rows, needs, strict=True):
        lines = one.spread(wanted)
        if lines is None:
            return None
        for bay in one.group.bays:
            shape = problem.bays[bay]
            own = [line + one.first.line - shape.line for line in lines]
            some = own if bay in one.full else _some_of(problem, bay, own)
            if some is None:
                return None
            marks |= {(bay, k): mark for k, mark in enumerate(some, start=1)}
    return marks if marks_kept(problem, marks) else None


def _some_of(problem: LayoutProblem, bay: int, lines: Sequence[int]) -> Sequence[int] | None:
    """The lines that a bay with fewer shelves uses: the upper ones, so that its lowest is tall."""
    held = {
        m.shelf: m.mark for m in problem.holding.held if isinstance(m, MarkHeld) and m.bay == bay
    }
    choices = combinations(reversed(lines), problem.bays[bay].shelves)
    for choice in islice(choices, TRIED):
        marks = {(bay, k): mark for k, mark in enumerate(reversed(choice), start=1)}
        right = all(marks.get((bay, shelf)) == mark for shelf, mark in held.items())
        if right and heights_kept(problem, bay, marks):
            return tuple(marks.values())
    return None
