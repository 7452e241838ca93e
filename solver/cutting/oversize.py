"""Refusals: what is too large for the stock, or too much for it, and what would do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from solver.cutting.constructive_cutting import StockOrder, build_layout
from solver.cutting.cut_tree import Layout, rules_of
from solver.cutting.cutting_problem import (
    CutPart,
    CutSheet,
    CuttingProblem,
    StickPart,
    StickProblem,
    StickStock,
)
from solver.cutting.padded_sizes import PaddedProblem, pad, room
from solver.errors import CannotBeDoneError
from solver.units import Ticks, Unit, with_unit

StockNamed: TypeAlias = CutSheet | StickStock

NAMES_MOST = 8
"""Parts named in one message [-]."""


def refuse_oversize(problem: CuttingProblem) -> None:
    """Raise where a part is larger than every sheet, or there is nothing to cut it from."""
    usable = [s for s in problem.sheets if s.on_hand or s.limit != 0]
    if not problem.parts:
        return
    if not usable:
        raise _no_sheet(problem)
    refuse_nothing_left(problem, usable)
    refuse_too_large(problem, usable)


def _no_sheet(problem: CuttingProblem) -> CannotBeDoneError:
    """Return the error where there is no stock at all: how many sheets would do."""
    wanted = replace(problem, sheets=tuple(replace(s, limit=None) for s in problem.sheets))
    text = "there is no sheet to cut from: none on hand and none may be bought"
    if not wanted.sheets:
        return CannotBeDoneError(text)
    refuse_oversize(wanted)
    padded = pad(wanted)
    left = [kind for kind, one in enumerate(padded.kinds) for _ in one.ids]
    of = ", ".join(sheet.stock for sheet in problem.sheets)
    return CannotBeDoneError(f"{text} ({of}). {_buy(padded, wanted.sheets, left)}")


def refuse_nothing_left(problem: CuttingProblem, usable: Sequence[CutSheet]) -> None:
    """Raise where trimming and margin take all of every sheet, or a saw cut does."""
    if not problem.parts:
        return
    unit, largest = problem.unit, max(usable, key=lambda s: min(s.length, s.width))
    named = f"{largest.stock} ({_size(largest.length, largest.width, unit)}{_lost(problem)})"
    left = min(largest.length, largest.width) - 2 * problem.edge_trim - problem.margin
    if left <= 0:
        msg = f"nothing is left of {named}; trim less, or take a larger sheet"
        raise CannotBeDoneError(msg)
    if problem.kerf >= left:
        msg = (
            f"a saw cut of {with_unit(problem.kerf, unit)} takes all of {named}: "
            f"the kerf must be less than {with_unit(left, unit)}; is its unit right?"
        )
        raise CannotBeDoneError(msg)


def refuse_too_large(problem: CuttingProblem, usable: Sequence[CutSheet]) -> None:
    """Raise where a part is larger than every sheet; say by how much, for all such parts."""
    alike: dict[tuple[Ticks, Ticks, bool], list[CutPart]] = {}
    for part in problem.parts:
        alike.setdefault((part.length, part.width, part.may_turn), []).append(part)
    bad = [some for some in alike.values() if not any(_fits(problem, some[0], s) for s in usable)]
    _raise(
        [_explain(problem, some, usable) for some in bad[:NAMES_MOST]],
        sum(map(len, bad[NAMES_MOST:])),
        "parts are too large",
    )


def _over(problem: CuttingProblem, part: CutPart, sheet: CutSheet, turned: bool) -> tuple[int, int]:
    """Return how much a part is over a sheet along and across it; 0 where it fits [tick]."""
    a, b = (part.width, part.length) if turned else (part.length, part.width)
    extra = problem.kerf + problem.margin
    return (
        max(0, a + extra - room(problem, sheet.length)),
        max(0, b + extra - room(problem, sheet.width)),
    )


def _fits(problem: CuttingProblem, part: CutPart, sheet: CutSheet) -> bool:
    turns = (False, True) if part.may_turn else (False,)
    return any(_over(problem, part, sheet, turned) == (0, 0) for turned in turns)


def _explain(problem: CuttingProblem, alike: Sequence[CutPart], sheets: Sequence[CutSheet]) -> str:
    """Say what parts of one size miss on the sheet that comes nearest to it."""
    part = alike[0]
    turns = (False, True) if part.may_turn else (False,)
    sheet, turned = min(
        ((s, t) for s in sheets for t in turns), key=lambda c: sum(_over(problem, part, *c))
    )
    unit = problem.unit
    along, across = _over(problem, part, sheet, turned)
    short = [f"{with_unit(along, unit)} too long"] if along else []
    short += [f"{with_unit(across, unit)} too wide"] if across else []
    text = (
        f"{part.id} ({_size(part.length, part.width, unit)}{_like(alike)}) is larger "
        "than every sheet: "
        f"{' and '.join(short)}{', turned,' if turned else ''} for {sheet.stock} "
        f"({_size(sheet.length, sheet.width, unit)}{_lost(problem)})"
    )
    if not part.may_turn and any(_over(problem, part, s, turned=True) == (0, 0) for s in sheets):
        text += (
            "; it would fit turned, but its direction is kept: its grain must run along the "
            "sheet's length, or turning is off"
        )
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


def refuse_long(problem: StickProblem) -> None:
    """Raise where a piece is longer than every stick; say by how much."""
    usable = [stick for stick in problem.sticks if stick.on_hand or stick.limit != 0]
    if problem.pieces and not usable:
        msg = "there is no moulding to cut from: none on hand and none may be bought"
        raise CannotBeDoneError(msg)
    refuse_too_long(problem, max((stick.length for stick in usable), default=0))


def refuse_too_long(problem: StickProblem, longest: Ticks) -> None:
    """Raise where a piece is longer than every stick, or a saw cut is; say by how much."""
    unit = problem.unit
    if problem.pieces and problem.kerf >= longest:
        msg = (
            f"a saw cut of {with_unit(problem.kerf, unit)} takes all of the longest stick "
            f"({with_unit(longest, unit)}); is the kerf's unit right?"
        )
        raise CannotBeDoneError(msg)
    alike: dict[Ticks, list[StickPart]] = {}
    for piece in problem.pieces:
        alike.setdefault(piece.length, []).append(piece)
    room = longest - problem.margin
    left = f" less the margin of {with_unit(problem.margin, unit)}" if problem.margin else ""
    bad = [some for length, some in alike.items() if length > room]
    lines = [
        f"{some[0].id} ({with_unit(some[0].length, unit)}{_like(some)}) is "
        f"{with_unit(some[0].length - room, unit)} longer than the longest stick "
        f"({with_unit(longest, unit)}){left}; take a longer stick, or join two pieces"
        for some in bad[:NAMES_MOST]
    ]
    _raise(lines, sum(map(len, bad[NAMES_MOST:])), "pieces are too long")


def _like(alike: Sequence[CutPart | StickPart]) -> str:
    """Say how many more parts are like the first of these."""
    return f", and {len(alike) - 1} more like it" if len(alike) > 1 else ""


def _raise(lines: list[str], more: int, what: str) -> None:
    if lines:
        raise CannotBeDoneError("\n".join([*lines, *([f"and {more} more {what}"] * (more > 0))]))


def refuse_scarce(
    padded: PaddedProblem, stock: Sequence[StockNamed], left: list[int], *, proven: bool
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


def _there(stock: StockNamed) -> str:
    bought = "any number" if stock.limit is None else str(stock.on_hand + stock.limit)
    return f"{bought} of {stock.stock}"


def _buy(padded: PaddedProblem, stock: Sequence[StockNamed], left: list[int]) -> str:
    """Say how many more of one size would surely do."""
    kinds = sorted(set(left))
    demand = {kind: left.count(kind) for kind in kinds}
    enough = []
    for board in padded.boards:
        size = StockOrder(((replace(board, most=None), None),))
        layout = build_layout(padded, rules_of(padded), kinds, size, demand)
        if isinstance(layout, Layout):
            enough.append((len(layout.sheets), stock[board.source].stock))
    if not enough:
        return "Buy more of each size"
    count, name = min(enough)
    return f"{count} more of {name} would do"
