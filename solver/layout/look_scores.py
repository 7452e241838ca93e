"""What a finished layout comes to, wish by wish, in plain whole numbers.

The definitions of the wishes that :mod:`solver.layout.wishes` and `spacing_wishes` say of a model:
lengths in ticks, areas in mm2, mass in grams, else counts.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations, pairwise

from solver.layout.layout_problem import EmptyHeld, Form, Kind, LayoutProblem, Place, Spot
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Grams, Ticks

AREA = TICKS_PER_MM**2
"""Square ticks in a square millimetre."""
SMALL = 8 * TICKS_PER_INCH
"""Things smaller than this are wished near the eye line [tick]."""
HERO_LOW, HERO_HIGH = 57 * TICKS_PER_INCH, 64 * TICKS_PER_INCH
"""Where the middle of a hero is wished above the room's floor [tick]."""

Marks = Mapping[Spot, int]
"""Mark numbers by (bay, shelf from 1)."""
Places = Mapping[Spot, Sequence[Place]]
"""What stands in each (bay, opening)."""


def front_area(form: Form) -> int:
    """Front of the things of a place's first row, stack included [tick2]."""
    return form.width * form.size[1] * min(form.stack, form.things)


def middles(form: Form, floor: Ticks) -> Iterator[int]:
    """Twice the height of the middle of each thing of a full place [tick]."""
    for number in range(form.things):
        row, level = divmod(number, form.stack)
        yield 2 * (floor + row * form.riser + level * form.size[1]) + form.size[1]


def twice_sight_of(form: Form, floor: Ticks, eye: Ticks) -> int:
    """Twice how small the things of a place are times how far from the eye line [tick2]."""
    small = max(0, SMALL - max(form.size[0], form.size[1]))
    return sum(small * abs(middle - 2 * eye) for middle in middles(form, floor))


def heavy_of(form: Form, floor: Ticks, eye: Ticks) -> int:
    """How many things of a place have their middle above the eye line [-]."""
    return sum(middle > 2 * eye for middle in middles(form, floor))


def clear_heights(problem: LayoutProblem, marks: Marks, bay: int) -> list[Ticks]:
    """Clear heights of a bay, lowest first [tick]."""
    shape = problem.bays[bay]
    ends = [0, *(marks[bay, k] for k in range(1, shape.openings)), 0]
    return [shape.constant(k) + shape.step * (b - a) for k, (a, b) in enumerate(pairwise(ends))]


def floors_of(problem: LayoutProblem, marks: Marks) -> dict[Spot, Ticks]:
    """Height of the floor of each (bay, opening) above the room's floor [tick]."""
    floors: dict[Spot, Ticks] = {}
    for b, shape in enumerate(problem.bays):
        floors[b, 0] = shape.above_floor + shape.floor
        for k in range(1, shape.openings):
            under = shape.offset + shape.step * marks[b, k]
            floors[b, k] = shape.above_floor + under + shape.thickness
    return floors


