"""[finish] and [[hardware]]: how a case is finished, and which hardware comes in other packs."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from solver.job.materials import Name
from solver.quantities import Model

Coats = Annotated[int, Field(ge=0, le=10)]
Coverage = Annotated[float, Field(gt=0, le=2000)]


class Finish(Model):
    """[finish]. Keys without a value here have a default in ``casewright defaults``."""

    kind: Literal["paint", "clear", "none"]
    primer: Coats
    """Coats of primer under paint [-]."""
    coats: Coats
    """Coats of paint, or of clear finish [-]."""
    primer_coverage: Coverage
    """ft2 a US gallon in an inch job, m2 a litre in a metric one."""
    coverage: Coverage
    """Of the topcoat; units as of the primer."""
    more: Annotated[float, Field(ge=0, le=1)]
    """Share bought over what the area takes [-]."""


class HardwareOrder(Model):
    """[[hardware]]: what is bought differently from the defaults."""

    key: Name
    """Which line, as casewright buy --explain names it."""
    pack: Annotated[int, Field(ge=1, le=100_000)] | None = None
    """What one pack holds."""
    spare: Annotated[int, Field(ge=0, le=100_000)] | None = None
    """Spares beyond what the work takes."""
