"""A layout as marks and places, and the rules of fit restated from the problem's data alone.

Nothing of the planner's own layout is used: the rules are those of the job's description. An
opening is as high as each place needs with its headroom, the lift over a lip and a lip hanging
into it; places stand side by side with the gaps of their kinds; shelves carry what they may; what
shares lines lies on them; groups stand in neighbouring openings of one bay; what is held is there.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from solver.layout.layout_problem import (
    BayShape,
    EmptyHeld,
    Form,
    LayoutProblem,
    MarkHeld,
    Spot,
    ThingsHeld,
)
from solver.strength.beams import MIDSPAN_SHARE, end_load_share, inset_load_share

Places = tuple[tuple[Form, int], ...]
"""(form, things in it) of each place of an opening."""


@dataclass(frozen=True)
class Layout:
    """Mark numbers by (bay, shelf from 1), places by (bay, opening), things left out by kind."""

    marks: Mapping[Spot, int]
    places: Mapping[Spot, Places]
    left: Mapping[int, int] = field(default_factory=dict)

    def things(self, kind: int, spot: Spot) -> int:
        """How many things of a kind stand in an opening [-]."""
        return sum(count for form, count in self.places.get(spot, ()) if form.kind == kind)


def spots(problem: LayoutProblem) -> list[Spot]:
    """All openings, bay by bay, lowest first."""
    return [(b, k) for b, bay in enumerate(problem.bays) for k in range(bay.openings)]


def undersides(bay: BayShape, marks: Sequence[int]) -> list[int]:
    """Undersides of the shelves, lowest first, from the bottom end of the side [tick]."""
    return [bay.offset + bay.step * mark for mark in marks]


def floors(bay: BayShape, marks: Sequence[int]) -> list[int]:
    """Floors of the openings above the floor of the room [tick]."""
    tops = [under + bay.thickness for under in undersides(bay, marks)]
    return [bay.above_floor + floor for floor in (bay.floor, *tops)]


def heights(bay: BayShape, marks: Sequence[int]) -> tuple[int, ...]:
    """Clear heights of the openings, lowest first [tick]."""
    under = undersides(bay, marks)
    starts = [bay.floor, *(one + bay.thickness for one in under)]
    return tuple(
        end - start for start, end in zip(starts, [*under, bay.floor + bay.inside], strict=True)
    )


def marks_of(problem: LayoutProblem, layout: Layout, bay: int) -> list[int]:
    """Mark numbers of a bay's shelves, lowest first."""
    return [layout.marks[bay, shelf] for shelf in range(1, problem.bays[bay].shelves + 1)]


def clear(problem: LayoutProblem, layout: Layout) -> dict[Spot, int]:
    """Clear height of every opening [tick]."""
    return {
        (b, k): height
        for b, bay in enumerate(problem.bays)
        for k, height in enumerate(heights(bay, marks_of(problem, layout, b)))
    }


def floor_of(problem: LayoutProblem, layout: Layout) -> dict[Spot, int]:
    """Floor of every opening above the floor of the room [tick]."""
    return {
        (b, k): floor
        for b, bay in enumerate(problem.bays)
        for k, floor in enumerate(floors(bay, marks_of(problem, layout, b)))
    }


# --- Marks --------------------------------------------------------------------------------


def heights_allowed(problem: LayoutProblem, bay: BayShape, marks: Sequence[int]) -> bool:
    """Whether the marks of a bay leave every opening its least and at most its most height."""
    least, most = problem.wishes.clear_least, problem.wishes.clear_most
    if marks and marks[0] < 0:
        return False
    for k, height in enumerate(heights(bay, marks)):
        if height < max(0, least):
            return False
        if most is not None and height + max(0, higher_if_thin(bay, k)) > most:
            return False
    return True


def higher_if_thin(bay: BayShape, opening: int) -> int:
    """How much higher an opening is where the boards turn out the thinnest [tick]."""
    low, middle, top = bay.thinner
    if opening == bay.shelves:
        return top
    return low if opening == 0 else middle


def lines_of(problem: LayoutProblem, layout: Layout, bay: int) -> list[int]:
    """The shelf lines that a bay uses, counted as its line group counts them."""
    return [mark + problem.bays[bay].line for mark in marks_of(problem, layout, bay)]


# --- Openings -----------------------------------------------------------------------------


def needed(problem: LayoutProblem, form: Form, bay: BayShape, opening: int) -> int:
    """Clear height that a place needs: its own, the more of headroom and lift, a hanging lip."""
    above = bay.lip[0] if opening > 0 else 0
    below = bay.lip[1] if opening < bay.shelves else 0
    lift = above + problem.wishes.lift if above > 0 else 0
    return form.height + max(problem.wishes.headroom, lift) + below


def run(problem: LayoutProblem, places: Places) -> int:
    """Width of places side by side with the least gaps between them [tick]."""
    kinds = [form.kind for form, _ in places]
    own = sum((kinds.count(k) - 1) * problem.kinds[k].gap for k in set(kinds))
    between = (len(set(kinds)) - 1) * problem.wishes.gap if kinds else 0
    return sum(form.width for form, _ in places) + own + between


