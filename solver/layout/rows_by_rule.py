"""Things placed row by row, tallest first: a layout by rule, in plain numbers.

A row is one opening in each of the bays that stand together, and as high as its first thing asks.
What height is left raises the lowest rows. What finds no place is left out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import pairwise

from solver.layout.constraints import too_heavy
from solver.layout.layout_problem import BayShape, Form, LayoutProblem, Place, plainly
from solver.units import Grams, Ticks

Bays = tuple[int, ...]
"""Bays that have the same rows."""


@dataclass
class Filling:
    """One opening as it fills up; `room` and `bears` are what it has, lengths in ticks."""

    bay: int
    index: int
    room: Ticks
    bears: Grams
    taken: Ticks = 0
    load: Grams = 0
    kinds: set[int] = field(default_factory=set)
    held: list[Form] = field(default_factory=list)


@dataclass
class Row:
    """One opening in every bay of a stand; `steps` are those of the first bay."""

    index: int
    steps: int
    openings: list[Filling]


class Stand:
    """Bays with as many shelves each, on the same lines; rows are opened from below."""

    def __init__(self, problem: LayoutProblem, bays: Bays) -> None:
        self.problem, self.bays = problem, bays
        self.first = problem.bays[bays[0]]
        self.rows: list[Row] = []
        self._needs: dict[tuple[int, int, Ticks], int] = {}

    @property
    def done(self) -> bool:
        """True where no row is left to be opened."""
        return len(self.rows) == self.first.openings

    @property
    def free(self) -> int:
        """Marking steps that are left over with the rows to come at their least height."""
        to_come = range(len(self.rows), self.first.openings)
        return -sum(row.steps for row in self.rows) - sum(map(self.least, to_come))

    def least(self, index: int) -> int:
        """Steps of a row without anything in it."""
        return self.steps(index, None)

    def steps(self, index: int, form: Form | None) -> int:
        """Steps that a row takes to be high enough for a thing in every bay."""
        return max(self.need(bay, index, form) for bay in self.bays)

    def need(self, bay: int, index: int, form: Form | None) -> int:
        """Steps of a row, as the first bay counts them, that are high enough in one bay."""
        key = (bay, index, form.height if form is not None else 0)
        if key not in self._needs:
            self._needs[key] = self._needed(bay, index, form)
        return self._needs[key]

    def _needed(self, bay: int, index: int, form: Form | None) -> int:
        shape, height = self.problem.bays[bay], self.problem.wishes.clear_least
        if form is not None:
            height = max(height, self.problem.needed(form, shape, index))
        away = self.first.line - shape.line
        away = away if index == 0 else -away if index == shape.shelves else 0
        return -((shape.constant(index) - height) // shape.step) - away

    def may_open(self, form: Form) -> bool:
        """Whether the next row can be high enough for a thing."""
        index = len(self.rows)
        return self.steps(index, form) - self.least(index) <= self.free

    def open(self, form: Form | None, steps: int | None = None) -> Row:
        """Open the next row, high enough for a thing."""
        index = len(self.rows)
        high = self.steps(index, form) if steps is None else steps
        openings = [
            Filling(bay, index, shape.run + self.problem.wishes.gap, shape.load_at(index))
            for bay, shape in ((bay, self.problem.bays[bay]) for bay in self.bays)
        ]
        self.rows.append(Row(index, high, openings))
        return self.rows[-1]

    def stand_on(self, marks: Mapping[tuple[int, int], int]) -> None:
        """Open all rows as marks by (bay, shelf) of the first bay have them."""
        shelves = range(1, self.first.openings)
        for low, high in pairwise([0, *(marks[self.bays[0], k] for k in shelves), 0]):
            self.open(None, high - low)

    def spread(self) -> bool:
        """Give the steps that are left to the lowest rows; False where there are too few."""
        while not self.done:
            self.open(None)
        left, shape = -sum(row.steps for row in self.rows), self.first
        for _ in range(left):
            low = min(self.rows, key=lambda r: (_height(shape, r.index, r.steps), r.index))
            low.steps += 1
        return left >= 0

    def marks(self) -> dict[tuple[int, int], int]:
        """Mark numbers by (bay, shelf from 1)."""
        marks, mark = {}, 0
        for row in self.rows[:-1]:
            mark += row.steps
            for bay in self.bays:
                away = self.first.line - self.problem.bays[bay].line
                marks[bay, row.index + 1] = mark + away
        return marks


def _height(shape: BayShape, index: int, steps: int) -> Ticks:
    return shape.constant(index) + shape.step * steps


class Rows:
    """Stands all things of a problem in stands of bays.

    Attributes
    ----------
    stands
        The stands.
    left
        What found no place, each a place of one or more things.
    """

    def __init__(self, problem: LayoutProblem, stands: Iterable[Bays]) -> None:
        self.problem = problem
        self.stands = [Stand(problem, bays) for bays in stands]
        self.left: list[Form] = []

    def fill(self, order: Sequence[Sequence[Form]], *, heavy_low: bool = False) -> bool:
        """Stand everything in its order; False where the height does not do for the shelves.

        With `heavy_low` the lowest rows are filled first, with what is heaviest for its width:
        a bottom board that lies on its whole length bears most.
        """
        for things in self._heavy_low(order) if heavy_low else order:
            if len(things) > 1:
                self._together(things)
            elif not self._old(things[0]) and not self._new(things[0]):
                self.left.append(things[0])
        enough = [stand.spread() for stand in self.stands]
        return all(enough)

    def _heavy_low(self, order: Sequence[Sequence[Form]]) -> list[Sequence[Form]]:
        """Fill the lowest rows, the tallest first; return what is still to be stood."""
        bays = [self.problem.bays[bay] for stand in self.stands for bay in stand.bays]
        room, chosen = sum(shape.run for shape in bays), set[int]()
        alone = [at for at, things in enumerate(order) if len(things) == 1]
        for at in sorted(alone, key=lambda at: self._lightness(order[at][0])):
            if room > 0:
                room -= order[at][0].width + self.problem.wishes.gap
                chosen.add(at)
        stood = {at for at in sorted(chosen) if self._at_bottom(order[at][0])}
        return [things for at, things in enumerate(order) if at not in stood]

    def _lightness(self, form: Form) -> Fraction:
        return -Fraction(self.problem.kinds[form.kind].mass * form.things, form.width)

    def _at_bottom(self, form: Form) -> bool:
        """Stand a place in a lowest row, which is opened where there is none yet."""
        return self._old(form) or any(
            self._opened(stand, form) for stand in self.stands if not stand.rows
        )

    def again(self) -> None:
        """Try what found no place once more, in any opening there is by now."""
        alone = [form for form in self.left if self.problem.kinds[form.kind].group is None]
        apart = [form for form in self.left if self.problem.kinds[form.kind].group is not None]
        self.left = [*apart, *(form for form in alone if not self._old(form))]

    def openings(self) -> Iterator[Filling]:
        """All openings of all rows."""
        return (one for stand in self.stands for row in stand.rows for one in row.openings)

    def places(self) -> dict[tuple[int, int], tuple[Place, ...]]:
        """What stands in each (bay, opening)."""
        return {
            (one.bay, one.index): tuple((form, form.things) for form in one.held)
            for one in self.openings()
        }

    def put(self, at: tuple[int, int], form: Form) -> bool:
        """Stand a place in one (bay, opening), if it may."""
        return any(
            self._stand(stand, row, opening, form)
            for stand in self.stands
            if at[0] in stand.bays
            for row in stand.rows
            for opening in row.openings
            if (opening.bay, opening.index) == at
        )

    def add(self, bays: Bays, marks: Mapping[tuple[int, int], int]) -> None:
        """Add bays that stand together, with nothing in them, on marks by (bay, shelf)."""
        self.stands.append(Stand(self.problem, bays))
        self.stands[-1].stand_on(marks)

    def on_marks(self, marks: Mapping[tuple[int, int], int]) -> None:
        """Stand every thing in the lowest row that is high enough, on marks by (bay, shelf)."""
        for stand in self.stands:
            stand.stand_on(marks)
            stand.rows.sort(key=lambda row: _height(stand.first, row.index, row.steps))
        for form in (form for things in plainly(self.problem) for form in things):
            if not self._old(form):
                self.left.append(form)
        for stand in self.stands:
            stand.rows.sort(key=lambda row: row.index)

    def _old(self, form: Form) -> bool:
        """Stand a place in the first opening that has room for it."""
        return any(
            self._stand(stand, row, opening, way)
            for way in self._ways(form)
            for stand in self.stands
            for row in stand.rows
            for opening in row.openings
        )

    def _ways(self, form: Form) -> list[Form]:
        """The forms in which as many things may stand, the present one first."""
        ways = self.problem.kinds[form.kind].forms
        return [form, *(way for way in ways if way.things == form.things and way != form)]

    def _new(self, form: Form) -> bool:
        """Stand a place in a new row, where most height is left."""
        for way in self._ways(form):
            for stand in sorted(self.stands, key=lambda one: -one.free * one.first.step):
                if self._opened(stand, way):
                    return True
        return False

    def _opened(self, stand: Stand, form: Form) -> bool:
        """Open the next row of a stand for a place, if it can be."""
        if stand.done or not stand.may_open(form):
            return False
        row = stand.open(form)
        if any(self._stand(stand, row, opening, form) for opening in row.openings):
            return True
        stand.rows.pop()
        return False

    def _stand(self, stand: Stand, row: Row, opening: Filling, form: Form) -> bool:
        """Stand a thing in an opening if it has the room and the load for it."""
        if not self._fits(opening, form) or stand.need(opening.bay, row.index, form) > row.steps:
            return False
        kind, gap = self.problem.kinds[form.kind], self.problem.wishes.gap
        opening.taken += form.width + (kind.gap if form.kind in opening.kinds else gap)
        opening.load += kind.mass * form.things
        opening.kinds.add(form.kind)
        opening.held.append(form)
        return True

    def _fits(self, opening: Filling, form: Form) -> bool:
        """Whether width, depth and load of an opening do for one place more."""
        kind, gap = self.problem.kinds[form.kind], self.problem.wishes.gap
        width = form.width + (kind.gap if form.kind in opening.kinds else gap)
        if opening.taken + width > opening.room:
            return False
        if opening.load + kind.mass * form.things > opening.bears:
            return False
        shape = self.problem.bays[opening.bay]
        if form.depth > shape.deep or form.width > shape.run:
            return False
        return not too_heavy(self.problem, shape, opening.index, form.kind)

    def _together(self, things: Sequence[Form]) -> None:
        """Stand a group in one bay, in openings that follow one another, or leave it out."""
        for stand in self.stands:
            for column in range(len(stand.bays)):
                for start in range(len(stand.rows) + 1):
                    if self._from(stand, column, start, things):
                        return
        self.left += things

    def _from(self, stand: Stand, column: int, start: int, things: Sequence[Form]) -> bool:
        """Stand things in one bay from a row upwards, every row holding some of them."""
        before, opened, at = len(stand.rows), start, start
        kept = [_copy(row.openings[column]) for row in stand.rows]
        for form in things:
            while not self._in_column(stand, column, at, form):
                at += 1
                if at > opened + 1 or at >= stand.first.openings:
                    break
            else:
                opened = at
                continue
            del stand.rows[before:]
            for row, opening in zip(stand.rows, kept, strict=True):
                row.openings[column] = opening
            return False
        return True

    def _in_column(self, stand: Stand, column: int, at: int, form: Form) -> bool:
        """Stand a thing in a row of one bay, which is opened for it if it is the next."""
        if at < len(stand.rows):
            row = stand.rows[at]
            return self._stand(stand, row, row.openings[column], form)
        if at > len(stand.rows) or stand.done or not stand.may_open(form):
            return False
        row = stand.open(form)
        if self._stand(stand, row, row.openings[column], form):
            return True
        stand.rows.pop()
        return False


def _copy(opening: Filling) -> Filling:
    return replace(opening, kinds=set(opening.kinds), held=list(opening.held))
