"""One figure that somebody else gives, and ours for the same question."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum


class Footing(StrEnum):
    """How well the other figure is known."""

    READ = "read"
    """Read in a copy of the source itself."""
    QUOTED = "as quoted"
    """Read only as somebody else quotes or copies it."""
    ARITHMETIC = "arithmetic"
    """A table of the trade that anybody can work out again, printed with its sum."""
    PRACTICE = "common practice, no source"
    MEMORY = "from memory"


@dataclass(frozen=True)
class Check:
    """One row of evidence.

    Attributes
    ----------
    topic, what
        The field, and the question with its numbers.
    source, footing
        Where the other figure stands, and how well that is known.
    printed, within, unit
        The other figure, and how far ours may be from it, in the unit named.
    ours
        Works out our figure, by the functions that plans are made with.
    """

    topic: str
    what: str
    source: str
    footing: Footing
    printed: float
    within: float
    unit: str
    ours: Callable[[], float]


@dataclass(frozen=True)
class Outcome:
    """A check made."""

    check: Check
    ours: float

    @property
    def holds(self) -> bool:
        """True where ours is no farther off than it may be."""
        return abs(self.ours - self.check.printed) <= self.check.within


def made(checks: tuple[Check, ...]) -> tuple[Outcome, ...]:
    """Work out our figure for each check."""
    return tuple(Outcome(check, float(check.ours())) for check in checks)
