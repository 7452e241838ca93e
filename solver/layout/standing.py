"""Things stood in openings on given shelf marks, by rule: held ones, groups, then kind by kind."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from copy import deepcopy
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeAlias

from solver.layout.layout_problem import Form, Kind, LayoutProblem, Place, Spot, ThingsHeld
from solver.layout.look_scores import Marks, clear_heights
from solver.layout.rules_kept import may_stand, one_run
from solver.layout.wishes import kept_empty
from solver.units import Grams, Ticks

Placed: TypeAlias = dict[Spot, tuple[Place, ...]]
"""What stands in each (bay, opening)."""


@dataclass
class Opening:
    """An opening as it fills up: `room` is the width [tick] and `bears` the load [g] left."""

    spot: Spot
    height: Ticks
    room: Ticks
    bears: Grams
    places: list[Place] = field(default_factory=list)
    counts: Counter[int] = field(default_factory=Counter)
    """Places by kind."""


class Standing:
    """Stands the things of a problem on marks by (bay, shelf from 1).

    Attributes
    ----------
    left
        How many of each kind have no place yet.
    """

    def __init__(self, problem: LayoutProblem, marks: Marks) -> None:
        self.problem, gap, empty = problem, problem.wishes.gap, kept_empty(problem)
        self.openings = [
            Opening((b, k), height, shape.run + gap, shape.load_at(k))
            for b, shape in enumerate(problem.bays)
            for k, height in enumerate(clear_heights(problem, marks, b))
            if (b, k) not in empty
        ]
        self.left = {k: kind.count for k, kind in enumerate(problem.kinds)}
        self._headings: dict[str, set[Spot]] = defaultdict(set)

    def filled(self, *, dearest_first: bool) -> Placed:
        """Stand everything; with `dearest_first` what must stand comes before what is tallest."""
        self._held()
        groups: dict[str, list[int]] = defaultdict(list)
        for k, kind in enumerate(self.problem.kinds):
            if kind.group is not None:
                groups[kind.group].append(k)
        for kinds in groups.values():
            self._group(kinds)
        alone = [k for k, kind in enumerate(self.problem.kinds) if kind.group is None]
        for k in sorted(alone, key=lambda k: self._order(k, dearest_first)):
            self._kind(k)
        self._use_the_empty()
        return {one.spot: tuple(one.places) for one in self.openings}

    def _order(self, k: int, dearest_first: bool) -> tuple[int, ...]:
        kind, form = self.problem.kinds[k], self.problem.kinds[k].forms[0]
        dear = (kind.keep, -kind.area) if dearest_first else (0, 0)
        return (*dear, -form.height, -form.width * kind.count, k)

    def _held(self) -> None:
        """Stand what is held where it is held, and what stays where it stood."""
        holding = self.problem.holding
        wanted = [(h.kind, h.openings, h.least) for h in holding.held if isinstance(h, ThingsHeld)]
        if holding.stay and holding.before is not None:
            wanted += [(k, ((b, o),), count) for (k, b, o), count in holding.before.things]
        for kind, spots, least in wanted:
            self._in(kind, [one for one in self.openings if one.spot in spots], least)

    def _in(self, k: int, openings: Iterable[Opening], most: int) -> int:
        """Stand at most so many of a kind in openings, one after another; returns how many do."""
        before, wanted = self.left[k], max(0, self.left[k] - most)
        for one in openings:
            self._stand(one, k, self.left[k] - wanted)
        return before - self.left[k]

    def _stand(self, one: Opening, k: int, most: int) -> None:
        """Stand as many of a kind as an opening has room for."""
        kind = self.problem.kinds[k]
        for form, count in self._best(one, kind, most):
            first = 0 if one.counts[k] else self.problem.wishes.gap - kind.gap
            one.room -= first + count * (form.width + kind.gap)
            one.bears -= count * form.things * kind.mass
            one.places += [(form, form.things)] * count
            one.counts[k] += count
            self.left[k] -= count * form.things
            if kind.heading is not None:
                self._headings[kind.heading].add(one.spot)

    def _best(self, one: Opening, kind: Kind, most: int) -> list[tuple[Form, int]]:
        """Forms and how many of each: plain where that does, else those that stand closest."""
        plain = self._ways(one, kind, kind.forms[:1], most)
        if len(kind.forms) == 1 or _things(plain) >= most:
            return plain
        close = sorted(kind.forms, key=lambda f: (Fraction(f.width + kind.gap, f.things), f.height))
        return max(plain, self._ways(one, kind, close, most), key=_things)

    def _ways(
        self, one: Opening, kind: Kind, forms: Sequence[Form], most: int
    ) -> list[tuple[Form, int]]:
        """How many places of each form stand in an opening, the first forms first."""
        ways, room, bears = [], one.room, one.bears
        if forms and not one.counts[forms[0].kind]:
            room -= self.problem.wishes.gap - kind.gap
        for form in forms:
            width, mass = form.width + kind.gap, kind.mass * form.things
            count = min(most // form.things, room // width, bears // mass if mass else most)
            if count > 0 and may_stand(self.problem, one.spot, form, one.height):
                ways.append((form, count))
                room, bears, most = (
                    room - count * width,
                    bears - count * mass,
                    most - count * form.things,
                )
        return ways

    def _capacity(self, one: Opening, k: int) -> int:
        return _things(self._best(one, self.problem.kinds[k], self.left[k]))

    def _kind(self, k: int) -> None:
        """Stand a kind whole in the lowest opening that does, else in as few as take it."""
        kind, takes = self.problem.kinds[k], dict[Spot, int]()
        near = self._headings[kind.heading] if kind.heading is not None else set[Spot]()
        for one in self.openings:
            takes[one.spot] = self._capacity(one, k) if self.left[k] else 0
        whole = [one for one in self.openings if takes[one.spot] >= self.left[k]]
        if whole:
            odd = kind.count % 2
            self._stand(
                min(
                    whole,
                    key=lambda one: (
                        bool(near) and one.spot not in near,
                        odd and any(count % 2 for count in one.counts.values()),
                        one.height,
                        one.spot,
                    ),
                ),
                k,
                self.left[k],
            )
            return
        for one in sorted(self.openings, key=lambda one: (-takes[one.spot], one.height)):
            self._stand(one, k, self.left[k])

    def _group(self, kinds: Sequence[int]) -> None:
        """Stand a group in one bay, in openings that follow one another; the least dear may go."""
        order = sorted(
            kinds, key=lambda k: (self.problem.kinds[k].keep, -self.problem.kinds[k].area)
        )
        for some in (order[:count] for count in range(len(order), 0, -1)):
            for run in self._runs():
                if self._in_run(sorted(some, key=lambda k: self._order(k, False)), run, kinds):
                    return

    def _runs(self) -> list[list[Spot]]:
        """Openings that follow one another, the shortest runs first."""
        spots = {one.spot for one in self.openings}
        runs = [
            [(b, k) for k in range(low, low + count)]
            for count in range(1, max(shape.openings for shape in self.problem.bays) + 1)
            for b, shape in enumerate(self.problem.bays)
            for low in range(shape.openings - count + 1)
        ]
        return [run for run in runs if spots.issuperset(run)]

    def _in_run(self, some: Sequence[int], run: Sequence[Spot], group: Sequence[int]) -> bool:
        """Stand kinds in a run of openings, or leave all as it was."""
        kept = deepcopy((self.openings, self.left, self._headings))
        there = sorted((one for one in self.openings if one.spot in run), key=lambda o: o.height)
        for k in some:
            self._in(k, there, self.left[k])
        used = {one.spot for one in self.openings if any(one.counts[k] for k in group)}
        if not any(self.left[k] for k in some) and one_run(used):
            return True
        self.openings, self.left, self._headings = kept
        return False

    def _use_the_empty(self) -> None:
        """Move a kind that stands beside others into each opening that is empty, where one can."""
        held = {h.kind for h in self.problem.holding.held if isinstance(h, ThingsHeld)}
        for bare in (one for one in self.openings if not one.places):
            for other in self.openings:
                kinds = [k for k in other.counts if self._may_move(k, held)]
                if len(other.counts) > 1 and (k := self._fitting(kinds, other, bare)) is not None:
                    self._move(k, other, bare)
                    break

    def _may_move(self, k: int, held: set[int]) -> bool:
        return k not in held and self.problem.kinds[k].group is None

    def _fitting(self, kinds: Sequence[int], other: Opening, bare: Opening) -> int | None:
        """A kind of an opening whose places fit an empty one, the widest."""
        for k in sorted(kinds, key=lambda k: -other.counts[k]):
            places = [place for place in other.places if place[0].kind == k]
            kind = self.problem.kinds[k]
            width = self.problem.wishes.gap - kind.gap + sum(f.width + kind.gap for f, _ in places)
            mass = kind.mass * sum(n for _, n in places)
            stands = all(may_stand(self.problem, bare.spot, f, bare.height) for f, _ in places)
            if stands and width <= bare.room and mass <= bare.bears:
                return k
        return None

    def _move(self, k: int, other: Opening, bare: Opening) -> None:
        bare.places = [place for place in other.places if place[0].kind == k]
        other.places = [place for place in other.places if place[0].kind != k]
        bare.counts[k] = other.counts.pop(k)


def _things(ways: Iterable[tuple[Form, int]]) -> int:
    return sum(form.things * count for form, count in ways)