def carries(bay: BayShape, opening: int) -> int:
    """Most mass that an opening's floor may carry, by load limit and sag [g]."""
    sag = bay.sag[0 if opening == 0 else 1]
    return bay.load if sag is None else min(bay.load, sag)


def sags(problem: LayoutProblem, kind: int, bay: BayShape, opening: int) -> bool:
    """Whether one thing of a kind alone sags the floor too far, even at its end."""
    sag, mass = bay.sag[0 if opening == 0 else 1], problem.kinds[kind].mass
    if sag is None or mass * MIDSPAN_SHARE[0] <= sag * MIDSPAN_SHARE[1]:
        return False
    forms = problem.kinds[kind].forms
    best = min(end_load_share(form.size[0], bay.width, bay.margin) for form in forms)
    return mass * best > (sag + 1) * inset_load_share(bay.width, bay.margin)


# --- All of them --------------------------------------------------------------------------


def faults(problem: LayoutProblem, layout: Layout) -> list[str]:
    """Every rule that a layout breaks, in words; none where it is one that can be built."""
    return [
        *_faults_of_marks(problem, layout),
        *_faults_of_openings(problem, layout),
        *_faults_of_kinds(problem, layout),
        *_faults_of_groups(problem, layout),
        *_faults_of_holds(problem, layout),
    ]


def _faults_of_marks(problem: LayoutProblem, layout: Layout) -> Iterator[str]:
    for b, bay in enumerate(problem.bays):
        if not heights_allowed(problem, bay, marks_of(problem, layout, b)):
            yield f"bay {b}: clear heights beyond their limits"
    for g, group in enumerate(problem.groups):
        full = [b for b in group.bays if problem.bays[b].shelves == group.most]
        lines = lines_of(problem, layout, full[0])
        for b in group.bays:
            if not set(lines_of(problem, layout, b)) <= set(lines):
                yield f"line group {g}: bay {b} is off its lines"


def _faults_of_openings(problem: LayoutProblem, layout: Layout) -> Iterator[str]:
    high = clear(problem, layout)
    for spot in layout.places:
        if spot not in high:
            yield f"there is no opening {spot}"
    for b, k in high:
        bay, places = problem.bays[b], layout.places.get((b, k), ())
        mass = sum(problem.kinds[form.kind].mass * count for form, count in places)
        if mass > carries(bay, k):
            yield f"opening {b, k}: {mass} g is too heavy"
        if run(problem, places) > bay.run:
            yield f"opening {b, k}: too wide"
        for form, count in places:
            if needed(problem, form, bay, k) > high[b, k]:
                yield f"opening {b, k}: {problem.kinds[form.kind].name} is too high"
            if form.depth > bay.deep:
                yield f"opening {b, k}: {problem.kinds[form.kind].name} is too deep"
            if sags(problem, form.kind, bay, k):
                yield f"opening {b, k}: one {problem.kinds[form.kind].name} sags it"
            if count != form.things or form not in problem.kinds[form.kind].forms:
                yield f"opening {b, k}: {problem.kinds[form.kind].name} in a form that is none"


def _faults_of_kinds(problem: LayoutProblem, layout: Layout) -> Iterator[str]:
    for k, kind in enumerate(problem.kinds):
        stand = sum(layout.things(k, spot) for spot in layout.places)
        if stand + layout.left.get(k, 0) != kind.count or layout.left.get(k, 0) < 0:
            yield f"{kind.name}: {stand} of {kind.count} stand, {layout.left.get(k, 0)} left out"


def _faults_of_groups(problem: LayoutProblem, layout: Layout) -> Iterator[str]:
    for name in {kind.group for kind in problem.kinds if kind.group is not None}:
        members = {k for k, kind in enumerate(problem.kinds) if kind.group == name}
        used = [s for s in spots(problem) if any(layout.things(k, s) for k in members)]
        if not one_run(used):
            yield f"group {name}: not in neighbouring openings of one bay"


def one_run(used: Sequence[Spot]) -> bool:
    """Whether openings are of one bay and follow one another."""
    if not used:
        return True
    numbers = [k for _, k in used]
    return len({b for b, _ in used}) == 1 and max(numbers) - min(numbers) + 1 == len(used)


def _faults_of_holds(problem: LayoutProblem, layout: Layout) -> Iterator[str]:
    for one in problem.holding.held:
        if isinstance(one, MarkHeld):
            kept = layout.marks.get((one.bay, one.shelf)) == one.mark
        elif isinstance(one, ThingsHeld):
            kept = sum(layout.things(one.kind, spot) for spot in one.openings) >= one.least
        else:
            kept = empty_kept(one, layout.places)
        if not kept:
            yield f"not held: {one}"


def empty_kept(one: EmptyHeld, places: Mapping[Spot, Places]) -> bool:
    """Whether an opening that is kept empty is there and is empty."""
    return one.bay >= 0 and not places.get((one.bay, one.opening))


def kept_empty(problem: LayoutProblem) -> set[Spot]:
    """The openings that are kept empty."""
    held = problem.holding.held
    return {(one.bay, one.opening) for one in held if isinstance(one, EmptyHeld)}
