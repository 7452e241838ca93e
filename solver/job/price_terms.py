"""[price], what an hour costs and how the job is paid; and the price list of a shop."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from typing import Annotated, Any, Literal

from pydantic import (
    BeforeValidator,
    Field,
    PlainSerializer,
    WithJsonSchema,
    field_validator,
    model_validator,
)

from solver.errors import InputError
from solver.job.labour_table import CONTINGENCY, FORGOTTEN, TASKS, unknown_name
from solver.job.materials import Name
from solver.quantities import Model, Money, plain_number

TASK_MINUTES_MOST = 6000
"""Longest time for one of anything in the labour table [min]."""


def _number(value: Any, least: int, most: int, what: str) -> Decimal:
    """Read a number as a Decimal of at most three places, between two bounds."""
    try:
        if isinstance(value, bool) or not isinstance(value, str | int | float | Decimal):
            raise InvalidOperation
        read = Decimal(str(value).strip().removesuffix("%").strip())
        if not read.is_finite():
            raise InvalidOperation
        rounded = read.quantize(Decimal("0.001"))
    except InvalidOperation:
        msg = f"{value!r} is given; allowed: {what} from {least} to {most}"
        raise ValueError(msg) from None
    if not least <= read <= most or rounded != read:
        msg = f"{value!r} is given; allowed: {what} from {least} to {most}"
        raise ValueError(msg)
    return read


_OUT = PlainSerializer(plain_number, return_type=str, when_used="json")
_SCHEMAS = (
    WithJsonSchema({"type": "string"}, mode="serialization"),
    WithJsonSchema({"type": ["number", "string"]}, mode="validation"),
)
Percent = Annotated[
    Decimal, BeforeValidator(lambda v: _number(v, 0, 100, "per cent")), _OUT, *_SCHEMAS
]
"""Per cent, 0 to 100 [%]."""
Minutes = Annotated[
    Decimal,
    BeforeValidator(lambda v: _number(v, 0, TASK_MINUTES_MOST, "minutes for one")),
    _OUT,
    *_SCHEMAS,
]
"""Minutes of work for one of something [min]."""
Hours = Annotated[
    Decimal, BeforeValidator(lambda v: _number(v, 1, 16, "working hours a day")), _OUT, *_SCHEMAS
]
"""Working hours a day [h]."""


class PayStage(Model):
    """One payment: when it is due, and its share of the total."""

    when: Name
    share: Percent


class Terms(Model):
    """[price]. Keys without a value here have a default in ``casewright defaults``."""

    hourly: Money | None = None
    """Price of an hour of work; left out, labour has hours but no price."""
    hourly_second: Money | None = None
    """Price of an hour of the second person; left out, as `hourly`."""
    overhead: Percent
    """On materials and labour."""
    profit: Percent
    """On materials, labour and overhead."""
    contingency: Percent
    """On materials and labour."""
    tax: Percent | None = None
    """Sales tax or VAT; left out, the total is without tax and says so."""
    tax_on: Literal["everything", "materials"]
    stages: Annotated[tuple[PayStage, ...], Field(min_length=1, max_length=12)]
    """Deposit and further payments; their shares add up to 100."""
    hours_a_day: Hours
    valid_days: Annotated[int, Field(ge=1, le=365)]
    """How long the price holds [days]."""
    labour: dict[str, Minutes] = Field(default_factory=dict)
    """Minutes for one, by the names of the labour table, where they differ from it."""
    extras: dict[str, Money] = Field(default_factory=dict)
    """Amounts in place of the hours of the forgotten ones; 0 where there is none."""

    @field_validator("labour")
    @classmethod
    def _tasks(cls, given: dict[str, Decimal]) -> dict[str, Decimal]:
        for name in given:
            if name not in TASKS:
                raise ValueError(unknown_name("task", name, TASKS))
        return given

    @field_validator("extras")
    @classmethod
    def _extras(cls, given: dict[str, Decimal]) -> dict[str, Decimal]:
        allowed = [name for name in FORGOTTEN if name != CONTINGENCY]
        for name in given:
            if name not in allowed:
                raise ValueError(unknown_name("extra", name, allowed))
        return given

    @field_validator("stages")
    @classmethod
    def _whole(cls, given: tuple[PayStage, ...]) -> tuple[PayStage, ...]:
        shares = sum(stage.share for stage in given)
        if shares != 100:
            msg = f"the shares add up to {plain_number(Decimal(shares))}; 100 is wanted"
            raise ValueError(msg)
        return given

    def minutes(self, task: str) -> Decimal:
        """Minutes of work for one of a task of the labour table [min]."""
        return self.labour.get(task, TASKS[task].minutes)


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
