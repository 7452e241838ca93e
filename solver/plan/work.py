"""The work of a plan: what is to be done how often, the steps it falls into, and when.

Times are minutes of work [min]; a wait is clock time, nights included.
"""

from __future__ import annotations

from decimal import Decimal
from math import ceil
from typing import Annotated

from pydantic import Field

from solver.job.labour_table import Workplace
from solver.quantities import Model, Number


class Work(Model):
    """One task of the labour table, for one case or for the whole job."""

    task: str
    """Its name in the labour table."""
    case: str | None
    """None: for the whole job."""
    count: Number
    """How many of what the table counts."""
    minutes: Number
    """Of work by one person, for all of them."""
    people: int = 1
    """How many are needed at it."""
    of: tuple[str, ...] = ()
    """Ids of parts, or of sticks' pieces, that it is done to, where it is done to parts."""


class StepCaution(Model):
    """What to watch at a step, and where that comes from."""

    text: str
    source: str


class Predecessor(Model):
    """A step that must be done before another may start."""

    step: str
    wait: int = 0
    """Clock time from its end on [min]; nights count."""
    why: str = ""


class Fitting(Model):
    """Hardware or a consumable that a step takes."""

    line: str
    """Key of its line in the hardware list, and in the buy list."""
    what: str
    count: int
    counted: str
    """What is counted: each, pair, ml, mm or sheet."""


class Step(Model):
    """One step of the order of work."""

    key: str
    what: str
    where: Workplace
    case: str | None = None
    does: tuple[str, ...] = ()
    """What is done, with this job's numbers."""
    tools: tuple[str, ...] = ()
    cautions: tuple[StepCaution, ...] = ()
    works: tuple[Work, ...]
    fittings: tuple[Fitting, ...] = ()
    """Hardware and consumables that go into it, without spares."""
    people: int = 1
    """How many are needed."""
    in_one_go: bool = False
    """Whether it may not stand over a night."""
    shared: bool = False
    """Whether several people do it in so much less time."""
    after: tuple[Predecessor, ...] = ()
    later: str | None = None
    """When it is done, where that is after the job: not in the calendar."""

    @property
    def minutes(self) -> int:
        """Work, rounded up to whole minutes [min]."""
        return ceil(sum((work.minutes for work in self.works), Decimal(0)))

    def minutes_for(self, people: int) -> int:
        """Least time it takes so many people [min]."""
        return -(-self.minutes // people) if self.shared else self.minutes

    @property
    def of(self) -> tuple[str, ...]:
        """Ids of the parts that it is done to, each once."""
        return tuple(dict.fromkeys(part for work in self.works for part in work.of))


class ScheduledStep(Model):
    """A step in the calendar."""

    step: str
    start: int
    """Minutes of working time from the first morning on."""
    end: int
    starts_on: int
    """Working day, from 1."""
    ends_on: int
    slack: int
    """How much later it may end without the job ending later, people aside [min]."""
    persons: tuple[int, ...]
    """Who does it, from 1."""

    @property
    def critical(self) -> bool:
        """Whether the job ends later as soon as it does."""
        return self.slack == 0


class Calendar(Model):
    """The steps in time, for so many people."""

    people: int
    day: int
    """Working time of a day [min]."""
    placed: tuple[ScheduledStep, ...]
    """In the order of their start."""
    minutes: int
    """From the first morning to the end of the last step, working time [min]."""
    bound: int
    """Proven least [min]."""
    proven: bool
    days: int
    """Working days, the last one counted."""
    work: int
    """Hours of work of everybody together, in minutes [min]."""
    alone: tuple[str, ...] = ()
    """Steps that want more people than there are."""


class OrderOfWork(Model):
    """Everything to be done, in order, and when."""

    option: str
    steps: Annotated[tuple[Step, ...], Field(min_length=1)]
    """Each after all that it waits for."""
    calendars: tuple[Calendar, ...]

    def step(self, key: str) -> Step:
        """Return the step of that key; KeyError where there is none."""
        return {step.key: step for step in self.steps}[key]
