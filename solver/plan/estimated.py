"""The price of an option: materials, labour, what estimates leave out, and what comes on top.

Every line is rounded half up to the cent, and sums are sums of rounded lines.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from typing import Literal

from solver.job.labour_table import Phase
from solver.plan.bought import BuyList
from solver.quantities import Amount, Model, Number

CENT = Decimal("0.01")


def to_cents(amount: Decimal) -> Decimal:
    """Round half up to the cent, the one rule for money."""
    return amount.quantize(CENT, ROUND_HALF_UP)


class LabourLine(Model):
    """One task over all cases."""

    task: str
    phase: Phase
    per: str
    count: Number
    each: Number
    """Minutes for one [min]."""
    minutes: Number
    """[min]"""
    amount: Amount | None
    """None where an hour has no price."""
    source: str
    """Where the time comes from."""


class ExtraLine(Model):
    """One of the forgotten ones: counted, given as an amount, or none and why."""

    what: str
    state: Literal["counted", "given", "none"]
    minutes: Number
    """[min]"""
    amount: Amount | None
    why: str


SumKind = Literal["materials", "labour", "extras", "overhead", "profit", "net", "tax", "total"]
"""What a line of the summing up is."""


class SumLine(Model):
    """One line of the summing up."""

    kind: SumKind
    what: str
    amount: Amount


class Payment(Model):
    """What is due when."""

    when: str
    share: Number
    """[%]"""
    amount: Amount


class OneMoreShelf(Model):
    """What one shelf costs in labour, all that is counted by the shelf."""

    minutes: Number
    """[min]"""
    amount: Amount | None
    tasks: tuple[str, ...]


class Estimate(Model):
    """What an option costs."""

    option: str
    currency: str
    buying: BuyList
    labour: tuple[LabourLine, ...]
    extras: tuple[ExtraLine, ...]
    sums: tuple[SumLine, ...]
    """In order; the last one is the total."""
    payments: tuple[Payment, ...]
    valid_days: int
    minutes: Number
    """All hours of work, extras and second person included, in minutes [min]."""
    shelf: OneMoreShelf | None
    missing: tuple[str, ...]
    """What has no price; the total is too low by it."""

    @property
    def total(self) -> Decimal:
        """What is known to be due, tax included where it is given."""
        return self.sums[-1].amount

    @property
    def complete(self) -> bool:
        """Whether everything counted has a price."""
        return not self.missing


class Difference(Model):
    """A line of the estimate against what came of it."""

    what: str
    hours: Number | None
    """Estimated [h]."""
    hours_actual: Number | None
    amount: Amount | None
    amount_actual: Amount | None
    more: Amount | None
    """Actual less estimated; below zero, less."""
    more_hours: Number | None
