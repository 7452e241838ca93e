"""The rules of a layout, one function each."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from itertools import pairwise

from solver.cp_sat import cp_model
from solver.layout.goal import Goal
from solver.layout.hold_rules import held_as_decided
from solver.layout.layout_problem import BayShape, Form, LayoutProblem
from solver.layout.levels import Level
from solver.layout.variables import LayoutVariables, Linear
from solver.layout.wishes import headings, headings_of, together
from solver.strength.beams import MIDSPAN_SHARE, end_load_share, inset_load_share

Rule = Callable[[LayoutVariables], None]

CHAINED = 2000
"""Levels times forms of an opening from which on widths are added up level by level [-]."""


def openings_within_limits(v: LayoutVariables) -> None:
    """Every opening has at least the least and at most the most clear height."""
    wishes = v.problem.wishes
    for c, k in v.openings():
        if v.shape(c).shelves == 0:  # no shelf to move: the opening is the whole inside
            if not v.least_steps(c, k) <= 0 <= v.most_steps(c, k):
                v.model.add_bool_or([])
            continue
        v.model.add(v.height(c, k) >= wishes.clear_least)
        if wishes.clear_most is not None:
            v.model.add(v.height(c, k) <= wishes.clear_most)


def not_too_high_if_thin(v: LayoutVariables) -> None:
    """No opening is over the most clear height if the boards turn out the thinnest they may be."""
    most = v.problem.wishes.clear_most
    if most is None or v.ranked:
        return
    for c, k in v.openings():
        more = v.shape(c).higher_if_thin(k)
        if more:
            v.model.add(v.height(c, k) + more <= most)


def marks_from_the_first_hole(v: LayoutVariables) -> None:
    """No shelf is below the first mark there is: the lowest pins, or the bottom end."""
    for c, one in enumerate(v.classes):
        if one.shape.shelves and v.ranked:
            for k in range(one.shape.openings):
                v.model.add(v.steps(c, k) >= 0).only_enforce_if(v.at_end[c, k][0])
        elif one.shape.shelves:
            v.model.add(v.mark(c, 1) >= 0)


def lines_rise(v: LayoutVariables) -> None:
    """Shelf lines of a group follow one another upwards, each used by a bay of its own count."""
    for lines in v.lines():
        for low, high in pairwise(lines):
            v.model.add(low + 1 <= high)


def ranks_fall(v: LayoutVariables) -> None:
    """In a ranked model each opening is as high as the next, or higher."""
    if not v.ranked:
        return
    for c, one in enumerate(v.classes):
        for k in range(one.shape.shelves):
            v.model.add(v.height(c, k) >= v.height(c, k + 1))


def tall_enough(v: LayoutVariables) -> None:
    """An opening that reaches a level takes at least the level's steps; levels are nested."""
    for (c, k), levels in v.levels.items():
        for low, high in pairwise(levels):
            v.model.add_implication(high.reached, low.reached)
        if v.ranked and v.shape(c).shelves:
            _ranked_levels(v, c, k, levels)
            continue
        before, terms = v.least_steps(c, k), []
        for level in levels:
            if level.steps[0] > before:
                terms.append((level.steps[0] - before) * level.reached)
                before = level.steps[0]
        if terms:
            v.model.add(v.steps(c, k) >= v.least_steps(c, k) + sum(terms))


def _ranked_levels(v: LayoutVariables, c: int, k: int, levels: Sequence[Level]) -> None:
    """The same where it is decided which opening lies at the bottom and which at the top."""
    bottom, top = v.at_end[c, k]
    for level in levels:
        low, middle, high = level.steps
        needs = middle + (low - middle) * bottom + (high - middle) * top
        v.model.add(v.steps(c, k) >= needs).only_enforce_if(level.reached)
    if not levels:
        return
    least = v.least_steps(c, k)
    low = min(min(0, one.steps[0] - one.steps[1]) for one in levels)
    high = min(min(0, one.steps[2] - one.steps[1]) for one in levels)
    before, terms = least, []
    for level in levels:  # one row for the relaxation
        if level.steps[1] > before:
            terms.append((level.steps[1] - before) * level.reached)
            before = level.steps[1]
    v.model.add(v.steps(c, k) >= least + sum(terms) + low * bottom + high * top)


