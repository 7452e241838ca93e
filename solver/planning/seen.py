"""A finished option as the words of its look read it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from solver.job.job import Job
from solver.plan.built import CasePlan, SharedLines
from solver.plan.plan import Stage
from solver.planning.look_figures import LineGroup, line_groups
from solver.planning.shelf_words import ShelfNames
from solver.units import Unit


@dataclass(frozen=True)
class Seen:
    """Job and cases, their groups of lines, and the names of their shelves."""

    job: Job
    cases: tuple[CasePlan, ...]
    groups: tuple[LineGroup, ...]
    names: ShelfNames
    values: Mapping[str, float | str | None]
    """What the stages reached, by name."""

    @classmethod
    def of(
        cls,
        job: Job,
        cases: Sequence[CasePlan],
        lines: Sequence[SharedLines],
        stages: Sequence[Stage] = (),
    ) -> Seen:
        """Return what is seen of these cases."""
        names = ShelfNames(tuple(cases))
        values = {stage.name: stage.value for stage in stages}
        return cls(job, tuple(cases), line_groups(job, cases, lines), names, values)

    @property
    def unit(self) -> Unit:
        """Unit of the job."""
        return self.job.unit