@dataclass(frozen=True)
class LookScores:
    """The scores of one layout, each by the name of its stage."""

    problem: LayoutProblem
    marks: Marks
    places: Places

    @cached_property
    def heights(self) -> dict[int, list[Ticks]]:
        """Clear heights by bay [tick]."""
        return {
            b: clear_heights(self.problem, self.marks, b) for b in range(len(self.problem.bays))
        }

    @cached_property
    def scored(self) -> list[tuple[list[Ticks], Ticks]]:
        """(clear heights, marking step) of every set of heights that is scored once [tick]."""
        found = []
        for group in self.problem.groups:
            seen: set[tuple[Ticks, ...]] = set()
            for bay in group.bays:
                heights = self.heights[bay]
                if len(heights) == group.most + 1 and tuple(heights) not in seen:
                    seen.add(tuple(heights))
                    found.append((heights, self.problem.bays[bay].step))
        return found

    @cached_property
    def _filled(self) -> dict[Spot, Sequence[Place]]:
        return {spot: places for spot, places in self.places.items() if places}

    def _count(self, spot: Spot) -> Counter[int]:
        """Things by kind in an opening."""
        return Counter(form.kind for form, things in self.places[spot] for _ in range(things))

    @cached_property
    def _counts(self) -> dict[Spot, Counter[int]]:
        return {spot: self._count(spot) for spot in self._filled}

    def left(self) -> Counter[int]:
        """How many of each kind are left out [-]."""
        stand = sum(self._counts.values(), Counter[int]())
        kinds = enumerate(self.problem.kinds)
        return Counter({k: kind.count - stand[k] for k, kind in kinds if kind.count > stand[k]})

    def fit(self) -> int:
        """Visible area of what is left out [mm2]."""
        return sum(self.problem.kinds[k].area * count for k, count in self.left().items())

    def empty(self) -> int:
        """Openings in which nothing stands, but for those that are to be empty [-]."""
        held = self.problem.holding.held
        kept = {(one.bay, one.opening) for one in held if isinstance(one, EmptyHeld)}
        every = {(b, k) for b, s in enumerate(self.problem.bays) for k in range(s.openings)}
        return len(every - kept - self._filled.keys())

    def mirrored(self) -> int:
        """Kinds with an odd number of places in an opening, beyond one [-]."""
        odd = (
            sum(n % 2 for n in Counter(form.kind for form, _ in places).values())
            for places in self._filled.values()
        )
        return sum(max(0, count - 1) for count in odd)

    def together(self) -> int:
        """Openings beyond one in which things of a kind stand [-]."""
        used = Counter(k for kinds in self._counts.values() for k in kinds)
        return sum(count - 1 for count in used.values())

    def headings(self) -> int:
        """Openings beyond one that a heading or group uses, and those skipped between [-]."""
        used: dict[object, set[Spot]] = defaultdict(set)
        for spot, kinds in self._counts.items():
            for k in kinds:
                for name in _names(self.problem.kinds[k]):
                    used[name].add(spot)
        return sum(len(spots) - 1 + _skipped(spots) for spots in used.values())

    def alone(self) -> int:
        """Openings where one thing stands and others of its kind, three or more, elsewhere [-]."""
        stand = sum(self._counts.values(), Counter[int]())
        return sum(
            count == 1 and self.problem.kinds[k].count >= 3 and stand[k] > 1
            for kinds in self._counts.values()
            for k, count in kinds.items()
        )

    def apart(self) -> int:
        """Things to stand apart that have nothing of another kind to stand between them [-]."""
        return sum(
            _beside(Counter(form.kind for form, _ in places), k, other)
            for places in self._filled.values()
            for k, other in pairs_apart(self.problem)
        )

    def lone(self) -> int:
        """Openings more than half empty in which a single thing stands [-]."""
        return sum(
            len(places) == 1
            and 2 * front_area(places[0][0]) < self.problem.bays[b].width * self.heights[b][k]
            for (b, k), places in self._filled.items()
        )

    def asked(self) -> int:
        """Things that miss what was asked for them by name [-]."""
        return sum(self._missed(k, kind) for k, kind in enumerate(self.problem.kinds))

    def _missed(self, k: int, kind: Kind) -> int:
        there = {spot: kinds[k] for spot, kinds in self._counts.items() if kinds[k]}
        all_of_it, missed = sum(there.values()), 0
        if kind.where is not None:
            missed += sum(n for spot, n in there.items() if spot[1] != self._wished(kind, spot[0]))
        if kind.together:
            missed += all_of_it - max(there.values(), default=0)
        if kind.hero:
            missed += sum(self._out_of_sight(k, spot) for spot in there)
        if kind.fragile:
            low = self.problem.wishes.fragile_floor
            missed += sum(n for spot, n in there.items() if self.floors[spot] < low)
        return missed

    @cached_property
    def floors(self) -> dict[Spot, Ticks]:
        """Floors above the room's floor [tick]."""
        return floors_of(self.problem, self.marks)

    def _wished(self, kind: Kind, bay: int) -> int:
        """Number of the opening that is wished in a bay."""
        shelves, eye = self.problem.bays[bay].shelves, self.problem.wishes.eye_level
        if isinstance(kind.where, int):
            return kind.where
        at_eye = max((k for k in range(shelves + 1) if self.floors[bay, k] <= eye), default=0)
        return {"low": 0, "top": shelves, "eye": at_eye}[str(kind.where)]

    def _out_of_sight(self, kind: int, spot: Spot) -> int:
        """Things of a hero kind whose own middle is not at the height of the eye [-]."""
        stand = (form for form, _ in self.places[spot] if form.kind == kind)
        twice = (middle for form in stand for middle in middles(form, self.floors[spot]))
        return sum(not 2 * HERO_LOW <= middle <= 2 * HERO_HIGH for middle in twice)

    def rises(self) -> Ticks:
        """How much openings are higher than the one below, beyond a marking step [tick]."""
        sign = -1 if self.problem.wishes.tallest == "top" else 1
        return sum(
            max(0, sign * (above - below) - step)
            for heights, step in self.scored
            for below, above in pairwise(heights)
        )

    def steady(self) -> Ticks:
        """Largest less smallest step from an opening to the next [tick], or off the one wanted."""
        wanted = self.problem.wishes.step
        steps = [[a - b for a, b in pairwise(heights)] for heights, _ in self.scored]
        if wanted is not None:
            sign = -1 if self.problem.wishes.tallest == "top" else 1
            return sum(abs(sign * step - wanted) for some in steps for step in some)
        return sum(max(some) - min(some) for some in steps if len(some) > 1)

    def even(self) -> Ticks:
        """Differences of all pairs of openings; of symmetric ones of the lower half [tick]."""
        half = self.problem.wishes.rhythm == "symmetric"
        return sum(_gini(h[: (len(h) + 1) // 2] if half else h) for h, _ in self.scored)

    def symmetric(self) -> Ticks:
        """Differences of openings as far from the bottom as from the top, beyond a step [tick]."""
        return sum(
            max(0, abs(heights[k] - heights[-1 - k]) - step)
            for heights, step in self.scored
            for k in range(len(heights) // 2)
        )

    @cached_property
    def rooms(self) -> dict[Spot, Ticks]:
        """Room over the tallest thing of each filled opening [tick]."""
        return {
            (b, k): self.heights[b][k] - max(form.height for form, _ in places)
            for (b, k), places in self._filled.items()
        }

    def to_fit(self) -> Ticks:
        """Differences of the room over the tallest things, by line group [tick]."""
        return sum(
            _gini([room for (b, _), room in self.rooms.items() if b in group.bays])
            for group in self.problem.groups
        )

    def void(self) -> int:
        """Largest empty front of an opening [mm2]."""
        empty = (
            (self.problem.bays[b].width + self.problem.bays[b].wider) * height
            - sum(front_area(form) for form, _ in self.places.get((b, k), ()))
            for b, heights in self.heights.items()
            for k, height in enumerate(heights)
        )
        return max(empty) // AREA

    def roomy(self) -> Ticks:
        """Largest width of the things of an opening together [tick]."""
        rows = (sum(form.width for form, _ in places) for places in self._filled.values())
        return max(rows, default=0)

    def beside(self) -> int:
        """Width times what each is lower than the tallest of its opening [mm2]."""
        total = 0
        for places in self._filled.values():
            top = max(form.height for form, _ in places)
            total += sum(form.width * (top - form.height) for form, _ in places)
        return total // AREA

    def air(self) -> Ticks:
        """Range of the room over the tallest things [tick]."""
        return max(self.rooms.values(), default=0) - min(self.rooms.values(), default=0)

    def sight(self) -> int:
        """Small things away from the eye line [mm2]."""
        eye = self.problem.wishes.eye_level
        spots = self._filled.items()
        twice = sum(twice_sight_of(f, self.floors[s], eye) for s, some in spots for f, _ in some)
        return twice // (2 * AREA)

    def heavy(self) -> Grams:
        """Mass above the eye line [g]."""
        eye, kinds = self.problem.wishes.eye_level, self.problem.kinds
        return sum(
            heavy_of(form, self.floors[spot], eye) * kinds[form.kind].mass
            for spot, some in self._filled.items()
            for form, _ in some
        )

    def value(self, stage: str) -> int:
        """The score of a stage by its name."""
        name = {"to-fit": "to_fit", "graduated": "steady"}.get(stage, stage)
        return int(getattr(self, name)())


def pairs_apart(problem: LayoutProblem) -> set[tuple[int, int]]:
    """Kinds that are not to stand beside each other, each pair once."""
    return {
        (min(k, other), max(k, other))
        for k, kind in enumerate(problem.kinds)
        for other in kind.apart
    }


def _beside(stand: Mapping[int, int], k: int, other: int) -> int:
    """What has nothing to stand between: places of one kind, or two kinds of a pair."""
    between = sum(count for kind, count in stand.items() if kind not in (k, other))
    if k == other:
        return max(0, stand.get(k, 0) - 1 - between)
    return max(0, int(k in stand) + int(other in stand) - 1 - between)


def _names(kind: Kind) -> list[tuple[str, str]]:
    names = [("group", kind.group)] if kind.group is not None else []
    return names + ([("heading", kind.heading)] if kind.heading is not None else [])


def _skipped(spots: set[Spot]) -> int:
    """Openings of each bay between its lowest and highest used one that are not used."""
    by_bay: dict[int, list[int]] = defaultdict(list)
    for bay, opening in spots:
        by_bay[bay].append(opening)
    return sum(max(used) - min(used) + 1 - len(used) for used in by_bay.values())


def _gini(values: Sequence[Ticks]) -> Ticks:
    return sum(abs(a - b) for a, b in combinations(values, 2))
