"""Candidates for changes that save stock: parts smaller, turned or joined, the saw, the stock."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from solver.changes.change_models import SIDES, STEP, Change, Lot, Problem, Side, What, ids
from solver.cutting.cutting_problem import CutPart, CuttingProblem
from solver.plan.stocked import Part
from solver.units import Ticks, Unit, inches, mm, round_down, round_up

BLADES: dict[Unit, tuple[Ticks, ...]] = {
    "in": tuple(inches(text) for text in ("3/32", "5/64", "1/16")),
    "mm": tuple(mm(text) for text in ("2.4", "2.0", "1.6")),
}
"""Thin-kerf table saw blade (3/32 in: saw.coach 3245), guided saw and cordless saw (common
practice) [tick]."""


def blade_changes(lots: Sequence[Lot], unit: Unit) -> list[Change]:
    """Return a thinner blade for everything, the thickest first."""
    kerf = max(lot.problem.kerf for lot in lots)
    amounts = tuple(size for size in BLADES[unit] if size < kerf)
    every = tuple(range(len(lots)))
    return [Change("kerf", every, (), amounts, _with_kerf, kerf)] if amounts else []


def _with_kerf(problem: Problem, kerf: Ticks) -> Problem:
    return replace(problem, kerf=min(kerf, problem.kerf))


def trim_changes(lots: Sequence[Lot], unit: Unit) -> list[Change]:
    """Return less trim off the factory edges: half of it, or none."""
    trims = {
        i: lot.problem.edge_trim
        for i, lot in enumerate(lots)
        if isinstance(lot.problem, CuttingProblem)
    }
    now = max(trims.values(), default=0)
    if not now:
        return []
    half = round_down(now // 2, STEP[unit])
    amounts = (half, 0) if half else (0,)
    return [Change("edge trim", tuple(trims), (), amounts, _with_trim, now)]


def _with_trim(problem: Problem, size: Ticks) -> Problem:
    assert isinstance(problem, CuttingProblem)
    return replace(problem, edge_trim=min(size, problem.edge_trim))


def more_of_a_size(index: int, lot: Lot) -> list[Change]:
    """Return more of a size that has a price, where its number is limited."""
    problem = lot.problem
    if not isinstance(problem, CuttingProblem) or not lot.priced:
        return []
    return [
        Change(
            "more of a size",
            (index,),
            (),
            tuple(range(sheet.limit + 1, len(problem.parts) + 1)),
            _with_more(at),
            sheet.limit,
            stock=sheet.stock,
        )
        for at, sheet in enumerate(problem.sheets)
        if sheet.limit is not None and sheet.limit < len(problem.parts)
    ]


def _with_more(at: int) -> Callable[[Problem, int], Problem]:
    def apply(problem: Problem, limit: int) -> Problem:
        assert isinstance(problem, CuttingProblem)
        sheets = list(problem.sheets)
        sheets[at] = replace(sheets[at], limit=limit)
        return replace(problem, sheets=tuple(sheets))

    return apply


RESIZE_MOST: dict[Unit, Ticks] = {"in": inches("1/2"), "mm": mm(12)}
"""Parts are made smaller by no more than this [tick], nor by more than `RESIZE_SHARE`."""

RESIZE_SHARE = 33
"""A part is made smaller by at most one such part of its size: 3 in a hundred [-]."""


def size_changes(index: int, lot: Lot, parts: Mapping[str, Part], unit: Unit) -> list[Change]:
    """Return all parts of one size, or of one length or width, made smaller; fewest parts first."""
    known = [parts[ident] for ident in ids(lot.problem)]
    sides = SIDES if isinstance(lot.problem, CuttingProblem) else SIDES[:1]
    changes: dict[tuple[Side, tuple[str, ...]], Change] = {}
    for side in sides:
        groups: dict[tuple[Ticks, ...], list[Part]] = {}
        for part in known:
            groups.setdefault((part.length, part.width), []).append(part)
            groups.setdefault((measure(part, side),), []).append(part)
        for some in groups.values():
            change = _change(index, some, side, unit)
            if change.amounts:
                changes.setdefault((side, change.parts), change)
    return sorted(changes.values(), key=lambda change: len(change.parts))


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
    """Return how much smaller a part may get on one side, in whole steps [tick]."""
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


JOINT: dict[Unit, dict[Side, Ticks]] = {
    "in": {"length": inches(1), "width": inches("1/8")},
    "mm": {"length": mm(25), "width": mm(3)},
}
"""Added to a part in two pieces: a lap in its length, the truing of both glued edges in its
width (common practice) [tick]."""

PIECE_LEAST: dict[Unit, dict[Side, Ticks]] = {
    "in": {"length": inches(12), "width": inches(3)},
    "mm": {"length": mm(300), "width": mm(75)},
}
"""Least length and width of one of two pieces (common practice) [tick]."""


def turn_changes(
    index: int, lot: Lot, groups: Sequence[Sequence[Part]], *, alike: bool
) -> list[Change]:
    """Return parts of one name turned across the grain, as many as help, or all (`alike`)."""
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
    """Return the problem with all parts turned that any change would turn."""
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
    """Return how many parts may change: any number of them, or all [-]."""
    return (len(names),) if alike else tuple(range(1, len(names) + 1))


def halving_changes(
    index: int, lot: Lot, groups: Sequence[Sequence[Part]], unit: Unit, *, alike: bool
) -> list[Change]:
    """Return parts of one name in two equal pieces, joined in their length or their width."""
    if not isinstance(lot.problem, CuttingProblem):
        return []
    listed = set(ids(lot.problem))
    changes = []
    for group in groups:
        some = [part for part in group if part.id in listed]
        for side in SIDES:
            if some and half(measure(some[0], side), side, unit) >= PIECE_LEAST[unit][side]:
                names = tuple(part.id for part in some)
                amounts = _amounts(names, alike=alike)
                apply = _halver(some, side, unit)
                changes.append(Change("two pieces", (index,), names, amounts, apply, side=side))
    return changes


def half(size: Ticks, side: Side, unit: Unit) -> Ticks:
    """Return the size of each of two equal pieces, with its share of the joint [tick]."""
    return round_up(-(-(size + JOINT[unit][side]) // 2), STEP[unit])


def _halver(some: Sequence[Part], side: Side, unit: Unit) -> Callable[[Problem, int], Problem]:
    def halves(part: CutPart, like: Part) -> list[CutPart]:
        size = half(measure(like, side), side, unit)
        along = (side == "length") != (like.grain == "width")
        piece = replace(part, length=size) if along else replace(part, width=size)
        return [replace(piece, id=f"{part.id}, piece {number}") for number in (1, 2)]

    def apply(problem: Problem, count: int) -> Problem:
        assert isinstance(problem, CuttingProblem)
        chosen = {part.id: part for part in some[:count]}
        parts: list[CutPart] = []
        for part in problem.parts:
            like = chosen.get(part.id)
            parts += [part] if like is None else halves(part, like)
        return replace(problem, parts=tuple(parts))

    return apply
