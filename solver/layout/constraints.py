"""The rules of a layout, one function each."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from itertools import pairwise

from solver.cp_sat import cp_model
from solver.layout.counting_cuts import Choice, all_sums, largest
from solver.layout.hold_rules import held_as_decided
from solver.layout.layout_problem import BayShape, Form, LayoutProblem
from solver.layout.variables import LayoutVariables, Linear
from solver.strength.beams import MIDSPAN_SHARE, end_load_share, inset_load_share

Rule = Callable[[LayoutVariables], None]

CHAINED = 2000
"""Levels times forms of an opening from which on widths are added up level by level [-]."""


def openings_within_limits(v: LayoutVariables) -> None:
    """Every opening has at least the least and at most the most clear height."""
    for c, k in v.openings():
        low, high = v.least_steps(c, k), v.most_steps(c, k)
        if v.shape(c).shelves:
            v.model.add_linear_constraint(v.steps(c, k), low, high)
        elif not low <= 0 <= high:  # no shelf to move: the opening is the whole inside
            v.model.add_bool_or([])


def not_too_high_if_thin(v: LayoutVariables) -> None:
    """No opening is over the most clear height if the boards turn out the thinnest they may be."""
    most = v.problem.wishes.clear_most
    if most is None:
        return
    for c, k in v.openings():
        more = v.shape(c).higher_if_thin(k)
        if more:
            v.model.add(v.height(c, k) + more <= most)


def marks_from_the_first_hole(v: LayoutVariables) -> None:
    """No shelf is below the first mark there is: the lowest pins, or the bottom end."""
    for c, one in enumerate(v.classes):
        if one.shape.shelves:
            v.model.add(v.mark(c, 1) >= 0)


def lines_rise(v: LayoutVariables) -> None:
    """Shelf lines of a group follow one another upwards, each used by a bay of its own count."""
    for lines in v.lines():
        for low, high in pairwise(lines):
            v.model.add(low + 1 <= high)


def tall_enough(v: LayoutVariables) -> None:
    """An opening that reaches a level takes at least the level's steps; levels are nested."""
    for (c, k), levels in v.levels.items():
        before, terms = v.least_steps(c, k), []
        for steps, reached in zip(levels.steps, levels.reached, strict=True):
            terms.append((steps - before) * reached)
            before = steps
        if terms:
            v.model.add(v.steps(c, k) >= v.least_steps(c, k) + sum(terms))
        for low, high in pairwise(levels.reached):
            v.model.add_implication(high, low)


def width_at_each_level(v: LayoutVariables) -> None:
    """Things that need a level stand only where it is reached, and side by side with their gaps."""
    gap = v.problem.wishes.gap
    for (c, k), levels in v.levels.items():
        room = v.classes[c].times * (v.shape(c).run + gap)
        places = v.places(c, k)
        needs = {form: v.level_of(form, c, k) for form in places}
        widths = {f: f.width + min(gap, v.problem.kinds[f.kind].gap) for f in places}
        if len(levels.steps) * len(places) > CHAINED:
            _level_by_level(v, (c, k), room, needs, widths)
            continue
        for i, reached in enumerate(levels.reached):
            high = [widths[f] * places[f] for f, need in needs.items() if need >= i]
            v.model.add(sum(high) <= room * reached)
            for form, need in needs.items():
                if need == i:
                    v.model.add(places[form] == 0).only_enforce_if(~reached)


def _level_by_level(
    v: LayoutVariables,
    at: tuple[int, int],
    room: int,
    needs: Mapping[Form, int],
    widths: Mapping[Form, int],
) -> None:
    """Restate the rule with the width of each level and those above as a variable of its own.

    With many kinds the rows so grow with the kinds, and not with their square.
    """
    places, levels = v.places(*at), v.levels[at]
    needing: dict[int, list[Form]] = defaultdict(list)
    for form, need in needs.items():
        needing[need].append(form)
    above: list[Linear] = []
    for i in reversed(range(len(levels.reached))):
        taken = v.model.new_int_var(0, room, f"taken[class={at[0]},opening={at[1]},level={i}]")
        v.model.add(taken == sum([*above, *(widths[f] * places[f] for f in needing[i])]))
        v.model.add(taken <= room * levels.reached[i])
        for form in needing[i]:
            v.model.add(places[form] == 0).only_enforce_if(~levels.reached[i])
        above = [taken]


def width(v: LayoutVariables) -> None:
    """Things of an opening stand side by side: gaps between kinds, a kind's own gap within it."""
    gap = v.problem.wishes.gap
    for c, k in v.openings():
        places = v.places(c, k)
        terms: list[Linear] = []
        for kind, forms in _by_kind(places).items():
            own = v.problem.kinds[kind].gap
            terms += [(form.width + own) * places[form] for form in forms]
            if own != gap:
                terms.append((gap - own) * _present(v, kind, [places[f] for f in forms], c, k))
        v.model.add(sum(terms) <= v.classes[c].times * _room(v, c, k))


