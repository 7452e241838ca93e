"""A large layout built by rule: the answer where the time is up before anything better is found."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from math import ceil

from solver.layout.arrangement import Marks, Standing
from solver.layout.layout_problem import Form, LayoutProblem, LineGroup, Place, densely, plainly
from solver.layout.opening_order import clear_heights
from solver.layout.rhythm_scores import even, graduated, symmetric
from solver.layout.rows_by_rule import Bays, Rows
from solver.layout.warm_start import alike
from solver.outcome import Limits


@dataclass(frozen=True)
class Constructed:
    """A layout by rule.

    Attributes
    ----------
    marks, places
        Marks by (bay, shelf) and places by (bay, opening).
    left
        Things left out, in all [-].
    others_stand
        Whether nothing is left out but what was set aside.
    """

    problem: LayoutProblem
    marks: Mapping[tuple[int, int], int]
    places: Mapping[tuple[int, int], tuple[Place, ...]]
    left: int
    others_stand: bool = True

    @property
    def reached(self) -> tuple[int, Fraction]:
        """Things left out, and the rhythm [tick]."""
        return self.left, self.rhythm

    @property
    def rhythm(self) -> Fraction:
        """The score of the chosen rhythm, summed over bays [tick]."""
        wishes = self.problem.wishes
        if wishes.rhythm == "to-fit":
            return Standing(self.problem, self.marks, self.places).to_fit
        score = Fraction(0)
        for bay, shape in enumerate(self.problem.bays):
            heights = clear_heights(shape, bay, self.marks)
            if wishes.rhythm == "graduated":
                score += graduated(heights, wishes.step_least, wishes.step_most)
            else:
                score += (
                    even(heights) if wishes.rhythm in ("even", "steady") else symmetric(heights)
                )
        return score


def by_construction(problem: LayoutProblem, limits: Limits) -> Constructed | None:
    """Stand everything up by rule, in the way that leaves out least; all at once is tried first.

    None where the rule does not do: it knows no held decisions, and finds no marks where the
    limits of the clear heights leave but few.
    """
    holding = problem.holding
    if holding.held or holding.fixed or holding.stay:
        return None
    found, orders = [], [plainly(problem)]
    if any(form.things > 1 for kind in problem.kinds for form in kind.forms):
        orders.append(densely(problem))
    for order, stands in product(orders, _stands(problem)):
        found += _stood(_Way(problem, stands, order))
        if found and not found[-1].left:
            return found[-1]
    *_, apart = _stands(problem)
    for heavy_low in (False, True):
        found += _least(_Way(problem, apart, orders[-1], heavy_low), limits)
    return min(found, key=lambda one: one.left, default=None)


@dataclass(frozen=True)
class _Way:
    """Bays that have common rows, the order of things, whether heavy ones go low first."""

    problem: LayoutProblem
    stands: list[Bays]
    order: list[list[Form]]
    heavy_low: bool = False

    @property
    def largest(self) -> list[int]:
        """Places of the things by themselves in the order, those that take most room first."""
        alone = [at for at, things in enumerate(self.order) if len(things) == 1]
        return sorted(alone, key=lambda at: -self.order[at][0].height * self.order[at][0].width)


def _least(way: _Way, limits: Limits) -> list[Constructed]:
    """Set aside as many of the largest things as have to be, so that all others stand.

    Tall rows use up the height: where not everything fits, the largest things keep many others
    out. How many of them is found by doubling and halving, and they are tried again at the end.
    """
    largest = way.largest
    found, low, high = list[Constructed](), 0, 1

    def others_stand(count: int) -> bool:
        stood = _stood(way, frozenset(largest[:count]))
        found.extend(stood)
        return any(one.others_stand for one in stood)

    while not others_stand(high):
        if limits.over or high >= len(largest):
            return found
        low, high = high, 2 * high
    while high - low > 1 and not limits.over:
        middle = (low + high) // 2
        low, high = (low, middle) if others_stand(middle) else (middle, high)
    return found


def _stands(problem: LayoutProblem) -> Iterator[list[Bays]]:
    """Ways to have common rows: in all bays, where they are alike; in those of a line group."""
    if alike(problem) and len(problem.groups) > 1:
        yield [tuple(range(len(problem.bays)))]
    yield [
        tuple(bay for bay in group.bays if problem.bays[bay].shelves == group.most)
        for group in problem.groups
    ]


def _stood(way: _Way, aside: Collection[int] = ()) -> list[Constructed]:
    """Stand things up, those set aside last; nothing where the shelves find no marks."""
    problem, rows = way.problem, Rows(way.problem, way.stands)
    order = [things for at, things in enumerate(way.order) if at not in aside]
    if not rows.fill(order, heavy_low=way.heavy_low):
        return []
    others = len(rows.left)
    rows.left += [way.order[at][0] for at in sorted(aside, reverse=True)]
    marks: dict[tuple[int, int], int] = {}
    for stand in rows.stands:
        marks |= stand.marks()
    for group in problem.groups:
        for bay in group.bays:
            if problem.bays[bay].shelves < group.most:
                marks |= _fewer(problem, group, bay, marks)
                rows.add((bay,), marks)
    rows.again()
    if not all(allowed(problem, bay, marks) for bay in range(len(problem.bays))):
        return []
    count = sum(form.things for form in rows.left)
    return [Constructed(problem, marks, rows.places(), count, not others)]


def _fewer(problem: LayoutProblem, group: LineGroup, bay: int, marks: Marks) -> Marks:
    """Marks of a bay with fewer shelves than its group has lines: some of the lines, evenly."""
    shape = problem.bays[bay]
    full = next(other for other in group.bays if problem.bays[other].shelves == group.most)
    away = problem.bays[full].line - shape.line
    lines = [marks[full, k] + away for k in range(1, group.most + 1)]
    every = Fraction(group.most + 1, shape.shelves + 1)
    return {(bay, k): lines[ceil(every * k) - 1] for k in range(1, shape.shelves + 1)}


def allowed(problem: LayoutProblem, bay: int, marks: Marks) -> bool:
    """Whether the openings of a bay are within their limits, its lowest shelf on a mark."""
    shape, wishes = problem.bays[bay], problem.wishes
    most = wishes.clear_most
    if shape.shelves and marks[bay, 1] < 0:
        return False
    return all(
        high >= wishes.clear_least and (most is None or high + shape.higher_if_thin(k) <= most)
        for k, high in enumerate(clear_heights(shape, bay, marks))
    )
