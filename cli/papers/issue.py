"""What the papers are made of: one option of a plan, with the date and revision on every page.

Also how parts are called on papers and labels, and limits as a client may rely on them.
"""

from __future__ import annotations

import calendar
import datetime
import re
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import groupby
from typing import Literal

from cli.drawings.things import Pictures
from solver.costing.estimate import estimate
from solver.costing.revision_changes import change_order
from solver.job.job import Job
from solver.job.price_terms import PriceList
from solver.plan.estimated import Estimate
from solver.plan.hanging import Hanging
from solver.plan.plan import Option, Plan
from solver.plan.signed import ChangeOrder, Signed
from solver.plan.stocked import Part
from solver.plan.work import Step
from solver.strength.hang_sheet import hanging_of
from solver.units import GRAMS_PER_POUND, Grams, Unit
from solver.work.build_steps import build_steps


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


def make_issue(
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


OF_THE_WORK = (
    *("country", "lead-paint", "asbestos", "not-asked", "not-known", "lifting", "saws", "dust"),
    "formaldehyde",
)
"""Keys of cautions that are for the maker and not for whoever lives with the case."""

_NUMBERED = re.compile(r"(.*?)(\d+)")


def short_id(ident: str) -> str:
    """Return a part's id without its case: `shelf-2` of `alcove/shelf-2`."""
    return ident.rpartition("/")[2]


def ids_text(parts: Iterable[Part]) -> str:
    """Return the ids of parts, those that are numbered on drawn together: `shelf-1 to 7`."""
    return ", ".join(_run(list(some)) for _, some in groupby(_split(parts), _chain))


def _split(parts: Iterable[Part]) -> list[tuple[int, str, int | None]]:
    """Split each id in (place in the list, what comes before its number, its number)."""
    named_parts: list[tuple[int, str, int | None]] = []
    for at, part in enumerate(parts):
        match = _NUMBERED.fullmatch(short_id(part.id))
        named_parts.append(
            (at, match[1], int(match[2])) if match else (at, short_id(part.id), None)
        )
    return named_parts


def _chain(one: tuple[int, str, int | None]) -> tuple[str, int | None]:
    """Return what is equal for ids that follow each other: 2 less 1 is 3 less 2."""
    at, before, number = one
    return before, None if number is None else number - at


def _run(some: list[tuple[int, str, int | None]]) -> str:
    (_, before, first), (_, _, last) = some[0], some[-1]
    if first is None:
        return before
    return f"{before}{first}" if len(some) == 1 else f"{before}{first} to {last}"


def limit_text(grams: Grams, unit: Unit) -> str:
    """Return a load limit [g] rounded down: whole pounds, or half kilograms."""
    if unit == "in":
        return f"{int(grams / GRAMS_PER_POUND)} lb"
    halves = grams // 500
    return f"{halves // 2}{'.5' if halves % 2 else ''} kg"
