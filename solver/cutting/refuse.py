"""What cannot be cut, why, and what would do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from solver.cutting.construct import Stock, build
from solver.cutting.layout import Layout, rules_of
from solver.cutting.padded import Padded, room
from solver.cutting.problem import CutPart, CutSheet, CuttingProblem, StickProblem, StickStock
from solver.errors import CannotBeDoneError
from solver.units import Unit, with_unit

StockNamed: TypeAlias = CutSheet | StickStock

NAMES_MOST = 8
"""Parts named in one message [-]."""


def refuse_oversize(problem: CuttingProblem) -> None:
    """Raise where a part is larger than every sheet; say by how much, for all such parts."""
    usable = [s for s in problem.sheets if s.on_hand or s.limit != 0]
    if problem.parts and not usable:
        msg = "there is no sheet to cut from: none on hand and none may be bought"
        raise CannotBeDoneError(msg)
    bad = [p for p in problem.parts if not any(_fits(problem, p, s) for s in usable)]
    if bad:
        lines = [_explain(problem, part, usable) for part in bad[:NAMES_MOST]]
        if len(bad) > NAMES_MOST:
            lines.append(f"and {len(bad) - NAMES_MOST} more parts are too large")
        raise CannotBeDoneError("\n".join(lines))


def _over(problem: CuttingProblem, part: CutPart, sheet: CutSheet, turned: bool) -> tuple[int, int]:
    """How much the part is over the sheet along and across it; 0 where it fits [tick]."""
    a, b = (part.width, part.length) if turned else (part.length, part.width)
    extra = problem.kerf + problem.margin
    return (
        max(0, a + extra - room(problem, sheet.length)),
        max(0, b + extra - room(problem, sheet.width)),
    )


def _fits(problem: CuttingProblem, part: CutPart, sheet: CutSheet) -> bool:
    turns = (False, True) if part.may_turn else (False,)
    return any(_over(problem, part, sheet, turned) == (0, 0) for turned in turns)


def _explain(problem: CuttingProblem, part: CutPart, sheets: list[CutSheet]) -> str:
    """Say what the part misses on the sheet that comes nearest to it."""
    turns = (False, True) if part.may_turn else (False,)
    sheet, turned = min(
        ((s, t) for s in sheets for t in turns), key=lambda c: sum(_over(problem, part, *c))
    )
    unit = problem.unit
    along, across = _over(problem, part, sheet, turned)
    short = [f"{with_unit(along, unit)} too long"] if along else []
    short += [f"{with_unit(across, unit)} too wide"] if across else []
    text = (
        f"{part.id} ({_size(part.length, part.width, unit)}) is larger than every sheet: "
        f"{' and '.join(short)} for {sheet.stock} "
        f"({_size(sheet.length, sheet.width, unit)}{_lost(problem)})"
    )
    if not part.may_turn and any(_over(problem, part, s, turned=True) == (0, 0) for s in sheets):
        text += "; it would fit turned, but its grain must run along the sheet"
    return text + "; take a larger sheet, or make the part in two"


def _size(length: int, width: int, unit: Unit) -> str:
    return f"{with_unit(length, unit)} x {with_unit(width, unit)}"


def _lost(problem: CuttingProblem) -> str:
    """Name the trim and margin that make the sheet smaller."""
    unit = problem.unit
    lost = []
    if problem.edge_trim:
        lost.append(f"{with_unit(problem.edge_trim, unit)} trimmed off each edge")
    if problem.margin:
        lost.append(f"{with_unit(problem.margin, unit)} margin")
    return "".join(f", {what}" for what in lost)


def refuse_scarce(
    padded: Padded, stock: Sequence[StockNamed], left: list[int], *, proven: bool
) -> CannotBeDoneError:
    """Return the error for stock that runs out: which parts are left, and what to buy.

    Parameters
    ----------
    stock
        The sheets or sticks, as in the problem.
    left
        Kind of each part that is left over [-].
    proven
        Whether the stock is too small for certain.
    """
    names = [padded.kinds[kind].ids[-1 - left[:i].count(kind)] for i, kind in enumerate(left)]
    shown = ", ".join(sorted(names)[:NAMES_MOST])
    more = f" and {len(names) - NAMES_MOST} more" if len(names) > NAMES_MOST else ""
    there = ", ".join(_there(one) for one in stock)
    why = "is too small for all parts" if proven else "was not found to do for all parts"
    return CannotBeDoneError(
        f"the stock ({there}) {why}; left over: {shown}{more}. {_buy(padded, stock, left)}"
    )


def _there(one: StockNamed) -> str:
    bought = "any number" if one.limit is None else str(one.on_hand + one.limit)
    return f"{bought} of {one.stock}"


def _buy(padded: Padded, stock: Sequence[StockNamed], left: list[int]) -> str:
    """Say how many more of one size would surely do."""
    kinds = sorted(set(left))
    demand = {kind: left.count(kind) for kind in kinds}
    found = []
    for board in padded.boards:
        size = Stock(((replace(board, most=None), None),))
        layout = build(padded, rules_of(padded), kinds, size, demand)
        if isinstance(layout, Layout):
            found.append((len(layout.sheets), stock[board.source].stock))
    if not found:
        return "Buy more of each size"
    count, name = min(found)
    return f"{count} more of {name} would do"


def refuse_long(problem: StickProblem) -> None:
    """Raise where a piece is longer than every stick; say by how much."""
    usable = [stick for stick in problem.sticks if stick.on_hand or stick.limit != 0]
    if problem.pieces and not usable:
        msg = "there is no moulding to cut from: none on hand and none may be bought"
        raise CannotBeDoneError(msg)
    longest = max((stick.length for stick in usable), default=0)
    lines = [
        f"{piece.id} ({with_unit(piece.length, problem.unit)}) is "
        f"{with_unit(piece.length - longest, problem.unit)} longer than the longest stick "
        f"({with_unit(longest, problem.unit)}); take a longer stick, or join two pieces"
        for piece in problem.pieces
        if piece.length > longest
    ]
    if len(lines) > NAMES_MOST:
        lines[NAMES_MOST:] = [f"and {len(lines) - NAMES_MOST} more pieces are too long"]
    if lines:
        raise CannotBeDoneError("\n".join(lines))
