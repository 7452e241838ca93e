"""Held decisions as rules of the model, and how far a layout is from the one before it."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from fractions import Fraction
from math import gcd

from solver.layout.goal import Goal
from solver.layout.layout_problem import EmptyHeld, Holding, MarkHeld, ThingsHeld
from solver.layout.variables import LayoutVariables, Linear


def held_as_decided(v: LayoutVariables) -> None:
    """Shelves and things that are held are where they are held.

    Relaxations go without: what is held tells bays and openings apart.
    """
    holding = v.problem.holding
    if v.merge or v.ranked:
        return
    for one in holding.held:
        hold_one(v, one)
    if holding.fixed:
        all_marks_kept(v, holding)
    if holding.stay:
        all_things_stay(v, holding)


def hold_one(v: LayoutVariables, one: MarkHeld | ThingsHeld | EmptyHeld) -> None:
    """Add one held decision; what names a shelf that is not there cannot be kept."""
    if isinstance(one, MarkHeld):
        if one.bay not in v.home or one.shelf > v.shape(v.home[one.bay]).shelves:
            v.model.add_bool_or([])
        else:
            v.model.add(v.mark(v.home[one.bay], one.shelf) == one.mark)
        return
    if isinstance(one, EmptyHeld):
        if one.bay not in v.home or one.opening >= v.shape(v.home[one.bay]).openings:
            v.model.add_bool_or([])
        else:
            v.model.add(sum(v.places(v.home[one.bay], one.opening).values()) == 0)
        return
    there = [v.count(one.kind, v.home[bay], opening) for bay, opening in one.openings]
    if there:
        v.model.add(sum(there) >= one.least)
    else:
        v.model.add_bool_or([])


def all_marks_kept(v: LayoutVariables, holding: Holding) -> None:
    """Every shelf that was there before is where it was."""
    for bay, shelf, before in _marks(v, holding):
        v.model.add(v.mark(v.home[bay], shelf) == before)


def all_things_stay(v: LayoutVariables, holding: Holding) -> None:
    """Every thing that stood in an opening before still stands there."""
    if holding.before is not None:
        v.model.add(things_moved(v).expression <= 0)


def _marks(v: LayoutVariables, holding: Holding) -> Iterator[tuple[int, int, int]]:
    """Bay and number of each shelf that was there before, and its mark then."""
    for (bay, shelf), before in holding.before.marks if holding.before else ():
        if bay in v.home and shelf <= v.shape(v.home[bay]).shelves:
            yield bay, shelf, before


def marks_moved(v: LayoutVariables) -> Goal:
    """How far the shelves are from where they were, all together [tick]."""
    unit = gcd(*(one.shape.step for one in v.classes))
    terms: list[Linear] = []
    for bay, shelf, mark in _marks(v, v.problem.holding):
        shape = v.shape(v.home[bay])
        most = (shape.floor + shape.inside) // shape.step + 1
        way = v.model.new_int_var(0, most, f"moved[bay={bay},shelf={shelf}]")
        v.model.add(way >= v.mark(v.home[bay], shelf) - mark)
        v.model.add(way >= mark - v.mark(v.home[bay], shelf))
        terms.append(shape.step // unit * way)
    return Goal(sum(terms), Fraction(unit))


def things_moved(v: LayoutVariables) -> Goal:
    """How many things stand in another opening than before.

    Of a kind that has become fewer, those that are no more have not moved.
    """
    terms: list[Linear] = []
    for kind, spots in _by_kind(v).items():
        here = v.problem.kinds[kind].count
        terms.append(min(0, here - sum(before for _, before in spots)))
        for number, (now, before) in enumerate(spots):
            gone = v.model.new_int_var(0, before, f"gone[kind={kind},spot={number}]")
            v.model.add(gone >= before - now)
            terms.append(gone)
    return Goal(sum(terms))


def places_turned(v: LayoutVariables) -> Goal:
    """How many places are gone of kinds that may stand in several ways, in the openings before."""
    before = v.problem.holding.before
    terms: list[Linear] = []
    for (bay, opening), row in before.rows if before else ():
        places = v.places(v.home[bay], opening)
        for form, count in Counter(form for form, _ in row.places).items():
            if len(v.problem.kinds[form.kind].forms) > 1:
                number = v.problem.kinds[form.kind].forms.index(form)
                gone = v.model.new_int_var(
                    0, count, f"turned[{form.kind},form={number},bay={bay},opening={opening}]"
                )
                v.model.add(gone >= count - places.get(form, 0))
                terms.append(gone)
    return Goal(sum(terms))


def _by_kind(v: LayoutVariables) -> dict[int, list[tuple[Linear, int]]]:
    """How many of each kind stand now where so many stood before, opening by opening."""
    before = v.problem.holding.before
    spots: dict[int, list[tuple[Linear, int]]] = defaultdict(list)
    for (kind, bay, opening), count in before.things if before else ():
        spots[kind].append((v.count(kind, v.home[bay], opening), count))
    return spots
