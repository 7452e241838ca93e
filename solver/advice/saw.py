"""Changes of the saw and of the stock: a thinner blade, less edge trim, more of a size."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from solver.advice.changes import STEP, Change
from solver.advice.lots import Lot, Problem
from solver.cutting.problem import CuttingProblem
from solver.units import Ticks, Unit, inches, mm, round_down

BLADES: dict[Unit, tuple[Ticks, ...]] = {
    "in": tuple(inches(text) for text in ("3/32", "5/64", "1/16")),
    "mm": tuple(mm(text) for text in ("2.4", "2.0", "1.6")),
}
"""Thin-kerf table saw blade (3/32 in: saw.coach 3245), guided saw and cordless saw (common
practice) [tick]."""


def blade(lots: Sequence[Lot], unit: Unit) -> list[Change]:
    """A thinner blade for everything, the thickest that does first."""
    kerf = max(lot.problem.kerf for lot in lots)
    amounts = tuple(size for size in BLADES[unit] if size < kerf)
    every = tuple(range(len(lots)))
    return [Change("kerf", every, (), amounts, _with_kerf, kerf)] if amounts else []


def _with_kerf(problem: Problem, kerf: Ticks) -> Problem:
    return replace(problem, kerf=min(kerf, problem.kerf))


def trim(lots: Sequence[Lot], unit: Unit) -> list[Change]:
    """Less trimmed off the factory edges: half of it, or none."""
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
    """More of a size that has a price, where no more than so many could be bought."""
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
