"""What stands where, with the shelf positions fixed, in plain numbers that are quick to change.

The rules of :mod:`solver.layout.constraints` hold here too: things are as high, wide and deep
as their opening allows, no shelf carries too much, groups stay together, nothing is lost.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from solver.layout import rhythm_scores
from solver.layout.layout_problem import Form, LayoutProblem, Place, ThingsHeld
from solver.units import TICKS_PER_MM, Grams, Ticks

Marks = Mapping[tuple[int, int], int]
"""Mark numbers by (bay, shelf from 1)."""
Places = Mapping[tuple[int, int], tuple[Place, ...]]
"""What stands in each (bay, opening)."""


@dataclass(frozen=True)
class Space:
    """One opening whose height is settled; lengths in ticks.

    `run` is the width for things, each with a gap after it; `floor` is above the room's floor.
    """

    bay: int
    opening: int
    height: Ticks
    floor: Ticks
    width: Ticks
    run: Ticks
    load: Grams


def spaces_of(problem: LayoutProblem, marks: Marks) -> list[Space]:
    """All openings, bay by bay from below."""
    spaces = []
    for b, shape in enumerate(problem.bays):
        under = [shape.offset + shape.step * marks[b, k] for k in range(1, shape.openings)]
        floors = [shape.floor, *(mark + shape.thickness for mark in under)]
        ceilings = [*under, shape.floor + shape.inside]
        spaces += [
            Space(
                bay=b,
                opening=k,
                height=high - low,
                floor=shape.above_floor + low,
                width=shape.width,
                run=shape.run + problem.wishes.gap,
                load=shape.load_at(k),
            )
            for k, (low, high) in enumerate(zip(floors, ceilings, strict=True))
        ]
    return spaces


class Standing:
    """Places and the openings they stand in; a place moves as a whole, with all its things.

    Lists run over places (`forms`, `at`: the space each stands in) or over spaces
    (`members`: its places, `taken`: width with gaps, `front`: width of the things alone,
    `mass`, `room`: what is over the tallest thing, None where nothing stands).
    """

    def __init__(self, problem: LayoutProblem, marks: Marks, places: Places) -> None:
        self.problem = problem
        self.spaces = spaces_of(problem, marks)
        self._held = [one for one in problem.holding.held if isinstance(one, ThingsHeld)]
        self.fitting = self._fitting()
        self.wished = self._wished()
        self.forms: list[Form] = []
        self.at: list[int] = []
        count = len(self.spaces)
        self.members: list[list[int]] = [[] for _ in range(count)]
        self.kinds = [[0] * len(problem.kinds) for _ in range(count)]
        self._floors = [space.floor // TICKS_PER_MM for space in self.spaces]
        self.taken, self.front, self.mass = [0] * count, [0] * count, [0] * count
        self.room: list[Ticks | None] = [None] * count
        self.missed = self.weight = self._fills = self._fill_squares = 0
        for s, space in enumerate(self.spaces):
            for form, _ in places.get((space.bay, space.opening), ()):
                self.forms.append(form)
                self.at.append(s)
                self._add(len(self.at) - 1)
            self.measure(s)
        self._grouped: dict[str, list[int]] = {}
        for place, form in enumerate(self.forms):
            group = problem.kinds[form.kind].group
            if group is not None:
                self._grouped.setdefault(group, []).append(place)

    def move(self, place: int, space: int, form: Form) -> None:
        """Let a place stand in another space, or in another form; :meth:`holds` says if it may."""
        before = self.at[place]
        self.shift(place, space, form)
        self.measure(before)
        self.measure(space)

    def shift(self, place: int, space: int, form: Form) -> None:
        """Let a place stand in another space, or in another form, and leave `room` as it is."""
        self._remove(place)
        self.at[place], self.forms[place] = space, form
        self._add(place)

    def measure(self, space: int) -> None:
        """Note how much room is over the tallest thing of a space."""
        members = self.members[space]
        self.room[space] = (
            self.spaces[space].height - max([self.forms[place].height for place in members])
            if members
            else None
        )

    def holds(self, space: int) -> bool:
        """True where what stands in a space is neither too wide nor too heavy for it."""
        return self.taken[space] <= self.spaces[space].run and (
            self.mass[space] <= self.spaces[space].load
        )

    def together(self, place: int) -> bool:
        """True where the group of a place stands in one bay, in openings that follow on.

        And where what is held of its kind stands where it is held.
        """
        kind = self.forms[place].kind
        if not all(self._kept(one) for one in self._held if one.kind == kind):
            return False
        group = self.problem.kinds[kind].group
        if group is None:
            return True
        used = {self.at[other] for other in self._grouped[group]}
        low, high = min(used), max(used)
        return self.spaces[low].bay == self.spaces[high].bay and high - low == len(used) - 1

    @property
    def all_kept(self) -> bool:
        """True where every kind that is held stands where it is held."""
        return all(map(self._kept, self._held))

    def _kept(self, held: ThingsHeld) -> bool:
        """True where enough things of a kind stand in the openings that they are held in."""
        there = (
            form.things
            for at, form in zip(self.at, self.forms, strict=True)
            if form.kind == held.kind
            and (self.spaces[at].bay, self.spaces[at].opening) in held.openings
        )
        return sum(there) >= held.least

    def ways(self, place: int, space: int) -> list[Form]:
        """The forms in which a place could stand in a space, the present one first."""
        now = self.forms[place]
        fitting = self.fitting[now.kind][space]
        if len(fitting) == 1 and fitting[0] is now:
            return fitting
        may = [form for form in fitting if form.things == now.things]
        return [now, *(f for f in may if f is not now)] if now in may else may

    @property
    def filled(self) -> int:
        """How many spaces have something standing in them [-]."""
        return sum(map(bool, self.members))

    @property
    def spread(self) -> Ticks:
        """Largest less smallest room over the tallest thing of a space [tick]."""
        rooms = [room for room in self.room if room is not None]
        return max(rooms) - min(rooms) if rooms else 0

    @property
    def uneven_fill(self) -> int:
        """Sum of the squared differences of the fills from their mean, times their number."""
        return len(self.spaces) * self._fill_squares - self._fills**2

    @property
    def fill_spread(self) -> int:
        """Fullest less emptiest, in 1/1000 of the width, rounded as the model rounds it."""
        pairs = list(zip(self.front, self.spaces, strict=True))
        high = max(-(-1000 * taken // space.width) for taken, space in pairs)
        return high - min(1000 * taken // space.width for taken, space in pairs)

    @property
    def to_fit(self) -> Fraction:
        """The score of the to-fit rhythm, summed over bays [tick]."""
        rooms: dict[int, list[Ticks]] = {}
        for room, space in zip(self.room, self.spaces, strict=True):
            if room is not None:
                rooms.setdefault(space.bay, []).append(room)
        return sum((rhythm_scores.to_fit(of_bay) for of_bay in rooms.values()), Fraction(0))

    @property
    def rhythm(self) -> Fraction:
        """The score of the rhythm that is wished, summed over bays [tick]."""
        wishes = self.problem.wishes
        if wishes.rhythm == "to-fit":
            return self.to_fit
        heights: dict[int, list[Ticks]] = {}
        for space in self.spaces:
            heights.setdefault(space.bay, []).append(space.height)
        if wishes.rhythm == "graduated":
            least, most = wishes.step_least, wishes.step_most
            falls = (rhythm_scores.graduated(bay, least, most) for bay in heights.values())
            return sum(falls, Fraction(0))
        even = wishes.rhythm in ("even", "steady")
        score = rhythm_scores.even if even else rhythm_scores.symmetric
        return sum((score(bay) for bay in heights.values()), Fraction(0))

    def places(self) -> dict[tuple[int, int], tuple[Place, ...]]:
        """What stands in each (bay, opening), kind by kind."""
        return {
            (space.bay, space.opening): tuple(self._in_order(s))
            for s, space in enumerate(self.spaces)
        }

    def _in_order(self, space: int) -> Iterator[Place]:
        def key(form: Form) -> tuple[int, int]:
            return form.kind, self.problem.kinds[form.kind].forms.index(form)

        forms = sorted((self.forms[place] for place in self.members[space]), key=key)
        return ((form, form.things) for form in forms)

    def _fitting(self) -> list[list[list[Form]]]:
        """Forms by kind and space that the space is high, wide and deep enough for."""
        problem = self.problem
        fit: list[list[list[Form]]] = [[[] for _ in self.spaces] for _ in problem.kinds]
        for s, space in enumerate(self.spaces):
            bay = problem.bays[space.bay]
            for form in problem.forms_in(bay):
                if problem.needed(form, bay, space.opening) <= space.height:
                    fit[form.kind][s].append(form)
        return fit

    def _wished(self) -> list[list[bool]]:
        """By kind and space: True where a thing misses the place wished for it."""
        eye = self.problem.wishes.eye_level
        at_eye: dict[int, int] = {}
        for space in self.spaces:
            if space.floor <= eye or space.opening == 0:
                at_eye[space.bay] = space.opening
        tops = [shape.shelves for shape in self.problem.bays]
        return [
            [
                kind.where is not None
                and space.opening
                != {"low": 0, "top": tops[space.bay], "eye": at_eye[space.bay]}.get(
                    str(kind.where), kind.where
                )
                for space in self.spaces
            ]
            for kind in self.problem.kinds
        ]

    def _add(self, place: int) -> None:
        self._count(place, 1)
        self.members[self.at[place]].append(place)

    def _remove(self, place: int) -> None:
        self._count(place, -1)
        self.members[self.at[place]].remove(place)

    def _count(self, place: int, sign: int) -> None:
        """Add or take away all that a place contributes to its space."""
        s, form = self.at[place], self.forms[place]
        index, width, things = form.kind, form.width, form.things
        kind, kinds = self.problem.kinds[index], self.kinds[s]
        if kinds[index] == (0 if sign > 0 else 1):  # the first of its kind, or the last
            self.taken[s] += sign * (self.problem.wishes.gap - kind.gap)
        kinds[index] += sign
        mass = sign * kind.mass * things
        self.taken[s] += sign * (width + kind.gap)
        self._refill(s, self.front[s] + sign * width)
        self.mass[s] += mass
        self.weight += mass * self._floors[s]
        self.missed += sign * things * self.wished[index][s]

    def _refill(self, space: int, front: Ticks) -> None:
        """Note how wide the things of a space are together."""
        width = self.spaces[space].width
        before, after = 1000 * self.front[space] // width, 1000 * front // width
        self._fills += after - before
        self._fill_squares += after * after - before * before
        self.front[space] = front
