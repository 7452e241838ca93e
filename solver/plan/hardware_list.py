"""Hardware and consumables: what the plan needs, what is spare, and in how many whole packs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from solver.quantities import Model

Counted = Literal["each", "pair", "ml", "mm", "sheet"]
"""What a line counts: pieces, pairs, millilitres, millimetres, sheets of abrasive."""
BoughtAt = Literal["hardware", "fixings", "paint", "glue", "trim"]
"""Where a line is bought: cabinet hardware, screws and nails, paint shop, glue and filler,
trim."""


@dataclass(frozen=True)
class Use:
    """What a line of hardware is for.

    Attributes
    ----------
    case, what
        Name of the case, and what of it; "" where it is for the case as a whole.
    part
        Name of the boards whose ends take it, "" where it is for no ends.
    """

    case: str
    what: str = ""
    part: str = ""

    @property
    def text(self) -> str:
        """In words: `alcove: shelf ends`."""
        return f"{self.case}: {self.what}" if self.what else self.case


class HardwareLine(Model):
    """One line of hardware or consumables."""

    key: str
    """Stable: what a job file, a price list or another table knows it by."""
    kind: str
    """The same for all sizes of a kind."""
    what: str
    size: str
    """In the job's unit; empty where it has none."""
    counted: Counted
    need: Annotated[int, Field(ge=1)]
    """What the work takes, no spares."""
    spare: Annotated[int, Field(ge=0)]
    pack: Annotated[int, Field(ge=1)]
    """What one pack holds."""
    packs: Annotated[int, Field(ge=1)]
    """Whole packs for need and spares."""
    at: BoughtAt
    uses: tuple[tuple[Use, int], ...]
    """What for, and how much of the need each takes; these add up to `need`."""
    how: str
    """The arithmetic, with its numbers."""
    source: str
