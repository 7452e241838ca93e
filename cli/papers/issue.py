"""What the papers are made of: one option of a plan, with the date and revision on every page."""

from __future__ import annotations

import calendar
import datetime
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Literal

from cli.drawings.things import Pictures
from solver.changing.order import change_order
from solver.estimate.price import estimate
from solver.estimated import Estimate
from solver.hanging import Hanging
from solver.job import Job
from solver.plan import Option, Plan
from solver.price_list import PriceList
from solver.signed import ChangeOrder, Signed
from solver.steps.build import build_steps
from solver.strength.sheet import hanging_of
from solver.units import Unit
from solver.work import Step


@dataclass(frozen=True)
class Issue:
    """One issue of the papers.

    Attributes
    ----------
    plan, option
        The plan, and the option that is built.
    revision
        As printed on every page, such as "1" or "draft".
    date
        None: a line to write it on. Never today's by itself: the same job and revision give
        the same bytes on any day.
    """

    plan: Plan
    option: Option
    revision: str
    date: datetime.date | None
    handed_over: datetime.date | None = None
    """Day of the handover, where it is known: a month later the hanging is looked at again."""
    signed: Signed | None = None
    """The last signed revision, where there is one."""
    prices: PriceList | None = None
    """The shop's prices, beside those of the job."""
    pictures: Pictures = field(default_factory=dict)
    """Pictures of things by name, as read from beside the job."""

    @property
    def job(self) -> Job:
        """The job as understood."""
        return self.plan.job

    @property
    def unit(self) -> Unit:
        """Unit of the job: "in" or "mm"."""
        return self.plan.unit

    @cached_property
    def estimate(self) -> Estimate:
        """What the option costs."""
        return estimate(self.job, self.option, self.prices)

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The work, each step after what it waits for."""
        return build_steps(self.job, self.option)

    @cached_property
    def change(self) -> ChangeOrder | None:
        """What differs from the signed revision; None where nothing is signed."""
        if self.signed is None:
            return None
        return change_order(self.signed, self.plan, self.option, self.prices)

    @cached_property
    def hanging(self) -> Hanging:
        """What holds the cases up; worked out where the plan was made without it."""
        return self.option.hanging or hanging_of(self.job, self.option)

    @property
    def recheck(self) -> datetime.date | None:
        """A month after the handover, or its last day where that month is shorter."""
        if self.handed_over is None:
            return None
        years, month = divmod(self.handed_over.month, 12)
        year = self.handed_over.year + years
        last = calendar.monthrange(year, month + 1)[1]
        return datetime.date(year, month + 1, min(self.handed_over.day, last))

    @property
    def paper_size(self) -> Literal["us-letter", "a4"]:
        """Letter for an inch job, A4 for a metric one."""
        return "us-letter" if self.unit == "in" else "a4"


def issued(
    plan: Plan,
    option: Option,
    signed: Signed | None,
    date: datetime.date | None,
    handed_over: datetime.date | None = None,
    prices: PriceList | None = None,
) -> Issue:
    """Return the issue of an option: the signed revision where nothing differs, else a draft.

    The date is the one given, else that of the signature; a draft without one has none.
    """
    draft = Issue(plan, option, "draft", date, handed_over, signed, prices)
    change = draft.change
    if signed is None or change is None:
        return draft
    if change.is_empty:
        return replace(draft, revision=str(signed.revision), date=date or signed.date)
    return replace(draft, revision=f"draft of {signed.revision + 1}")
