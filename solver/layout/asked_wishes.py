"""What the client asked for by name: where a kind stands, kinds whole, heroes, the fragile."""

from __future__ import annotations

from collections import defaultdict

from solver.layout.goal import Goal
from solver.layout.layout_problem import Kind
from solver.layout.look_scores import HERO_HIGH, HERO_LOW, middles
from solver.layout.variables import LayoutVariables, Linear


def anything_asked(v: LayoutVariables) -> bool:
    """Whether any kind has a wish of its own."""
    return any(
        kind.where is not None or kind.together or kind.hero or kind.fragile
        for kind in v.problem.kinds
    )


def asked(v: LayoutVariables) -> Goal:
    """How many things miss what was asked for them by name."""
    terms: list[Linear] = []
    for k, kind in enumerate(v.problem.kinds):
        if kind.where is not None:
            terms.append(_missed(v, k, [(c, o, _wished(v, kind, c, o)) for c, o in v.openings()]))
        if kind.together:
            one = {(c, o): v.model.new_bool_var(f"home[{k},{c},{o}]") for c, o in v.openings()}
            v.model.add_at_most_one(one.values())
            terms.append(_missed(v, k, [(c, o, here) for (c, o), here in one.items()]))
        if kind.hero:
            terms += [_out_of_sight(v, k, c, o) for c, o in v.openings()]
        if kind.fragile:
            terms.append(_missed(v, k, [(c, o, _safe(v, c, o)) for c, o in v.openings()]))
    return Goal(sum(terms))


def _missed(v: LayoutVariables, kind: int, spots: list[tuple[int, int, Linear]]) -> Linear:
    """Things of a kind in other openings than those where it is wished."""
    terms: list[Linear] = []
    for c, o, good in spots:
        here, count = v.count(kind, c, o), v.problem.kinds[kind].count
        if isinstance(here, int) or (isinstance(good, int) and good):
            continue
        if isinstance(good, int):
            terms.append(here)
            continue
        bad = v.model.new_int_var(0, count, f"missed[kind={kind},class={c},opening={o}]")
        v.model.add(bad >= here - count * good)
        terms.append(bad)
    return sum(terms)


def _wished(v: LayoutVariables, kind: Kind, c: int, o: int) -> Linear:
    """Whether an opening is the one that is wished."""
    shelves = v.shape(c).shelves
    if kind.where != "eye":
        number = {"low": 0, "top": shelves}.get(str(kind.where), kind.where)
        return int(number == o)
    if shelves == 0:
        return 1
    eye, here = v.problem.wishes.eye_level, v.model.new_bool_var(f"eye[{kind.name},{c},{o}]")
    if o > 0:
        v.model.add(v.floor(c, o) <= eye).only_enforce_if(here)
    if o < shelves:
        v.model.add(v.floor(c, o + 1) >= eye + 1).only_enforce_if(here)
    return here


def _out_of_sight(v: LayoutVariables, kind: int, c: int, o: int) -> Linear:
    """Things of a hero kind in an opening whose own middle is not at the height of the eye."""
    floor, terms = v.floor(c, o), list[Linear]()
    for twice, things in sorted(_by_middle(v, kind, c, o).items()):
        middle, here = 2 * floor + twice, sum(things)
        if isinstance(middle, int):
            terms.append(0 if 2 * HERO_LOW <= middle <= 2 * HERO_HIGH else here)
            continue
        name = f"[kind={kind},class={c},opening={o},middle={twice}]"
        seen = v.model.new_bool_var(f"seen{name}")
        v.model.add_linear_constraint(middle, 2 * HERO_LOW, 2 * HERO_HIGH).only_enforce_if(seen)
        count = v.problem.kinds[kind].count
        missed = v.model.new_int_var(0, count, f"unseen{name}")
        v.model.add(missed >= here - count * seen)
        terms.append(missed)
    return sum(terms)


def _by_middle(v: LayoutVariables, kind: int, c: int, o: int) -> dict[int, list[Linear]]:
    """Things of a kind in an opening, by twice the height of their middle over its floor [tick]."""
    things: dict[int, list[Linear]] = defaultdict(list)
    for form in v.by_kind(c, o).get(kind, []):
        for twice in middles(form, 0):
            things[twice].append(v.places(c, o)[form])
    return things


def _safe(v: LayoutVariables, c: int, o: int) -> Linear:
    """Whether a floor is high enough for what is fragile."""
    floor, low = v.floor(c, o), v.problem.wishes.fragile_floor
    if isinstance(floor, int):
        return int(floor >= low)
    safe = v.model.new_bool_var(f"safe[{c},{o}]")
    v.model.add(floor >= low).only_enforce_if(safe)
    return safe