def _room(v: LayoutVariables, c: int, k: int) -> int:
    """The most of its width, with a gap, that things can take in an opening [tick]."""
    gap, most = v.problem.wishes.gap, v.shape(c).run + v.problem.wishes.gap
    kinds = []
    for index, forms in _by_kind(v.places(c, k)).items():
        kind = v.problem.kinds[index]
        choices = ((form.width + kind.gap, -(-kind.count // form.things)) for form in forms)
        kinds.append((tuple(choices), gap - kind.gap))
    return _largest_sum(tuple(kinds), most)


@lru_cache(maxsize=64)
def _largest_sum(kinds: tuple[tuple[tuple[Choice, ...], int], ...], most: int) -> int:
    """The largest sum of at most `most`; asked again by every opening and model of a job."""
    return largest(all_sums(kinds, most), most)


def _by_kind(places: dict[Form, cp_model.IntVar]) -> dict[int, list[Form]]:
    kinds: dict[int, list[Form]] = defaultdict(list)
    for form in places:
        kinds[form.kind].append(form)
    return kinds


def _present(
    v: LayoutVariables, kind: int, places: list[cp_model.IntVar], c: int, k: int
) -> cp_model.IntVar:
    """A boolean that is true exactly where the kind has a place in the opening."""
    present = v.model.new_bool_var(f"present[kind={kind},class={c},opening={k}]")
    v.model.add(sum(places) >= 1).only_enforce_if(present)
    v.model.add(sum(places) == 0).only_enforce_if(~present)
    return present


def everything_placed_or_left(v: LayoutVariables) -> None:
    """Each thing stands in one opening or is left out."""
    for k, kind in enumerate(v.problem.kinds):
        placed = sum(v.count(k, c, o) for c, o in v.openings())
        v.model.add(placed + v.left[k] == kind.count)


def load(v: LayoutVariables) -> None:
    """No shelf carries more than its load limit, nor more than its sag limit allows.

    The sag limit is meant for a load spread evenly. Things of more than one place can be stood so
    that they sag the shelf no more than that (:func:`solver.layout.row_apart.apart`);
    one that by itself sags it too far wherever it stands is kept off it.
    """
    for c, o in v.openings():
        for k in range(len(v.problem.kinds)):
            if too_heavy(v.problem, v.shape(c), o, k):
                v.model.add(v.count(k, c, o) == 0)
        most = v.classes[c].times * v.shape(c).load_at(o)
        masses = [(kind.mass, v.count(k, c, o)) for k, kind in enumerate(v.problem.kinds)]
        if sum(kind.mass * kind.count for kind in v.problem.kinds) > most:
            v.model.add(sum(mass * count for mass, count in masses) <= most)


def too_heavy(problem: LayoutProblem, bay: BayShape, opening: int, kind: int) -> bool:
    """Whether one thing of a kind sags a shelf beyond its limit wherever it stands on it."""
    sag, one = bay.sag[min(opening, 1)], problem.kinds[kind]
    if sag is None or one.mass * MIDSPAN_SHARE[0] <= sag * MIDSPAN_SHARE[1]:
        return False
    share = min(end_load_share(form.size[0], bay.width, bay.margin) for form in one.forms)
    return one.mass * share > (sag + 1) * inset_load_share(bay.width, bay.margin)


def groups_together(v: LayoutVariables) -> None:
    """Things of a group stand in one bay, in openings that follow one another."""
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


def on_falls(v: LayoutVariables, marks: Mapping[int, Sequence[tuple[int, ...]]]) -> None:
    """The marks of each class are one of the listed spacings; others are left free."""
    for c, one in enumerate(v.classes):
        shelves = one.shape.shelves
        if shelves and shelves == v.problem.groups[one.group].most:
            v.model.add_allowed_assignments([v.mark(c, k) for k in range(1, shelves + 1)], marks[c])


def middle_openings_fall(v: LayoutVariables) -> None:
    """Symmetry: openings between two shelves that differ in height only come tallest first.

    Any layout can be put into this order where nothing depends on which opening is where:
    every bay of the line group uses all its lines, and neither rhythm nor groups look at
    the order. The lowest and the top opening differ from the others and are left alone.
    """
    for g, group in enumerate(v.problem.groups):
        members = [c for c, one in enumerate(v.classes) if one.group == g]
        if any(v.shape(c).shelves != group.most for c in members):
            continue
        for c in members[:1]:
            for k in range(1, group.most - 1):
                v.model.add(v.steps(c, k) >= v.steps(c, k + 1))
        for c in members:
            for k in range(1, group.most - 1):
                _levels_fall(v, c, k)


def _levels_fall(v: LayoutVariables, c: int, k: int) -> None:
    """What the next opening reaches, this one reaches too."""
    here, above = v.levels[c, k], v.levels[c, k + 1]
    lower = dict(zip(here.steps, here.reached, strict=True))
    for steps, reached in zip(above.steps, above.reached, strict=True):
        if steps in lower:
            v.model.add_implication(reached, lower[steps])


RULES: tuple[Rule, ...] = (
    openings_within_limits,
    not_too_high_if_thin,
    marks_from_the_first_hole,
    lines_rise,
    tall_enough,
    width,
    width_at_each_level,
    everything_placed_or_left,
    load,
    groups_together,
    held_as_decided,
)
"""Every rule of a layout."""
