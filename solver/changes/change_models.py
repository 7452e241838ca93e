"""What a small change is: how it changes a problem, and by how much at most.

A change has amounts, least disturbance first. What one amount saves, a later one saves as
well, but for joints in parts, so the smallest is found by halving; whatever is advised has
been cut.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, TypeAlias

from solver.changes.lots import Problem
from solver.cutting.problem import CuttingProblem
from solver.units import Ticks, Unit, inches, mm

What: TypeAlias = Literal[
    "shorter", "narrower", "kerf", "edge trim", "grain", "two pieces", "more of a size"
]
Side: TypeAlias = Literal["length", "width"]
"""Of the part, not of the sheet."""

SIDES: tuple[Side, ...] = ("length", "width")

STEP: dict[Unit, Ticks] = {"in": inches("1/32"), "mm": mm("0.5")}
"""Sizes change by whole steps [tick]."""


@dataclass(frozen=True)
class Change:
    """One change of the parts of one lot, or of all lots.

    Attributes
    ----------
    lots
        Which lots it changes.
    parts
        Ids of the parts that it changes; empty where it is about the saw or the stock.
    amounts
        What `apply` may be given, least disturbance first: how much less, or the new kerf or
        trim [tick], or how many parts, or how many sheets [-].
    apply
        Returns the changed problem.
    now
        The kerf, trim [tick] or limit [-] as it is.
    side
        Which side of the parts it changes, if it does.
    stock
        Name of the stock that more is wanted of.
    """

    what: What
    lots: tuple[int, ...]
    parts: tuple[str, ...]
    amounts: tuple[int, ...]
    apply: Callable[[Problem, int], Problem]
    now: int = 0
    side: Side = "length"
    stock: str = ""


def ids(problem: Problem) -> list[str]:
    """Return the names of the parts of a problem."""
    if isinstance(problem, CuttingProblem):
        return [part.id for part in problem.parts]
    return [piece.id for piece in problem.pieces]
