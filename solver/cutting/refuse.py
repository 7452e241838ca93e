"""What cannot be cut, why, and what would do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from solver.cutting.construct import Stock, build
from solver.cutting.layout import Layout, rules_of
from solver.cutting.padded import Padded, pad
from solver.cutting.problem import CutSheet, CuttingProblem, StickProblem, StickStock
from solver.cutting.too_large import (
    NAMES_MOST,
    refuse_nothing_left,
    refuse_too_large,
    refuse_too_long,
)
from solver.errors import CannotBeDoneError

StockNamed: TypeAlias = CutSheet | StickStock


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
    """Return the error for stock of which there is none: how many would do."""
    wanted = replace(problem, sheets=tuple(replace(s, limit=None) for s in problem.sheets))
    text = "there is no sheet to cut from: none on hand and none may be bought"
    if not wanted.sheets:
        return CannotBeDoneError(text)
    refuse_oversize(wanted)
    padded = pad(wanted)
    left = [kind for kind, one in enumerate(padded.kinds) for _ in one.ids]
    of = ", ".join(sheet.stock for sheet in problem.sheets)
    return CannotBeDoneError(f"{text} ({of}). {_buy(padded, wanted.sheets, left)}")


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
    refuse_too_long(problem, max((stick.length for stick in usable), default=0))
