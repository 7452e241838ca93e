"""What the steps quote of a case, and the waits of glue and finish.

Waits are clock time, nights included. All of them are common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import ceil, isqrt

from solver.costing.labour_count import CaseWork
from solver.costing.labour_tasks import lots
from solver.plan.hanging import HangSheet
from solver.plan.work import Predecessor
from solver.strength.hang_sheet import hanging_of
from solver.units import TICKS_PER_MM, Ticks, Unit, format_mass, with_unit
from solver.words import word


@dataclass(frozen=True)
class CaseFacts(CaseWork):
    """One case with the texts and figures that its steps quote."""

    @property
    def unit(self) -> Unit:
        """Unit of the job."""
        return self.job.unit

    @property
    def name(self) -> str:
        """Name of the case."""
        return self.planned.name

    def key(self, step: str) -> str:
        """Key of a step of this case."""
        return f"{step} {self.name}"

    def after(self, step: str, wait: int = 0, why: str = "") -> Predecessor:
        """Say that a step of this case comes before."""
        return Predecessor(step=self.key(step), wait=wait, why=why)

    def say(self, length: Ticks) -> str:
        """Write a length in the job's unit."""
        return with_unit(length, self.unit)

    def mass(self, grams: int) -> str:
        """Write a mass in the job's unit."""
        return format_mass(grams, self.unit)

    def word(self, term: str) -> str:
        """Return a term of the trade as a job of this unit calls it."""
        return word(term, self.unit)

    @cached_property
    def sheet(self) -> HangSheet:
        """Weights, hinges and figures of the case."""
        cases = hanging_of(self.job, self.option).cases
        return next(one for one in cases if one.case == self.planned.name)

    def figure(self, key: str) -> Ticks | None:
        """Return a figure that is a length [tick], rounded up; None where it has none."""
        found = next((one for one in self.sheet.figures if one.key == key), None)
        return None if found is None else ceil(found.value * TICKS_PER_MM)

    @property
    def outside(self) -> str:
        """Width x height x depth."""
        size = self.planned.outside
        return " x ".join(self.say(one) for one in (size.width, size.height, size.depth))

    @property
    def diagonal(self) -> Ticks:
        """Diagonal over the outside of the box, to the nearest tick [tick]."""
        return diagonal(self.planned.outside.width, self.planned.outside.height)


def diagonal(width: Ticks, height: Ticks) -> Ticks:
    """Diagonal of a rectangle, to the nearest tick, by whole numbers alone [tick]."""
    square = width * width + height * height
    low = isqrt(square)
    return low if square - low * low <= low else low + 1


CLAMP_TIME = 60
"""How long yellow glue stays in clamps: 30 to 60 min [min]."""
GLUE_CURE = 24 * 60
"""When a glued joint may be loaded: after 24 h [min]."""
RECOAT_TIME = 4 * 60
"""How long a coat, primer too, dries before it is rubbed down or glued beside [min]."""
HARD_DRY = 16 * 60
"""How long the last coat dries before it may be handled and carried [min]."""
OPEN_TIME = 10
"""Time in which yellow glue is spread and the joint closed; the label decides [min]."""


def last_glue(facts: CaseFacts) -> str:
    """Return the step of its last glue-up."""
    return f"glue {len(lots(facts))}"


def box_done(facts: CaseFacts) -> Predecessor:
    """Say that the box is out of its clamps, back and all."""
    if facts.ids("back"):
        return facts.after("back", CLAMP_TIME, "glue sets")
    return facts.after(last_glue(facts), CLAMP_TIME, "in clamps")
