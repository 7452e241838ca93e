"""Held decisions as rules of the model, and how far a layout is from the one before it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction
from math import gcd

from solver.layout.layout_problem import EmptyHeld, Holding, MarkHeld, ThingsHeld
from solver.layout.objective import Objective
from solver.layout.variables import LayoutVariables, Linear


def held_as_decided(v: LayoutVariables) -> None:
    """Shelves and things that are held are where they are held.

    Bays taken together are a relaxation, and go without: what is held tells them apart.
    """
    holding = v.problem.holding
    if v.merge:
        return
    for one in holding.held:
        hold_one(v, one)
    if holding.fixed:
        all_marks_kept(v, holding)
    if holding.stay:
        all_things_stay(v, holding)


def hold_one(v: LayoutVariables, one: MarkHeld | ThingsHeld | EmptyHeld) -> None:
    """Add one held decision; what names a shelf that is not there cannot be kept."""
    home = homes(v)
    if isinstance(one, MarkHeld):
        if one.bay not in home or one.shelf > v.shape(home[one.bay]).shelves:
            v.model.add_bool_or([])
        else:
            v.model.add(v.mark(home[one.bay], one.shelf) == one.mark)
        return
    if isinstance(one, EmptyHeld):
        _keep_empty(v, one)
        return
    there = [v.count(one.kind, home[bay], opening) for bay, opening in one.openings]
    if there:
        v.model.add(sum(there) >= one.least)
    else:
        v.model.add_bool_or([])


def _keep_empty(v: LayoutVariables, one: EmptyHeld) -> None:
    """Nothing stands in the opening; one that is not there cannot be kept empty."""
    home = homes(v)
    if one.bay not in home or one.opening >= v.shape(home[one.bay]).openings:
        v.model.add_bool_or([])
        return
    for kind in range(len(v.problem.kinds)):
        v.model.add(v.count(kind, home[one.bay], one.opening) == 0)


def all_marks_kept(v: LayoutVariables, holding: Holding) -> None:
    """Every shelf that was there before is where it was."""
    for bay, shelf, before in _marks(v, holding):
        v.model.add(v.mark(homes(v)[bay], shelf) == before)


def all_things_stay(v: LayoutVariables, holding: Holding) -> None:
    """Every thing that stood in an opening before still stands there."""
    if holding.before is not None:
        v.model.add(things_moved(v).expression <= 0)


def homes(v: LayoutVariables) -> dict[int, int]:
    """The class of each bay, in a model that takes each bay by itself."""
    return {bay: c for c, one in enumerate(v.classes) for bay in one.bays}


def _marks(v: LayoutVariables, holding: Holding) -> Iterator[tuple[int, int, int]]:
    """Bay and number of each shelf that was there before, and its mark then."""
    home = homes(v)
    for (bay, shelf), before in holding.before.marks if holding.before else ():
        if bay in home and shelf <= v.shape(home[bay]).shelves:
            yield bay, shelf, before


def marks_moved(v: LayoutVariables) -> Objective:
    """How far the shelves are from where they were, all together [tick]."""
    unit = gcd(*(one.shape.step for one in v.classes))
    terms: list[Linear] = []
    home = homes(v)
    for bay, shelf, mark in _marks(v, v.problem.holding):
        shape = v.shape(home[bay])
        most = (shape.floor + shape.inside) // shape.step + 1
        way = v.model.new_int_var(0, most, f"moved[bay={bay},shelf={shelf}]")
        v.model.add(way >= v.mark(home[bay], shelf) - mark)
        v.model.add(way >= mark - v.mark(home[bay], shelf))
        terms.append(shape.step // unit * way)
    return Objective(sum(terms), Fraction(unit))


def things_moved(v: LayoutVariables) -> Objective:
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
    return Objective(sum(terms), Fraction(1))


def _by_kind(v: LayoutVariables) -> dict[int, list[tuple[Linear, int]]]:
    """How many of each kind stand now where so many stood before, opening by opening."""
    home, before = homes(v), v.problem.holding.before
    spots: dict[int, list[tuple[Linear, int]]] = defaultdict(list)
    for (kind, bay, opening), count in before.things if before else ():
        spots[kind].append((v.count(kind, home[bay], opening), count))
    return spots
