"""Heights that things need, in one opening."""

from __future__ import annotations

from dataclasses import dataclass

from solver.cp_sat import cp_model
from solver.units import Ticks


@dataclass(frozen=True)
class Level:
    """A height that some thing needs, in one opening; levels are nested.

    Attributes
    ----------
    height
        Of the things, from the floor of the opening to their top [tick].
    steps
        Least marking steps of the opening, by what it is: bottom, middle, top.
    reached
        True only if the opening is so high, and true where a thing so high stands in it.
    """

    height: Ticks
    steps: tuple[int, int, int]
    reached: cp_model.IntVar
