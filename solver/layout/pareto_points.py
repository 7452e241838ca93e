"""Pareto points of rhythm against even headroom: layouts not beaten, and boxes still open."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction

from solver.layout.evenness import Evenness
from solver.layout.layout_engine import LayoutAnswer
from solver.outcome import Status
from solver.units import Ticks

ANY_SPREAD = 1 << 40
"""More than any spread [tick]."""
PERFECT = Evenness(0, 0)


@dataclass(frozen=True)
class Fineness:
    """What nobody sees: differences of rhythm and of evenness that make no new option [tick]."""

    rhythm: Ticks
    headroom: Ticks


@dataclass(frozen=True)
class ParetoPoint:
    """One layout that is not beaten: no other has both rhythm and headroom as good.

    `rhythm_bound` holds for all layouts whose headroom is as even, `even_bound` for all
    whose rhythm is as good.
    """

    rhythm: Fraction
    rhythm_bound: Fraction
    even: Evenness
    even_bound: Evenness
    answer: LayoutAnswer
    exact: bool = True

    @property
    def proven(self) -> bool:
        """True where both values meet their bounds."""
        met = self.rhythm <= self.rhythm_bound and self.even <= self.even_bound
        return met and self.exact


@dataclass(frozen=True)
class Box:
    """Where layouts may still lie: a rhythm from `rhythm[0]` on, under `rhythm[1]` [tick].

    And an evenness from `even[0]` on, under `even[1]`. `rhythm[1]` is None where no layout
    is known that ends it.
    """

    rhythm: tuple[Fraction, Fraction | None]
    even: tuple[Evenness, Evenness]


@dataclass
class ParetoFront:
    """What was found: the layouts, best rhythm first, and the boxes left open.

    `status` is INFEASIBLE where not everything fits, UNKNOWN where nothing was found.
    """

    status: Status
    left_out: int | None = None
    points: list[ParetoPoint] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)


Beaten = Callable[[Fraction, Evenness], bool]
"""Whether an option is known that is as good as this rhythm and evenness."""
