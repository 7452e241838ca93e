"""One default of the job file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from solver.units import Unit

CP = "common practice, no source"


@dataclass(frozen=True)
class Default:
    """One default.

    Attributes
    ----------
    table, key
        Where it stands in the job file.
    inch, metric
        Its value in an inch job and in a metric job; a length is a text of
        digits in the job's unit, such as "1-1/2", and no other text is digits alone.
    meaning
        What it is, in the trade's words.
    source
        Published source, or "common practice, no source".
    """

    table: str
    key: str
    inch: Any
    metric: Any
    meaning: str
    source: str

    def value(self, unit: Unit) -> Any:
        """Return the value for a job in `unit`."""
        return self.inch if unit == "in" else self.metric
