"""[case.light] and [case.glass]: what is asked for, and what comes of it."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field, model_validator

from solver.job.inventory import Positive
from solver.quantities import Length, Mass, Model

Watts = Annotated[float, Field(gt=0, le=1000)]


class Light(Model):
    """[case.light]: strips of small lamps on low voltage."""

    where: Literal["shelves", "top", "sides"]
    """Under the front of every shelf and of the top, under the top alone, or up both sides."""
    watts: Annotated[float, Field(gt=0, le=100)]
    """Of the strip: a foot in an inch job, a metre in a metric one [W]."""
    driver: Watts | None = None
    """What the driver is rated for [W]; left out, the next usual size."""
    short: Annotated[Length, Field(ge=0)]
    """Each strip is shorter than its board by so much, both ends together [tick]."""


class GlassLoad(Model):
    """One line of the maker's load table, for the thickness and depth of these shelves."""

    span: Positive
    """Between supports, at most [tick]."""
    load: Annotated[Mass, Field(ge=1)]
    """Spread evenly [g]."""


class Glass(Model):
    """[case.glass]: glass shelves thought of in place of the boards, or a glazed front."""

    shelves: bool = False
    table: tuple[GlassLoad, ...] = ()
    """The maker's load table; without it no glass shelf is passed."""
    front: bool = False
    """Whether the case has a glazed front or door."""

    @model_validator(mode="after")
    def _steadily_less(self) -> Glass:
        rows = sorted(self.table, key=lambda row: row.span)
        if any(a.load < b.load for a, b in pairwise(rows)):
            msg = "table: a longer span bears more than a shorter one; copy the maker's table again"
            raise ValueError(msg)
        return self


class LitRun(Model):
    """One strip."""

    where: str
    length: Length


class Lit(Model):
    """The light of one case."""

    runs: tuple[LitRun, ...]
    watts: float
    """Of all strips [W]."""
    driver_needed: float
    """Watts / 0.8: a driver is not run at its full load [W]."""
    driver: float
    """As given, else the next usual size [W]."""
    enough: bool
    notes: tuple[str, ...]


class GlassShelf(Model):
    """One shelf against the maker's table."""

    where: str
    span: Length
    load: Mass
    """What stands on it [g]."""
    allowed: Mass | None
    """By the table, for the next longer span that it lists; None where it lists none [g]."""

    @property
    def passed(self) -> bool:
        """Whether the maker's table bears it."""
        return self.allowed is not None and self.load <= self.allowed


class Glazed(Model):
    """The glass of one case."""

    shelves: tuple[GlassShelf, ...]
    notes: tuple[str, ...]
    good: bool
    """False where something is not to be made so."""
