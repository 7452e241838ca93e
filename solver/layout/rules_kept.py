"""Whether a finished layout keeps every rule, in plain numbers and without a model."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence

from solver.layout.constraints import too_heavy
from solver.layout.layout_problem import (
    Before,
    EmptyHeld,
    Form,
    LayoutProblem,
    LineGroup,
    MarkHeld,
    Place,
    Spot,
)
from solver.layout.look_scores import Marks, Places, clear_heights
from solver.units import Grams, Ticks


def all_kept(problem: LayoutProblem, marks: Marks, places: Places) -> bool:
    """Whether marks, by (bay, shelf from 1), and places, by (bay, opening), break no rule."""
    stand = Counter[int]()
    for some in places.values():
        for form, things in some:
            stand[form.kind] += things
    return (
        marks_kept(problem, marks)
        and all(stand[k] <= kind.count for k, kind in enumerate(problem.kinds))
        and all(_opening_kept(problem, spot, places[spot], marks) for spot in places)
        and groups_kept(problem, places)
        and holds_kept(problem, marks, places)
    )


def marks_kept(problem: LayoutProblem, marks: Marks) -> bool:
    """Whether marks keep the limits of clear heights and the lines that are shared."""
    bays, groups = range(len(problem.bays)), problem.groups
    return all(heights_kept(problem, bay, marks) for bay in bays) and all(
        _lines_kept(problem, marks, group) for group in groups
    )


def heights_kept(problem: LayoutProblem, bay: int, marks: Marks) -> bool:
    """Whether the clear heights of a bay are within their limits."""
    shape, wishes = problem.bays[bay], problem.wishes
    most = shape.inside if wishes.clear_most is None else wishes.clear_most
    thin = 0 if wishes.clear_most is None else 1
    return (shape.shelves == 0 or marks[bay, 1] >= 0) and all(
        wishes.clear_least <= height <= most - thin * shape.higher_if_thin(k)
        for k, height in enumerate(clear_heights(problem, marks, bay))
    )


def _lines_kept(problem: LayoutProblem, marks: Marks, group: LineGroup) -> bool:
    """Whether bays that share lines have their shelves on them."""
    lines = [
        [marks[bay, k] + problem.bays[bay].line for k in range(1, problem.bays[bay].openings)]
        for bay in group.bays
    ]
    longest = max(lines, key=len)
    return all(not set(some) - set(longest) for some in lines)


def may_stand(problem: LayoutProblem, spot: Spot, form: Form, height: Ticks) -> bool:
    """Whether a place of a form fits an opening of a clear height [tick] that is empty."""
    shape = problem.bays[spot[0]]
    return (
        form.depth <= shape.deep
        and form.width <= shape.run
        and problem.needed(form, shape, spot[1]) <= height
        and not too_heavy(problem, shape, spot[1], form.kind)
    )


def width_of(problem: LayoutProblem, places: Sequence[Place]) -> Ticks:
    """Width that places take beside each other, with a gap at one end [tick]."""
    gap, kinds = problem.wishes.gap, {form.kind for form, _ in places}
    own = sum(form.width + problem.kinds[form.kind].gap for form, _ in places)
    return own + sum(gap - problem.kinds[kind].gap for kind in kinds)


def mass_of(problem: LayoutProblem, places: Sequence[Place]) -> Grams:
    """Mass of all things in places [g]."""
    return sum(problem.kinds[form.kind].mass * things for form, things in places)


def _opening_kept(problem: LayoutProblem, spot: Spot, some: Sequence[Place], marks: Marks) -> bool:
    shape = problem.bays[spot[0]]
    height = clear_heights(problem, marks, spot[0])[spot[1]]
    return (
        all(may_stand(problem, spot, form, height) for form, _ in some)
        and width_of(problem, some) <= shape.run + problem.wishes.gap
        and mass_of(problem, some) <= shape.load_at(spot[1])
    )


def groups_kept(problem: LayoutProblem, places: Places) -> bool:
    """Whether each group stands in one bay, in openings that follow one another."""
    used: dict[str, set[Spot]] = defaultdict(set)
    for spot, some in places.items():
        for form, _ in some:
            if (name := problem.kinds[form.kind].group) is not None:
                used[name].add(spot)
    return all(one_run(spots) for spots in used.values())


def one_run(spots: set[Spot]) -> bool:
    """Whether openings are of one bay and follow one another."""
    openings = [opening for _, opening in spots]
    one_bay = len({bay for bay, _ in spots}) <= 1
    return one_bay and max(openings, default=-1) - min(openings, default=0) + 1 == len(spots)


def holds_kept(problem: LayoutProblem, marks: Marks, places: Places) -> bool:
    """Whether everything that is held is where it is held."""
    holding, before = problem.holding, problem.holding.before
    stand = Counter(
        (form.kind, *spot) for spot, some in places.items() for form, n in some for _ in range(n)
    )
    for one in holding.held:
        if isinstance(one, MarkHeld):
            if marks.get((one.bay, one.shelf)) != one.mark:
                return False
        elif isinstance(one, EmptyHeld):
            if one.bay < 0 or places.get((one.bay, one.opening)):
                return False
        elif sum(stand[one.kind, *spot] for spot in one.openings) < max(1, one.least):
            return False
    if before is None:
        return True
    if holding.fixed and any(marks.get(spot, mark) != mark for spot, mark in before.marks):
        return False
    return not holding.stay or not _moved(problem, before, stand)


def _moved(problem: LayoutProblem, before: Before, stand: Counter[tuple[int, int, int]]) -> bool:
    """Whether a thing that stood somewhere before, and is still there, stands elsewhere."""
    gone, stood = Counter[int](), Counter[int]()
    for spot, count in before.things:
        stood[spot[0]] += count
        gone[spot[0]] += max(0, count - stand[spot])
    return any(gone[k] > max(0, stood[k] - problem.kinds[k].count) for k in stood)
