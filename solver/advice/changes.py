"""The small changes that may be tried: how each changes a problem, by how much at most.

A change has amounts, least disturbance first; what one amount saves, every later one
saves as well, so that the smallest is found by halving.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from solver.advice.lots import Lot, Problem
from solver.cutting.problem import CutPart, CuttingProblem
from solver.plan import Part
from solver.units import Ticks, Unit, inches, mm, round_down, round_up

What: TypeAlias = Literal["shorter", "narrower", "kerf", "edge trim", "grain", "two pieces"]

STEP: dict[Unit, Ticks] = {"in": inches("1/32"), "mm": mm("0.5")}
"""Parts are made smaller by whole steps [tick]."""

RESIZE_MOST: dict[Unit, Ticks] = {"in": inches("1/2"), "mm": mm(12)}
"""Parts are made smaller by no more than this [tick], nor by more than `RESIZE_SHARE`."""

RESIZE_SHARE = 33
"""A part is made smaller by at most one such part of its size: 3 in a hundred [-]."""

BLADES: dict[Unit, tuple[Ticks, ...]] = {
    "in": tuple(inches(text) for text in ("3/32", "5/64", "1/16")),
    "mm": tuple(mm(text) for text in ("2.4", "2.0", "1.6")),
}
"""Thin-kerf table saw blade, guided saw, cordless saw: saw.coach 3245, and practice [tick]."""

JOINT: dict[Unit, tuple[Ticks, Ticks]] = {
    "in": (inches(1), inches("1/8")),
    "mm": (mm(25), mm(3)),
}
"""What a part in two pieces has more: a lap in its length, truing of both glued edges in its
width; practice of the trade [tick]."""

PIECE_LEAST: dict[Unit, tuple[Ticks, Ticks]] = {
    "in": (inches(12), inches(3)),
    "mm": (mm(300), mm(75)),
}
"""Least length and width of a part that is one of two pieces [tick]."""


@dataclass(frozen=True)
class Change:
    """One change of the parts of one lot, or of all lots.

    Attributes
    ----------
    lots
        Which lots it changes.
    parts
        Ids of the parts that it changes; empty where it is about the saw.
    amounts
        What `apply` may be given, least disturbance first: how much less, or the blade or
        trim itself [tick], or how many parts [-].
    apply
        Returns the changed problem.
    side
        Which side of the parts it changes, if it does.
    """

    what: What
    lots: tuple[int, ...]
    parts: tuple[str, ...]
    amounts: tuple[int, ...]
    apply: Callable[[Problem, int], Problem]
    side: Literal["length", "width"] = "length"


def blade(lots: list[Lot], unit: Unit) -> list[Change]:
    """A thinner blade for everything, the thickest that does first."""
    kerf = max(lot.problem.kerf for lot in lots)
    amounts = tuple(size for size in BLADES[unit] if size < kerf)
    every = tuple(range(len(lots)))
    return [Change("kerf", every, (), amounts, _with_kerf)] if amounts else []


def _with_kerf(problem: Problem, kerf: Ticks) -> Problem:
    return replace(problem, kerf=min(kerf, problem.kerf))


def trim(lots: list[Lot], unit: Unit) -> list[Change]:
    """Less trimmed off the factory edges: half of it, or none."""
    sheets = [(i, lot.problem) for i, lot in enumerate(lots)]
    trims = [p.edge_trim for _, p in sheets if isinstance(p, CuttingProblem)]
    if not trims or not max(trims):
        return []
    some = tuple(i for i, p in sheets if isinstance(p, CuttingProblem))
    half = round_down(max(trims) // 2, STEP[unit])
    amounts = (half, 0) if half else (0,)
    return [Change("edge trim", some, (), amounts, _with_trim)]


def _with_trim(problem: Problem, size: Ticks) -> Problem:
    assert isinstance(problem, CuttingProblem)
    return replace(problem, edge_trim=min(size, problem.edge_trim))


def resize(index: int, lot: Lot, parts: Mapping[str, Part], unit: Unit) -> list[Change]:
    """All parts of one size shorter or narrower; all parts that share a length, or a width."""
    known = [parts[ident] for ident in ids(lot.problem)]
    sides: tuple[Literal["length", "width"], ...] = ("length", "width")
    if not isinstance(lot.problem, CuttingProblem):
        sides = ("length",)
    found: dict[tuple[str, tuple[str, ...]], Change] = {}
    for side in sides:
        by_size: dict[tuple[int, ...], list[Part]] = {}
        for part in known:
            by_size.setdefault((part.length, part.width), []).append(part)
            by_size.setdefault((getattr(part, side),), []).append(part)
        for some in by_size.values():
            change = _resized(index, some, side, unit)
            if change.amounts:
                found.setdefault((side, change.parts), change)
    return sorted(found.values(), key=lambda change: len(change.parts))


def _resized(index: int, some: list[Part], side: Literal["length", "width"], unit: Unit) -> Change:
    size = some[0].length if side == "length" else some[0].width
    steps = min(RESIZE_MOST[unit], size // RESIZE_SHARE) // STEP[unit]
    names = tuple(part.id for part in some)
    across = frozenset(part.id for part in some if part.grain == "width")

    def apply(problem: Problem, by: Ticks) -> Problem:
        return smaller(problem, frozenset(names), across, side, by)

    amounts = tuple(n * STEP[unit] for n in range(1, steps + 1))
    what: What = "shorter" if side == "length" else "narrower"
    return Change(what, (index,), names, amounts, apply, side)


def smaller(
    problem: Problem, some: frozenset[str], across: frozenset[str], side: str, by: Ticks
) -> Problem:
    """Return the problem with some parts smaller by `by` [tick] on one of the part's own sides.

    Parts in `across` have their grain along their width, and lie with it along the sheet.
    """
    if not isinstance(problem, CuttingProblem):
        pieces = tuple(
            replace(p, length=p.length - by) if p.id in some else p for p in problem.pieces
        )
        return replace(problem, pieces=pieces)

    def one(part: CutPart) -> CutPart:
        if part.id not in some:
            return part
        if (side == "length") != (part.id in across):
            return replace(part, length=part.length - by)
        return replace(part, width=part.width - by)

    return replace(problem, parts=tuple(one(part) for part in problem.parts))


def turn(index: int, lot: Lot, groups: list[list[Part]]) -> list[Change]:
    """Parts of one name may lie across the grain: one of them, or more."""
    problem = lot.problem
    if not isinstance(problem, CuttingProblem):
        return []
    fixed = {p.id for p in problem.parts if not p.may_turn and p.length != p.width}
    found = []
    for group in groups:
        names = tuple(part.id for part in group if part.id in fixed)
        if names:
            found.append(Change("grain", (index,), names, (len(names),), _turner(names)))
    return found


def _turner(names: tuple[str, ...]) -> Callable[[Problem, int], Problem]:
    def apply(problem: Problem, count: int) -> Problem:
        assert isinstance(problem, CuttingProblem)
        some = frozenset(names[:count])
        parts = tuple(replace(p, may_turn=True) if p.id in some else p for p in problem.parts)
        return replace(problem, parts=parts)

    return apply


def in_two(index: int, lot: Lot, groups: list[list[Part]], unit: Unit) -> list[Change]:
    """Parts of one name in two equal pieces each, joined in their length or their width."""
    if not isinstance(lot.problem, CuttingProblem):
        return []
    listed = set(ids(lot.problem))
    found = []
    for group in groups:
        names = tuple(part.id for part in group if part.id in listed)
        across = frozenset(part.id for part in group if part.grain == "width")
        sides: tuple[Literal["length", "width"], ...] = ("length", "width")
        for side in sides:
            sizes = [half(getattr(part, side), side, unit) for part in group]
            if names and min(sizes) >= PIECE_LEAST[unit][side == "width"]:
                apply = _halver(names, across, side, unit)
                amounts = tuple(range(1, len(names) + 1))
                found.append(Change("two pieces", (index,), names, amounts, apply, side))
    return found


def half(size: Ticks, side: str, unit: Unit) -> Ticks:
    """Return the size of each of two equal pieces, with its share of the joint [tick]."""
    return round_up(-(-(size + JOINT[unit][side == "width"]) // 2), STEP[unit])


def _halver(
    names: tuple[str, ...], across: frozenset[str], side: str, unit: Unit
) -> Callable[[Problem, int], Problem]:
    def apply(problem: Problem, count: int) -> Problem:
        assert isinstance(problem, CuttingProblem)
        some = frozenset(names[:count])
        parts: list[CutPart] = []
        for part in problem.parts:
            if part.id in some:
                parts += _halves(part, (side == "length") != (part.id in across), side, unit)
            else:
                parts.append(part)
        return replace(problem, parts=tuple(parts))

    return apply


def _halves(part: CutPart, lengthwise: bool, side: str, unit: Unit) -> list[CutPart]:
    if lengthwise:
        made = replace(part, length=half(part.length, side, unit))
    else:
        made = replace(part, width=half(part.width, side, unit))
    return [replace(made, id=f"{part.id}/{n}") for n in (1, 2)]


def ids(problem: Problem) -> list[str]:
    """Return the names of the parts of a problem."""
    if isinstance(problem, CuttingProblem):
        return [part.id for part in problem.parts]
    return [piece.id for piece in problem.pieces]
