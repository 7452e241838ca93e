"""Something to minimise."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.layout.variables import Linear


@dataclass(frozen=True)
class Goal:
    """A wish as an expression of a model.

    Attributes
    ----------
    expression
        Whole-number expression of the model.
    unit
        What one unit of it is worth: ticks for lengths, mm2 for areas, else counts or grams.
    """

    expression: Linear
    unit: Fraction = Fraction(1)
