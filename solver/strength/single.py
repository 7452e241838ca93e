"""The single question: how far does this shelf sag under that load, against every named limit."""

from __future__ import annotations

from dataclasses import dataclass

from solver.strength.beam_of import ShelfBeam
from solver.strength.creep import long_term
from solver.strength.limits import LIMITS, SagLimit


@dataclass(frozen=True)
class Held:
    """One limit, and how the shelf stands to it.

    Attributes
    ----------
    limit
        Which.
    sag, allowed
        Sag that it looks at, of the first day or after years, and what it allows [mm].
    longest
        Longest span at this limit under the same load on each length [mm].
    load
        Most load on this span at this limit [N].
    """

    limit: SagLimit
    sag: float
    allowed: float
    longest: float
    load: float

    @property
    def kept(self) -> bool:
        """Whether the limit is kept."""
        return self.sag <= self.allowed * (1 + 1e-9)


@dataclass(frozen=True)
class Deflection:
    """Answer to the single question; lengths [mm], own weight of the shelf not counted."""

    span: float
    first_day: float
    long_term: float
    limits: tuple[Held, ...]

    @property
    def ratio(self) -> float:
        """N of span / n, first day [-]."""
        return self.span / self.first_day

    @property
    def long_ratio(self) -> float:
        """N of span / n, long-term [-]."""
        return self.span / self.long_term


def deflection(beam: ShelfBeam, load: float) -> Deflection:
    """Answer for a shelf under `load` [N] spread evenly; its own weight is not counted.

    So are the published span limits worked out, and the two can be compared.
    """
    plain = ShelfBeam(beam.span, beam.stiffness, 0.0)
    first = plain.first_day(load)
    after = long_term(first)
    held = (_held(plain, load, limit, after if limit.long_term else first) for limit in LIMITS)
    return Deflection(beam.span, first, after, tuple(held))


def _held(beam: ShelfBeam, load: float, limit: SagLimit, sag: float) -> Held:
    allowed = limit.allows(beam.span)
    return Held(limit, sag, allowed, beam.longest(load, limit), load * allowed / sag)
