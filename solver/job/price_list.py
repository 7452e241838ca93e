"""A shop's price list: what things cost, in which packs, and what is on hand."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, model_validator

from solver.errors import InputError
from solver.job.materials import Name
from solver.quantities import Model, Money

HOUR, SECOND_HOUR = "hour of work", "hour of the second person"
"""Items of a price list that price labour."""


class ListPrice(Model):
    """One line of a price list."""

    item: Name
    """The thing, as the buy list names it."""
    price: Money | None = None
    """Of one pack; left out, the line only says what is on hand."""
    pack: Annotated[int, Field(ge=1, le=1_000_000)] | None = None
    """What one pack holds, in what the buy list counts; left out, as the buy list has it."""
    on_hand: Annotated[int, Field(ge=0, le=1_000_000)] = 0
    """How much is there already, in what the buy list counts."""
    note: str | None = None


class PriceList(Model):
    """Prices from one file."""

    currency: Annotated[str, Field(pattern=r"^[A-Z]{3}$")] | None = None
    """Left out, that of the job."""
    note: str | None = None
    """Where the prices come from; shown with every total made with them."""
    prices: tuple[ListPrice, ...] = ()

    @model_validator(mode="after")
    def _once(self) -> PriceList:
        names = [one.item.casefold() for one in self.prices]
        twice = sorted({name for name in names if names.count(name) > 1})
        if twice:
            msg = f"given twice: {', '.join(map(repr, twice))}; keep one line of each"
            raise ValueError(msg)
        return self

    def refuse_other_currency(self, currency: str) -> None:
        """Raise InputError where the list is in another currency than the job's."""
        if self.currency not in (None, currency):
            msg = (
                f"the price list is in {self.currency} and the job in {currency}; "
                "give a list in the job's currency, or change [job] currency"
            )
            raise InputError(msg)

    def of(self, *names: str) -> ListPrice | None:
        """Return the line of the first of these names that has one, letter case aside."""
        lines = {one.item.casefold(): one for one in self.prices}
        return next((lines[n.casefold()] for n in names if n.casefold() in lines), None)