def width(v: LayoutVariables) -> None:
    """Things of an opening stand side by side: gaps between kinds, a kind's own gap within it."""
    gap = v.problem.wishes.gap
    for c, k in v.openings():
        places, terms = v.places(c, k), list[Linear]()
        for kind, forms in v.by_kind(c, k).items():
            own = v.problem.kinds[kind].gap
            terms += [(form.width + own) * places[form] for form in forms]
            if own != gap:
                terms.append((gap - own) * v.present(kind, c, k))
        v.model.add(sum(terms) <= v.classes[c].times * (v.shape(c).run + gap))


def width_at_each_level(v: LayoutVariables) -> None:
    """Things that need a level stand only where it is reached, and side by side with their gaps."""
    gap = v.problem.wishes.gap
    for (c, k), levels in v.levels.items():
        room = v.classes[c].times * (v.shape(c).run + gap)
        places = v.places(c, k)
        needing: dict[int, list[Form]] = defaultdict(list)
        for form in places:
            needing[levels.index(v.level_of(form, c, k))].append(form)
        widths = {f: f.width + min(gap, v.problem.kinds[f.kind].gap) for f in places}
        chained = len(levels) * len(places) > CHAINED
        above: list[Linear] = []
        for i, level in reversed(list(enumerate(levels))):
            above += [widths[f] * places[f] for f in needing[i]]
            v.model.add(sum(above) <= room * level.reached)
            for form in needing[i]:
                v.model.add(places[form] == 0).only_enforce_if(~level.reached)
            if chained:  # with many kinds rows so grow with the kinds, and not with their square
                taken = v.model.new_int_var(0, room, f"taken[class={c},opening={k},level={i}]")
                v.model.add(taken == sum(above))
                above = [taken]


def everything_placed_or_left(v: LayoutVariables) -> None:
    """Each thing stands in one opening or is left out."""
    for k, kind in enumerate(v.problem.kinds):
        placed = sum(v.count(k, c, o) for c, o in v.openings())
        v.model.add(placed + v.left[k] == kind.count)


def load(v: LayoutVariables) -> None:
    """No shelf carries more than its load limit, nor more than its sag limit allows.

    The sag limit is meant for a load spread evenly. Things of more than one place can be stood so
    that they sag the shelf no more than that (:mod:`solver.layout.composition`); one that by itself
    sags it too far wherever it stands is kept off it.
    """
    total = sum(kind.mass * kind.count for kind in v.problem.kinds)
    for c, o in v.openings():
        shape, bottom = v.shape(c), _on_the_bottom(v, c, o)
        for k, kind in enumerate(v.problem.kinds):
            low, high = too_heavy(v.problem, shape, 0, k), too_heavy(v.problem, shape, 1, k)
            may = (0 if low else kind.count) * bottom + (0 if high else kind.count) * (1 - bottom)
            if low or high:
                v.model.add(v.count(k, c, o) <= may)
        least, most = shape.load_at(1), shape.load_at(0)
        limit = v.classes[c].times * (least + (most - least) * bottom)
        if total > v.classes[c].times * min(least, most):
            masses = [kind.mass * v.count(k, c, o) for k, kind in enumerate(v.problem.kinds)]
            v.model.add(sum(masses) <= limit)


def _on_the_bottom(v: LayoutVariables, c: int, opening: int) -> Linear:
    if not v.ranked or v.shape(c).shelves == 0:
        return int(opening == 0)
    return v.at_end[c, opening][0]


def too_heavy(problem: LayoutProblem, bay: BayShape, opening: int, kind: int) -> bool:
    """Whether one thing of a kind sags a shelf beyond its limit wherever it stands on it."""
    sag, one = bay.sag[min(opening, 1)], problem.kinds[kind]
    if sag is None or one.mass * MIDSPAN_SHARE[0] <= sag * MIDSPAN_SHARE[1]:
        return False
    share = min(end_load_share(form.size[0], bay.width, bay.margin) for form in one.forms)
    return one.mass * share > (sag + 1) * inset_load_share(bay.width, bay.margin)


def groups_together(v: LayoutVariables) -> None:
    """Things of a group stand in one bay, in openings that follow one another."""
    if v.ranked or v.merge:  # a relaxation
        return
    members: dict[str, list[int]] = defaultdict(list)
    for k, kind in enumerate(v.problem.kinds):
        if kind.group is not None:
            members[kind.group].append(k)
    for name, kinds in members.items():
        _one_run(v, name, kinds)


