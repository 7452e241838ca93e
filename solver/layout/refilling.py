"""A layout on given marks made better a few openings at a time, each time by a small model.

Of a large layout a model of everything finds hardly anything in the time there is. So some
openings of like height are taken, with what stands in them and some of what is left out, as bays
of one opening each; what is found is kept where the whole layout is better by it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from random import Random

from solver.layout.by_rule import Layout, wished
from solver.layout.constraints import new_model
from solver.layout.layout_problem import (
    BayShape,
    Form,
    Holding,
    Kind,
    LayoutProblem,
    LineGroup,
    Spot,
    ThingsHeld,
)
from solver.layout.look_scores import LookScores, clear_heights
from solver.layout.relaxation import all_placed
from solver.layout.rules_kept import may_stand
from solver.layout.stage_search import Search
from solver.layout.stages import FIT, Reached, asked_for, run
from solver.layout.start_values import start_values
from solver.layout.wishes import kept_empty
from solver.outcome import Limits
from solver.units import Ticks

TOGETHER, NEAR, ADDED = 6, 24, 4
"""Openings in one model, those of like height that they are drawn from, kinds added [-]."""
ROUNDS = 4
"""How often all openings that miss a wish are gone through at most [-]."""
WORK = 0.1
"""Deterministic work for one wish of one small model [-]."""


class Refilling:
    """A layout that becomes better; `layout` is the best so far."""

    def __init__(self, problem: LayoutProblem, layout: Layout, limits: Limits) -> None:
        self.problem, self.layout, self.limits = problem, layout, limits
        self.score, self._draw = wished(problem, layout), Random(limits.seed)  # noqa: S311
        self.heights = {
            (bay, k): height
            for bay in range(len(problem.bays))
            for k, height in enumerate(clear_heights(problem, layout[0], bay))
        }
        self._stays = {h.kind for h in problem.holding.held if isinstance(h, ThingsHeld)}
        self._stays |= {k for k, kind in enumerate(problem.kinds) if kind.group is not None}

    def better(self) -> Layout:
        """Refill openings until the limit, or until nothing becomes better by it."""
        for _ in range(0 if self.problem.holding.stay else ROUNDS):
            before = self.score
            for spot in list(self._poor()):
                if self.limits.over:
                    return self.layout
                self._refill(self._beside(spot))
            if self.score >= before:
                break
        return self.layout

    def _free(self) -> list[Spot]:
        """Openings in which nothing is held, by height."""
        kept = kept_empty(self.problem)
        free = [s for s in self.layout[1] if s not in kept and not self._kinds(s) & self._stays]
        return sorted(free, key=lambda spot: (self.heights[spot], spot))

    def _kinds(self, spot: Spot) -> set[int]:
        return {form.kind for form, _ in self.layout[1][spot]}

    def _poor(self) -> Iterator[Spot]:
        """Openings that are empty, have several odd kinds, or a part of a kind."""
        used = Counter(k for spot in self.layout[1] for k in self._kinds(spot))
        left = bool(LookScores(self.problem, *self.layout).left())
        for spot in self._free():
            number = Counter(form.kind for form, _ in self.layout[1][spot])
            parted = any(used[k] > 1 for k in number)
            if left or not number or parted or sum(n % 2 for n in number.values()) > 1:
                yield spot

    def _beside(self, spot: Spot) -> list[Spot]:
        """An opening and some others of like height."""
        free = self._free()
        if spot not in free:
            return []
        at = max(0, min(free.index(spot) - NEAR // 2, len(free) - NEAR))
        near = [one for one in free[at : at + NEAR] if one != spot]
        return [spot, *self._draw.sample(near, min(len(near), TOGETHER - 1))]

    def _refill(self, spots: Sequence[Spot]) -> None:
        """Stand what is in some openings anew, if the whole is better by it."""
        numbers, part = self._part(spots)
        if not numbers or len(spots) < 2:
            return
        search = Search(new_model(part), self.limits)
        there = self._within(spots, numbers)
        whole = not LookScores(part, {}, there).left()
        if whole:
            all_placed(search.v)
        search.suggest(start_values(search.v, {}, there))
        names = asked_for(part) if whole else (*FIT, *asked_for(part))
        run(search, [name for name in names if name != "asked"], Reached(), Reached(), WORK)
        if search.solution is None:
            return
        places = dict(self.layout[1])
        for (bay, _), row in search.places().items():
            places[spots[bay]] = tuple(
                (replace(form, kind=numbers[form.kind]), things) for form, things in row
            )
        score = wished(self.problem, (self.layout[0], places))
        if score < self.score:
            self.layout, self.score = (self.layout[0], places), score

    def _part(self, spots: Sequence[Spot]) -> tuple[list[int], LayoutProblem]:
        """The kinds of some openings, by number in the small problem, and that problem."""
        problem, count = self.problem, Counter[int]()
        for spot in spots:
            for form, things in self.layout[1][spot]:
                count[form.kind] += things
        left = LookScores(problem, *self.layout).left()
        may = [k for k in left if k not in self._stays and self._may(k, spots)]
        for k in sorted(may, key=lambda k: (problem.kinds[k].keep, -problem.kinds[k].area))[:ADDED]:
            count[k] += left[k]
        numbers = sorted(count)
        kinds = tuple(_some_of(problem.kinds[k], n, count[k]) for n, k in enumerate(numbers))
        bays = tuple(self._bay(spot) for spot in spots)
        groups = tuple(LineGroup((b,), 0) for b in range(len(bays)))
        wishes = replace(problem.wishes, clear_least=0, clear_most=None)
        return numbers, LayoutProblem(bays, groups, kinds, wishes, holding=Holding())

    def _may(self, k: int, spots: Sequence[Spot]) -> bool:
        forms = self.problem.kinds[k].forms
        return any(may_stand(self.problem, s, f, self.heights[s]) for s in spots for f in forms)

    def _bay(self, spot: Spot) -> BayShape:
        """An opening as a bay without shelves; what its lips take is taken off its height."""
        shape, k, wishes = self.problem.bays[spot[0]], spot[1], self.problem.wishes
        above, below = shape.lips(k)
        lips = max(wishes.headroom, above + wishes.lift if above else 0) - wishes.headroom + below
        height: Ticks = self.heights[spot] - lips
        sag = shape.sag[min(k, 1)]
        return replace(
            shape, shelves=0, inside=height, load=shape.load_at(k), sag=(sag, sag), lip=(0, 0)
        )

    def _within(
        self, spots: Sequence[Spot], numbers: Sequence[int]
    ) -> dict[Spot, tuple[tuple[Form, int], ...]]:
        """What stands in the openings now, as places of the small problem."""
        return {
            (b, 0): tuple(
                (replace(form, kind=numbers.index(form.kind)), things)
                for form, things in self.layout[1][spot]
            )
            for b, spot in enumerate(spots)
        }


def _some_of(kind: Kind, number: int, count: int) -> Kind:
    """So many of a kind, as kind `number` of a small problem."""
    forms = tuple(replace(form, kind=number) for form in kind.forms if form.things <= count)
    return replace(kind, count=count, forms=forms, where=None, hero=False, fragile=False)
