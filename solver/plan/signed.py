"""What was signed, and what differs from it: revisions and change orders."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from solver.plan.compared import Comparison
from solver.plan.plan import Option, Plan
from solver.quantities import Model, Money, MoneyDifference


class Signed(Model):
    """A signed revision: the whole plan, the option of it that is built, and what is cut since."""

    schema_: Literal["casewright/signed/1"] = Field(default="casewright/signed/1", alias="schema")
    revision: Annotated[int, Field(ge=1)]
    date: datetime.date
    option: str
    cut_sheets: tuple[Annotated[int, Field(ge=1)], ...] = ()
    """Sheets of the option that are cut already, by number from 1."""
    cut_sticks: tuple[Annotated[int, Field(ge=1)], ...] = ()
    """Sticks of moulding likewise."""
    plan: Plan

    @property
    def built(self) -> Option:
        """The option that was signed; KeyError where the plan has none of that name."""
        return {one.name: one for one in self.plan.options}[self.option]


class JobChange(Model):
    """One thing that is asked for otherwise than before, in words."""

    where: str
    """Table of the job, with the name where it has several: `item 'tea urn'`."""
    what: str
    before: str
    """Empty: it is new."""
    after: str
    """Empty: it is gone."""


class CutStock(Model):
    """A sheet or stick of the signed revision that is cut already, so it is paid for."""

    stock: str
    number: int
    """Of the sheet or stick in the signed revision, from 1."""
    price: Money | None
    """None where it has none, or was on hand."""
    serve: tuple[str, ...]
    """Parts cut from it that the plan of now has in the same size."""
    lost: tuple[str, ...]
    """Parts cut from it that it has not."""


class ChangeOrder(Model):
    """What differs from the signed revision, and what that costs."""

    revision: int
    """The signed one."""
    date: datetime.date
    asked: tuple[JobChange, ...]
    """What is asked for otherwise."""
    built: Comparison
    """Marks, things and parts that differ."""
    cut: tuple[CutStock, ...]
    before: Money
    """Price as signed."""
    now: Money
    """Price of what is still to be bought and made."""
    spent: Money
    """What the stock that is cut already and its work are of the signed price."""
    difference: MoneyDifference
    """now + spent - before."""
    complete: bool
    """False where something has no price."""

    @property
    def is_empty(self) -> bool:
        """True where nothing differs; what is cut of the plan as it was signed changes nothing."""
        built, priced = self.built, self.now != self.before and self.difference != 0
        return not (self.asked or built.marks or built.things or built.parts or priced)
