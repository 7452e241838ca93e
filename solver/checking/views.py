"""A plan seen from an option, a case, a bay or an opening of it, beside what the job says there.

A view holds only what passed the rules of :mod:`solver.checking.structure`, so that every other
rule may rely on names, numbers and indices. Below are the comparisons that give a finding where
they fail; they show lengths in the job's unit.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from solver.checking.findings import Code, Finding, finding
from solver.job.case import Case
from solver.job.inventory import Item
from solver.job.job import Job
from solver.plan.built import Bay, CasePlan, Opening, Placement, Shelf
from solver.plan.plan import Option, Plan
from solver.units import Ticks, Unit, to_mm, with_unit


@dataclass(frozen=True)
class OpeningView:
    """One opening, with the shelf it stands on (None: the lowest board) and the one over it."""

    bay: BayView
    opening: Opening
    below: Shelf | None
    above: Shelf | None

    @property
    def job(self) -> Job:
        """The job."""
        return self.bay.case.job

    @property
    def unit(self) -> Unit:
        """Unit of the job."""
        return self.job.unit

    @property
    def where(self) -> str:
        """Place for findings."""
        return f"{self.bay.where}, opening {self.opening.index}"

    def place(self, thing: Placement) -> str:
        """Place of one thing for findings."""
        return f"{self.where}, {thing.item} {thing.number}"

    @cached_property
    def things(self) -> tuple[tuple[Placement, Item], ...]:
        """The things that stand here, each with its kind; unknown kinds are reported elsewhere."""
        kinds = self.bay.case.kinds
        return tuple((t, kinds[t.item]) for t in self.opening.items if t.item in kinds)


@dataclass(frozen=True)
class BayView:
    """One bay of a case."""

    case: CaseView
    bay: Bay

    @property
    def where(self) -> str:
        """Place for findings."""
        return f"{self.case.where}, bay {self.bay.number}"

    @property
    def unit(self) -> Unit:
        """Unit of the job."""
        return self.case.job.unit

    @cached_property
    def openings(self) -> tuple[OpeningView, ...]:
        """Its openings from the lowest up."""
        boards = (None, *self.bay.shelves, None)
        return tuple(
            OpeningView(self, opening, boards[k], boards[k + 1])
            for k, opening in enumerate(self.bay.openings)
        )


@dataclass(frozen=True)
class CaseView:
    """One case as ordered and as planned."""

    job: Job
    case: Case
    plan: CasePlan
    where: str

    @property
    def unit(self) -> Unit:
        """Unit of the job."""
        return self.job.unit

    @cached_property
    def kinds(self) -> dict[str, Item]:
        """The kinds of thing by name."""
        return {item.name: item for item in self.job.items}

    @cached_property
    def thickness(self) -> Ticks:
        """Measured thickness of the boards [tick]."""
        return self.job.thickness(self.case.material)

    @cached_property
    def back(self) -> Ticks:
        """Thickness of the planted back, 0 without one [tick]."""
        return 0 if self.case.back == "none" else self.job.thickness(self.case.back)

    @cached_property
    def lip(self) -> tuple[Ticks, Ticks, Ticks]:
        """(thickness, above the shelf, below the shelf) of the lip, zeros without one [tick]."""
        if self.case.lip is None:
            return 0, 0, 0
        moulding = self.job.moulding(self.case.lip.moulding)
        above = self.case.lip.above
        return moulding.thickness, above, moulding.width - self.thickness - above

    @property
    def depth(self) -> Ticks:
        """Inside depth as planned [tick]."""
        return self.plan.bays[0].inside.depth

    @cached_property
    def bays(self) -> tuple[BayView, ...]:
        """Its bays from the left."""
        return tuple(BayView(self, bay) for bay in self.plan.bays)


@dataclass(frozen=True)
class OptionView:
    """One option of the plan, with those of its cases that are soundly built up."""

    plan: Plan
    option: Option
    cases: tuple[CaseView, ...]
    whole: bool
    """True where every case of the job is among `cases`."""

    @property
    def job(self) -> Job:
        """The job as understood."""
        return self.plan.job

    @property
    def unit(self) -> Unit:
        """Unit of the job."""
        return self.job.unit

    @property
    def where(self) -> str:
        """Place for findings."""
        return f"option {self.option.name!r}"

    @property
    def bays(self) -> Iterator[BayView]:
        """All bays of all cases."""
        return (bay for case in self.cases for bay in case.bays)

    @property
    def openings(self) -> Iterator[OpeningView]:
        """All openings of all bays."""
        return (opening for bay in self.bays for opening in bay.openings)


def length_pair(needs: Ticks, has: Ticks, unit: Unit) -> tuple[str, str]:
    """Write two lengths [tick]; in exact mm where rounding would hide the difference."""
    texts = with_unit(needs, unit), with_unit(has, unit)
    if texts[0] == texts[1]:
        return f"{to_mm(needs)} mm", f"{to_mm(has)} mm"
    return texts


def same_length(
    code: Code, where: str, what: str, needs: Ticks, has: Ticks, unit: Unit
) -> Iterator[Finding]:
    """Yield a finding unless both lengths [tick] are equal."""
    if needs != has:
        yield finding(code, where, what, *length_pair(needs, has, unit))


def at_least(
    code: Code, where: str, what: str, needs: Ticks, has: Ticks, unit: Unit
) -> Iterator[Finding]:
    """Yield a finding where `has` is less than `needs` [tick]."""
    if has < needs:
        least, given = length_pair(needs, has, unit)
        yield finding(code, where, what, f"at least {least}", given)


def at_most(
    code: Code, where: str, what: str, needs: Ticks, has: Ticks, unit: Unit
) -> Iterator[Finding]:
    """Yield a finding where `has` is more than `needs` [tick]."""
    if has > needs:
        most, given = length_pair(needs, has, unit)
        yield finding(code, where, what, f"at most {most}", given)


def same(code: Code, where: str, what: str, needs: object, has: object) -> Iterator[Finding]:
    """Yield a finding unless both values are equal; they are shown as text."""
    if needs != has:
        yield finding(code, where, what, str(needs), str(has))
