"""Changes of what parts are: turned across the grain, or joined of two pieces."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from solver.advice.changes import SIDES, STEP, Change, Side, ids
from solver.advice.lots import Lot, Problem
from solver.advice.sizes import measure
from solver.cutting.problem import CutPart, CuttingProblem
from solver.stocked import Part
from solver.units import Ticks, Unit, inches, mm, round_up

JOINT: dict[Unit, dict[Side, Ticks]] = {
    "in": {"length": inches(1), "width": inches("1/8")},
    "mm": {"length": mm(25), "width": mm(3)},
}
"""What a part in two pieces has more: a lap in its length, the truing of both glued edges in
its width (common practice) [tick]."""

PIECE_LEAST: dict[Unit, dict[Side, Ticks]] = {
    "in": {"length": inches(12), "width": inches(3)},
    "mm": {"length": mm(300), "width": mm(75)},
}
"""Least length and width of one of two pieces (common practice) [tick]."""


def turn(index: int, lot: Lot, groups: Sequence[Sequence[Part]], *, alike: bool) -> list[Change]:
    """Parts of one name may lie across the grain, as many of them as help, or all `alike`."""
    problem = lot.problem
    if not isinstance(problem, CuttingProblem):
        return []
    fixed = {p.id for p in problem.parts if not p.may_turn and p.length != p.width}
    named = [tuple(part.id for part in group if part.id in fixed) for group in groups]
    return [
        Change("grain", (index,), names, _amounts(names, alike=alike), _turner(names))
        for names in named
        if names
    ]


def all_turned(lot: Lot, groups: Sequence[Sequence[Part]]) -> Problem:
    """Return the problem with all parts free to lie across that any change would turn."""
    names = tuple(part.id for group in groups for part in group)
    return _turner(names)(lot.problem, len(names))


def _turner(names: tuple[str, ...]) -> Callable[[Problem, int], Problem]:
    def apply(problem: Problem, count: int) -> Problem:
        assert isinstance(problem, CuttingProblem)
        some = frozenset(names[:count])
        parts = tuple(replace(p, may_turn=True) if p.id in some else p for p in problem.parts)
        return replace(problem, parts=parts)

    return apply


def _amounts(names: Sequence[str], *, alike: bool) -> tuple[int, ...]:
    """How many parts may change: any number of them, or all [-]."""
    return (len(names),) if alike else tuple(range(1, len(names) + 1))


def in_two(
    index: int, lot: Lot, groups: Sequence[Sequence[Part]], unit: Unit, *, alike: bool
) -> list[Change]:
    """Parts of one name in two equal pieces each, joined in their length or in their width."""
    if not isinstance(lot.problem, CuttingProblem):
        return []
    listed = set(ids(lot.problem))
    found = []
    for group in groups:
        some = [part for part in group if part.id in listed]
        for side in SIDES:
            if some and half(measure(some[0], side), side, unit) >= PIECE_LEAST[unit][side]:
                names = tuple(part.id for part in some)
                amounts = _amounts(names, alike=alike)
                apply = _halver(some, side, unit)
                found.append(Change("two pieces", (index,), names, amounts, apply, side=side))
    return found


def half(size: Ticks, side: Side, unit: Unit) -> Ticks:
    """Return the size of each of two equal pieces, with its share of the joint [tick]."""
    return round_up(-(-(size + JOINT[unit][side]) // 2), STEP[unit])


def _halver(some: Sequence[Part], side: Side, unit: Unit) -> Callable[[Problem, int], Problem]:
    def halves(part: CutPart, like: Part) -> list[CutPart]:
        size = half(measure(like, side), side, unit)
        along = (side == "length") != (like.grain == "width")
        made = replace(part, length=size) if along else replace(part, width=size)
        return [replace(made, id=f"{part.id}, piece {number}") for number in (1, 2)]

    def apply(problem: Problem, count: int) -> Problem:
        assert isinstance(problem, CuttingProblem)
        chosen = {part.id: part for part in some[:count]}
        parts: list[CutPart] = []
        for part in problem.parts:
            like = chosen.get(part.id)
            parts += [part] if like is None else halves(part, like)
        return replace(problem, parts=tuple(parts))

    return apply
