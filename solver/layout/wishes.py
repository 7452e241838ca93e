"""The wishes about what stands where, one function a wish; all are minimised.

What each counts is defined in :mod:`solver.layout.look_scores`, which scores a finished layout;
here it is said of the variables of a model. A relaxation, of bays taken together or openings by
rank, counts no more than that. `spacing_wishes` has those about heights alone.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from fractions import Fraction
from math import gcd

from solver.layout.goal import Goal
from solver.layout.layout_problem import EmptyHeld, Form, LayoutProblem
from solver.layout.look_scores import (
    AREA,
    front_area,
    heavy_of,
    pairs_apart,
    twice_sight_of,
)
from solver.layout.variables import LayoutVariables, Linear
from solver.units import Ticks

Wish = Callable[[LayoutVariables], Goal]


def left_out(v: LayoutVariables, keep: int) -> Goal:
    """Visible area of the things left out, of one degree of `keep` [mm2]."""
    kinds = enumerate(v.problem.kinds)
    return Goal(sum(kind.area * v.left[k] for k, kind in kinds if kind.keep == keep))


def all_left_out(v: LayoutVariables) -> Goal:
    """Visible area of all things left out [mm2]."""
    return Goal(sum(kind.area * v.left[k] for k, kind in enumerate(v.problem.kinds)))


def empty(v: LayoutVariables) -> Goal:
    """Openings in which nothing stands, but for those that are to be empty."""
    kept = kept_empty(v.problem)
    if v.ranked:  # any rank may be the one that is to be empty
        bare = [_bare(v, c, k, v.classes[c].times) for c, k in v.openings()]
        more = v.model.new_int_var(0, max(1, 99 * len(bare)), "empty")
        v.model.add(more >= sum(bare) - len(kept))
        return Goal(more)
    terms: list[Linear] = []
    for c, k in v.openings():
        one = v.classes[c]
        times = one.times - sum((bay, k) in kept for bay in one.bays)
        if times:
            terms.append(_bare(v, c, k, times))
    return Goal(sum(terms))


def _bare(v: LayoutVariables, c: int, k: int, times: int) -> Linear:
    """In how many of so many bays of a class nothing stands in an opening."""
    bare = v.model.new_int_var(0, times, f"empty[class={c},opening={k}]")
    v.model.add(bare + sum(v.places(c, k).values()) >= times)
    return bare


def kept_empty(problem: LayoutProblem) -> set[tuple[int, int]]:
    """Openings (bay, opening) that are to be empty."""
    held = problem.holding.held
    return {(one.bay, one.opening) for one in held if isinstance(one, EmptyHeld)}


def mirrored(v: LayoutVariables) -> Goal:
    """Kinds with an odd number of places in an opening, beyond the one that can be its middle."""
    terms: list[Linear] = []
    for c, k in v.openings():
        odds: list[Linear] = []
        for kind, forms in v.by_kind(c, k).items():
            odd = v.model.new_bool_var(f"odd[kind={kind},class={c},opening={k}]")
            half = v.model.new_int_var(
                0, v.problem.kinds[kind].count // 2, f"pairs[kind={kind},class={c},opening={k}]"
            )
            v.model.add(sum(v.places(c, k)[form] for form in forms) == 2 * half + odd)
            odds.append(odd)
        times = v.classes[c].times
        if len(odds) > times:
            over = v.model.new_int_var(0, len(odds) - times, f"unpaired[class={c},opening={k}]")
            v.model.add(over >= sum(odds) - times)
            terms.append(over)
    return Goal(sum(terms))


def together(v: LayoutVariables) -> Goal:
    """Openings beyond one in which things of a kind stand."""
    terms: list[Linear] = []
    for kind in range(len(v.problem.kinds)):
        used = [v.present(kind, c, k) for c, k in v.openings()]
        more = v.model.new_int_var(0, max(1, len(used) * 99), f"parted[kind={kind}]")
        v.model.add(more >= sum(used) - 1)
        terms.append(more)
    return Goal(sum(terms))


def headings_of(problem: LayoutProblem) -> dict[tuple[str, str], list[int]]:
    """Kinds by heading and by written group."""
    members: dict[tuple[str, str], list[int]] = defaultdict(list)
    for k, kind in enumerate(problem.kinds):
        if kind.group is not None:
            members["group", kind.group].append(k)
        if kind.heading is not None:
            members["heading", kind.heading].append(k)
    return dict(members)


def headings(v: LayoutVariables) -> Goal:
    """Openings beyond one that a heading or group uses, and openings skipped between them."""
    terms: list[Linear] = []
    for name, kinds in headings_of(v.problem).items():
        used = [_used(v, name, kinds, c, k) for c, k in v.openings()]
        more = v.model.new_int_var(0, max(1, len(used) * 99), f"spread[{name}]")
        v.model.add(more >= sum(used) - 1)
        terms.append(more)
        if not v.ranked and not v.merge:
            terms += _skipped(v, name, dict(zip(v.openings(), used, strict=True)))
    return Goal(sum(terms))


def _used(v: LayoutVariables, name: tuple[str, str], kinds: list[int], c: int, k: int) -> Linear:
    """In how many bays of a class things of a heading stand in an opening."""
    times, gap = v.classes[c].times, v.problem.wishes.gap
    used = v.model.new_int_var(0, times, f"used[{name},class={c},opening={k}]")
    places = v.places(c, k)
    inside = [(f, places[f]) for f in places if f.kind in kinds]
    widths = ((f.width + min(gap, v.problem.kinds[f.kind].gap)) * x for f, x in inside)
    v.model.add(sum(widths) <= (v.shape(c).run + gap) * used)
    v.model.add(sum(x for _, x in inside) >= used)
    for kind in kinds:
        v.model.add(used >= v.present(kind, c, k))
    return used


def _skipped(
    v: LayoutVariables, name: tuple[str, str], used: Mapping[tuple[int, int], Linear]
) -> list[Linear]:
    """Openings of a bay without a heading, between two that have things of it."""
    skipped: list[Linear] = []
    for c, one in enumerate(v.classes):
        count = one.shape.openings
        for k in range(1, count - 1):
            below = v.model.new_bool_var(f"below[{name},class={c},opening={k}]")
            above = v.model.new_bool_var(f"above[{name},class={c},opening={k}]")
            for j in range(k):
                v.model.add(below >= used[c, j])
            for j in range(k + 1, count):
                v.model.add(above >= used[c, j])
            skip = v.model.new_bool_var(f"skipped[{name},class={c},opening={k}]")
            v.model.add(skip >= below + above - used[c, k] - 1)
            skipped.append(skip)
    return skipped


ALONE_FROM = 3
"""Kinds of so many things are asked about one that stands alone [-]."""


def alone(v: LayoutVariables) -> Goal:
    """Openings in which one thing stands while others of its kind, three or more, do elsewhere."""
    terms: list[Linear] = []
    for k, kind in enumerate(v.problem.kinds):
        if kind.count < ALONE_FROM:
            continue
        for c, o in v.openings():
            if v.classes[c].times == 1 and v.by_kind(c, o).get(k):
                one = v.model.new_bool_var(f"alone[kind={k},class={c},opening={o}]")
                here, used = v.count(k, c, o), v.present(k, c, o)
                rule = v.model.add(here + one >= 2 * used)
                if not v.all_placed:
                    others = v.model.new_bool_var(f"elsewhere[kind={k},class={c},opening={o}]")
                    v.model.add(kind.count - v.left[k] - here <= kind.count * others)
                    rule.only_enforce_if(others)
                terms.append(one)
    return Goal(sum(terms))


def apart(v: LayoutVariables) -> Goal:
    """Things that are to stand apart and have nothing of another kind to stand between them."""
    terms: list[Linear] = []
    for c, o in v.openings():
        kinds = v.by_kind(c, o)
        stand = {k: sum(v.places(c, o)[form] for form in forms) for k, forms in kinds.items()}
        for k, other in sorted(pairs_apart(v.problem)):
            if k not in stand or other not in stand:
                continue
            between = sum(count for kind, count in stand.items() if kind not in (k, other))
            missed = v.model.new_int_var(0, v.problem.things, f"beside[{k},{other},{c},{o}]")
            if k == other:
                v.model.add(missed >= stand[k] - v.classes[c].times - between)
            elif v.classes[c].times == 1:
                v.model.add(missed + between >= v.present(k, c, o) + v.present(other, c, o) - 1)
            terms.append(missed)
    return Goal(sum(terms))


def void(v: LayoutVariables) -> Goal:
    """Largest empty front of an opening: its area less the fronts of what stands there [mm2]."""
    fronts = []
    for c, k in v.openings():
        shape, places = v.shape(c), v.places(c, k)
        wide = shape.width + shape.wider
        const, step = wide * shape.constant(k), wide * shape.step
        fronts.append((const, step, [(front_area(f), x) for f, x in places.items()], (c, k)))
    unit = gcd(*(g for const, step, fs, _ in fronts for g in (const, step, *(a for a, _ in fs))))
    most = max((s.width + s.wider) * s.inside for s in v.problem.bays) // unit
    largest = v.model.new_int_var(0, most, "largest void")
    for const, step, things, (c, k) in fronts:
        area = sum((a // unit) * x for a, x in things)
        v.model.add(largest >= const // unit + (step // unit) * v.steps(c, k) - area)
    return Goal(largest, Fraction(unit, AREA))


def lone(v: LayoutVariables) -> Goal:
    """Openings more than half empty in which a single thing stands."""
    terms: list[Linear] = []
    for c, k in v.openings():
        shape, places = v.shape(c), v.places(c, k)
        if not places:
            continue
        one, full, bare = (
            v.model.new_bool_var(f"{what}[class={c},opening={k}]")
            for what in ("lone", "half full", "bare")
        )
        stand = sum(places.values())
        fronts = sum(front_area(form) * x for form, x in places.items())
        v.model.add(2 * fronts >= shape.width * v.height(c, k)).only_enforce_if(full)
        v.model.add(stand == 0).only_enforce_if(bare)
        v.model.add(stand >= 2).only_enforce_if(~one, ~full, ~bare)
        terms.append(one)
    return Goal(sum(terms))


def roomy(v: LayoutVariables) -> Goal:
    """Largest width of the things of an opening together [tick]."""
    largest = v.model.new_int_var(0, max(s.width for s in v.problem.bays), "largest row")
    for c, k in v.openings():
        v.model.add(largest >= sum(f.width * x for f, x in v.places(c, k).items()))
    return Goal(largest)


def tallest(v: LayoutVariables, c: int, k: int) -> Linear:
    """Height of the highest thing of an opening; 0 where there is none [tick]."""
    before, terms = 0, []
    for level in v.levels[c, k]:
        terms.append((level.height - before) * level.reached)
        before = level.height
    return sum(terms)


def levels_are_used(v: LayoutVariables) -> None:
    """An opening reaches no level but those of what stands in it."""
    for (c, k), levels in v.levels.items():
        places = v.places(c, k)
        above: list[Linear] = []
        for level in reversed(levels):
            above += [x for f, x in places.items() if v.level_of(f, c, k) is level]
            v.model.add(level.reached <= sum(above))


def beside(v: LayoutVariables) -> Goal:
    """Low things beside tall ones: width times what each is lower than the tallest there [mm2]."""
    terms: list[Linear] = []
    for (c, k), levels in v.levels.items():
        places, before = v.places(c, k), 0
        most, lower = v.shape(c).run, list[Linear]()
        for level in levels:
            if lower and level.height > before:
                under = v.model.new_int_var(0, most, f"under[{c},{k},{level.height}]")
                v.model.add(under >= sum(lower) - most * (1 - level.reached))
                terms.append((level.height - before) * under)
            lower += [f.width * x for f, x in places.items() if v.level_of(f, c, k) is level]
            before = level.height
    return Goal(sum(terms), Fraction(1, AREA))


def air(v: LayoutVariables) -> Goal:
    """Range of the room over the tallest things of the openings [tick]."""
    most = max(s.inside for s in v.problem.bays)
    high = v.model.new_int_var(0, most, "most air")
    low = v.model.new_int_var(0, most, "least air")
    v.model.add(low <= high)
    for (c, k), levels in v.levels.items():
        if not levels:
            continue
        filled, room = levels[0].reached, v.height(c, k) - tallest(v, c, k)
        v.model.add(high >= room).only_enforce_if(filled)
        v.model.add(low <= room).only_enforce_if(filled)
    return Goal(high - low)


def sight(v: LayoutVariables, floors: Mapping[tuple[int, int], Ticks]) -> Goal:
    """Small things away from the eye line, with the marks held [mm2]."""
    eye = v.problem.wishes.eye_level
    half = Fraction(1, 2 * AREA)
    return _by_place(v, floors, lambda form, floor: twice_sight_of(form, floor, eye), half)


def heavy(v: LayoutVariables, floors: Mapping[tuple[int, int], Ticks]) -> Goal:
    """Mass above the eye line, with the marks held [g]."""
    eye, kinds = v.problem.wishes.eye_level, v.problem.kinds
    return _by_place(
        v, floors, lambda form, floor: heavy_of(form, floor, eye) * kinds[form.kind].mass
    )


def _by_place(
    v: LayoutVariables,
    floors: Mapping[tuple[int, int], Ticks],
    worth: Callable[[Form, Ticks], int],
    unit: Fraction = Fraction(1),
) -> Goal:
    """Sum over places of what each is worth on its floor, by (bay, opening) [tick]."""
    terms = [
        (worth(form, floors[v.classes[c].bays[0], k]), x)
        for c, k in v.openings()
        for form, x in v.places(c, k).items()
    ]
    scale = gcd(*(w for w, _ in terms)) or 1
    return Goal(sum((w // scale) * x for w, x in terms), unit * scale)