def _one_run(v: LayoutVariables, name: str, kinds: list[int]) -> None:
    gap = v.problem.wishes.gap
    starts = []
    for c, one in enumerate(v.classes):
        before: Linear = 0
        for o in range(one.shape.openings):
            used = v.model.new_bool_var(f"used[group={name},class={c},opening={o}]")
            start = v.model.new_bool_var(f"start[group={name},class={c},opening={o}]")
            places = v.places(c, o)
            inside = [
                (places[f], f.width + min(gap, v.problem.kinds[f.kind].gap))
                for f in places
                if f.kind in kinds
            ]
            v.model.add(sum(w * x for x, w in inside) <= (one.shape.run + gap) * used)
            v.model.add(sum(x for x, _ in inside) >= used)  # no bridge over an empty opening
            v.model.add(used - before <= start)
            before = used
            starts.append(start)
    v.model.add(sum(starts) <= 1)


def parted_places(v: LayoutVariables) -> Goal:
    """Places parted: openings beyond one that kinds, and headings, use [-]."""
    kinds = together(v).expression
    return Goal(kinds + headings(v).expression if headings_of(v.problem) else kinds)


def not_parted_more(v: LayoutVariables) -> None:
    """No more places are parted than may be."""
    if v.problem.parted_most is not None:
        v.model.add(parted_places(v).expression <= v.problem.parted_most)


RULES: tuple[Rule, ...] = (
    openings_within_limits,
    not_too_high_if_thin,
    marks_from_the_first_hole,
    lines_rise,
    ranks_fall,
    tall_enough,
    width,
    width_at_each_level,
    everything_placed_or_left,
    load,
    groups_together,
    held_as_decided,
    not_parted_more,
)
"""Every rule of a layout."""


def enough_openings(v: LayoutVariables) -> None:
    """Nothing left out: openings that reach a level have the width of all that needs it.

    Says nothing new, but in whole openings, which the linear relaxation does not see. For line
    groups of bays that have the same levels; other models go without.
    """
    gap = v.problem.wishes.gap
    if len({one.shape.run for one in v.classes}) > 1:
        return
    room = v.classes[0].shape.run + gap
    for height in sorted({form.height for kind in v.problem.kinds for form in kind.forms}):
        taken = sum(
            kind.count * min(_each(form, min(gap, kind.gap)) for form in kind.forms)
            for kind in v.problem.kinds
            if all(form.height >= height for form in kind.forms)
        )
        if taken:
            reached = [
                one.times * next((e.reached for e in v.levels[c, k] if e.height >= height), 0)
                for c, one in enumerate(v.classes)
                for k in range(one.shape.openings)
            ]
            v.model.add(sum(reached) >= -(-int(taken) // room))


def _each(form: Form, gap: int) -> float:
    return (form.width + gap) // form.things


def openings_fall(v: LayoutVariables, *, top: bool) -> None:
    """The tallest opening is lowest (or, with `top`, on top), the others fall away from it.

    To within one marking step, as the wish for it counts.
    """
    for c, k, above in scored_pairs(v):
        low, high = (v.height(c, k), v.height(c, above))
        step = v.shape(c).step
        v.model.add((low <= high + step) if top else (high <= low + step))


def scored_classes(v: LayoutVariables) -> list[int]:
    """The classes whose clear heights are scored: one for each set of heights of a line group."""
    seen: dict[tuple[object, ...], int] = {}
    for c, one in enumerate(v.classes):
        if one.shape.shelves == v.problem.groups[one.group].most:
            shape = one.shape
            ends = (shape.constant(0), shape.constant(shape.shelves), shape.thickness, shape.line)
            seen.setdefault((one.group, ends), c)
    return list(seen.values())


def scored_pairs(v: LayoutVariables) -> list[tuple[int, int, int]]:
    """(class, opening, the one above it) of all that is scored."""
    return [(c, k, k + 1) for c in scored_classes(v) for k in range(v.shape(c).shelves)]


def new_model(
    problem: LayoutProblem,
    *,
    merge: bool = False,
    ranked: bool = False,
    rules: Sequence[Rule] = RULES,
    marks: dict[tuple[int, int], int] | None = None,
) -> LayoutVariables:
    """Build the model of a layout with every rule."""
    v = LayoutVariables(cp_model.CpModel(), problem, merge=merge, ranked=ranked, marks=marks)
    for rule in rules:
        rule(v)
    return v
