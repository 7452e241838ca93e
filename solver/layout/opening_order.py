"""The order of openings, where the rhythm does not look at it: tall and heavy ones low.

An even (or to-fit) rhythm is as good with its openings in any order. The solver's order is
then an accident; here whole openings, with what stands in them, change places until wished
places are met best and the weight stands lowest. Groups stay together.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from itertools import accumulate, combinations
from typing import TypeAlias

from solver.layout.layout_problem import BayShape, LayoutProblem, LineGroup, Place
from solver.layout.rhythm_scores import even
from solver.outcome import Limits
from solver.units import Ticks

Marks = dict[tuple[int, int], int]
Places = dict[tuple[int, int], tuple[Place, ...]]
Order = tuple[int, ...]
"""Which old opening stands at each place, lowest first."""

ORDERLESS = ("even", "to-fit")
"""Rhythms that do not look at the order of the openings."""


def reorder(
    problem: LayoutProblem,
    marks: Mapping[tuple[int, int], int],
    places: Mapping[tuple[int, int], tuple[Place, ...]],
    held: Fraction,
    limits: Limits,
) -> tuple[Marks, Places]:
    """Return marks and places, by (bay, shelf) and (bay, opening), in the best order found.

    Every rule that held before holds after, and the rhythm is at most `held` [tick]: an
    opening may become a marking step lower or higher in its new place, where the steps
    counted from there fall otherwise. Other rhythms than those come back as they are, and so
    does a layout in which something is held, and what there is no time for.
    """
    new_marks, new_places = dict(marks), dict(places)
    if problem.wishes.rhythm in ORDERLESS and not problem.holding.anything:
        for group in problem.groups:
            if limits.over:
                break
            if all(problem.bays[b].shelves == group.most for b in group.bays) and group.most:
                others = sum(
                    (
                        even(clear_heights(problem.bays[b], b, new_marks))
                        for b in range(len(problem.bays))
                        if b not in group.bays
                    ),
                    Fraction(0),
                )
                ordering = _Ordering(problem, group, new_marks, new_places, held - others)
                ordering.apply(ordering.best())
    return new_marks, new_places


Score: TypeAlias = tuple[int, int, int, int]
"""(openings that no longer fit, groups apart, wished places missed, mass x height)."""


def clear_heights(shape: BayShape, bay: int, marks: Mapping[tuple[int, int], int]) -> list[Ticks]:
    """Clear heights of a bay on its marks, lowest first [tick]."""
    ends = [0, *(marks[bay, k] for k in range(1, shape.openings)), 0]
    return [shape.constant(k) + shape.step * (ends[k + 1] - ends[k]) for k in range(shape.openings)]


class _Ordering:
    """The orders in which the openings of one line group may stand."""

    def __init__(
        self,
        problem: LayoutProblem,
        group: LineGroup,
        marks: Marks,
        places: Places,
        held: Fraction,
    ) -> None:
        self.problem, self.group = problem, group
        self.marks, self.places, self.held = marks, places, held
        self.shapes = {bay: problem.bays[bay] for bay in group.bays}
        self.heights = {bay: clear_heights(problem.bays[bay], bay, marks) for bay in group.bays}
        self.movable = self._movable()

    def _movable(self) -> list[int]:
        """Openings with the same lips and load limits, alike in all bays that share the lines."""
        middle = 1 if self.group.most > 1 else 0
        shapes, strict = list(self.shapes.values()), self.problem.wishes.rhythm != "even"
        first = shapes[0]
        return [
            k
            for k in range(self.group.most + 1)
            if len({shape.constant(k) for shape in shapes}) == 1
            and all(shape.lips(k) == shape.lips(middle) for shape in shapes)
            and all(shape.load_at(k) == shape.load_at(middle) for shape in shapes)
            and not (strict and (first.constant(k) - first.constant(middle)) % first.step)
        ]

    def best(self) -> Order:
        """Swap pairs as long as that helps, from the order found and from tallest first."""
        heights = self.heights[self.group.bays[0]]
        as_found = list(range(self.group.most + 1))
        falling = list(as_found)
        for k, old in zip(
            self.movable, sorted(self.movable, key=lambda k: (-heights[k], k)), strict=True
        ):
            falling[k] = old
        return min(self._improved(tuple(as_found)), self._improved(tuple(falling)))[1]

    def _improved(self, order: Order) -> tuple[Score, Order]:
        best, better = (self._score(order), order), True
        while better:
            better = False
            for a, b in combinations(self.movable, 2):
                swapped = list(best[1])
                swapped[a], swapped[b] = swapped[b], swapped[a]
                score = self._score(tuple(swapped))
                if score < best[0]:
                    best, better = (score, tuple(swapped)), True
        return best

    def _steps(self, bay: int, order: Order) -> list[int]:
        """Marking steps of each opening in its new place; they add up to nothing, top included.

        Rounded down; what is then missing goes to those that lost most.
        """
        shape, heights = self.shapes[bay], self.heights[bay]
        pairs = [
            divmod(heights[old] - shape.constant(k), shape.step) for k, old in enumerate(order)
        ]
        steps = [whole for whole, _ in pairs]
        lost = sorted(range(len(order)), key=lambda k: (-pairs[k][1], k))
        for k in lost[: -sum(steps)]:
            steps[k] += 1
        return steps

    def _score(self, order: Order) -> Score:
        broken = apart = missed = weight = 0
        rhythm = Fraction(0)
        for bay, shape in self.shapes.items():
            steps = self._steps(bay, order)
            heights = [shape.constant(k) + shape.step * n for k, n in enumerate(steps)]
            rhythm += even(heights)
            broken += steps[0] < 0  # below the first hole
            broken += sum(not self._fits(bay, k, old, heights[k]) for k, old in enumerate(order))
            counts = self._standing(bay, order, heights)
            apart, missed, weight = apart + counts[0], missed + counts[1], weight + counts[2]
        broken += self.problem.wishes.rhythm == "even" and rhythm > self.held
        return broken, apart, missed, weight

    def _fits(self, bay: int, k: int, old: int, height: Ticks) -> bool:
        """Whether an opening in its new place is within the limits and holds what stands there."""
        wishes, shape = self.problem.wishes, self.shapes[bay]
        if height < wishes.clear_least or height > (wishes.clear_most or height):
            return False
        return all(
            self.problem.needed(form, shape, k) <= height
            for form, _ in self.places.get((bay, old), ())
        )

    def _standing(self, bay: int, order: Order, heights: list[Ticks]) -> tuple[int, int, int]:
        """(groups apart, wished places missed, mass x height) of one bay."""
        shape, missed, weight = self.shapes[bay], 0, 0
        floor, floors = shape.above_floor + shape.floor, list[Ticks]()
        for height in heights:
            floors.append(floor)
            floor += height + shape.thickness
        eye = max(
            (k for k, f in enumerate(floors) if f <= self.problem.wishes.eye_level), default=0
        )
        here = {"low": 0, "eye": eye, "top": shape.shelves}
        spread: dict[str, set[int]] = {}
        for k, old in enumerate(order):
            for form, things in self.places.get((bay, old), ()):
                kind = self.problem.kinds[form.kind]
                weight += kind.mass * things * floors[k]
                wished = here.get(str(kind.where), kind.where)
                missed += things if kind.where is not None and wished != k else 0
                if kind.group is not None:
                    spread.setdefault(kind.group, set()).add(k)
        apart = sum(max(ks) - min(ks) >= len(ks) for ks in spread.values())
        return apart, missed, weight

    def apply(self, order: Order) -> None:
        """Write the marks and places of an order back."""
        for bay in self.shapes:
            steps = self._steps(bay, order)
            held = {old: self.places.get((bay, old), ()) for old in order}
            for k, old in enumerate(order):
                self.places[bay, k] = held[old]
            for k, mark in enumerate(accumulate(steps[:-1]), start=1):
                self.marks[bay, k] = mark
