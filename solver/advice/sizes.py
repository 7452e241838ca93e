"""Changes of size: all parts of one size shorter or narrower, or all that share a measure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from solver.advice.changes import SIDES, STEP, Change, Side, What, ids
from solver.advice.lots import Lot, Problem
from solver.cutting.problem import CutPart, CuttingProblem
from solver.stocked import Part
from solver.units import Ticks, Unit, inches, mm

RESIZE_MOST: dict[Unit, Ticks] = {"in": inches("1/2"), "mm": mm(12)}
"""Parts are made smaller by no more than this [tick], nor by more than `RESIZE_SHARE`."""

RESIZE_SHARE = 33
"""A part is made smaller by at most one such part of its size: 3 in a hundred [-]."""


def resize(index: int, lot: Lot, parts: Mapping[str, Part], unit: Unit) -> list[Change]:
    """All parts of one size smaller, or all that share a length or a width; fewest parts first."""
    known = [parts[ident] for ident in ids(lot.problem)]
    sides = SIDES if isinstance(lot.problem, CuttingProblem) else SIDES[:1]
    found: dict[tuple[Side, tuple[str, ...]], Change] = {}
    for side in sides:
        groups: dict[tuple[Ticks, ...], list[Part]] = {}
        for part in known:
            groups.setdefault((part.length, part.width), []).append(part)
            groups.setdefault((measure(part, side),), []).append(part)
        for some in groups.values():
            change = _change(index, some, side, unit)
            if change.amounts:
                found.setdefault((side, change.parts), change)
    return sorted(found.values(), key=lambda change: len(change.parts))


def all_smaller(lot: Lot, parts: Mapping[str, Part], unit: Unit) -> Problem:
    """Return the problem with every part as small as any change of size makes it.

    Where that saves nothing, no change of size does.
    """
    problem = lot.problem
    known = {ident: parts[ident] for ident in ids(problem)}
    sides = SIDES if isinstance(problem, CuttingProblem) else SIDES[:1]
    for side in sides:
        groups: dict[Ticks, list[Part]] = {}
        for part in known.values():
            groups.setdefault(_most(part, side, unit), []).append(part)
        for most, some in groups.items():
            problem = smaller(some, side)(problem, most)
    return problem


def _most(part: Part, side: Side, unit: Unit) -> Ticks:
    """How much smaller a part may get on one side, in whole steps [tick]."""
    most = min(RESIZE_MOST[unit], measure(part, side) // RESIZE_SHARE)
    return most // STEP[unit] * STEP[unit]


def measure(part: Part, side: Side) -> Ticks:
    """Return the length or the width of a part [tick]."""
    return part.length if side == "length" else part.width


def _change(index: int, some: list[Part], side: Side, unit: Unit) -> Change:
    amounts = tuple(range(STEP[unit], _most(some[0], side, unit) + 1, STEP[unit]))
    names = tuple(part.id for part in some)
    what: What = "shorter" if side == "length" else "narrower"
    return Change(what, (index,), names, amounts, smaller(some, side), side=side)


def smaller(some: list[Part], side: Side) -> Callable[[Problem, Ticks], Problem]:
    """Return what makes these parts smaller on one of their own sides.

    A part whose grain runs along its width lies with its width along the sheet.
    """
    along = {part.id: (side == "length") != (part.grain == "width") for part in some}

    def one(part: CutPart, by: Ticks) -> CutPart:
        if part.id not in along:
            return part
        if along[part.id]:
            return replace(part, length=part.length - by)
        return replace(part, width=part.width - by)

    def apply(problem: Problem, by: Ticks) -> Problem:
        if isinstance(problem, CuttingProblem):
            return replace(problem, parts=tuple(one(part, by) for part in problem.parts))
        return replace(
            problem,
            pieces=tuple(
                replace(piece, length=piece.length - by) if piece.id in along else piece
                for piece in problem.pieces
            ),
        )

    return apply
