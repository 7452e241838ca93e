"""A figure with the formula, the numbers and the source that it comes from."""

from __future__ import annotations

from solver.quantities import Model


class Explained(Model):
    """One figure, explained."""

    what: str
    value: str
    """With its unit, as shown."""
    formula: str
    numbers: str
    """The formula with the numbers of the job put in."""
    source: str
