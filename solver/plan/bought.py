"""Buy lists: what is bought for an option, where and what for; and the hardware that it needs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from solver.quantities import Amount, Model, Money, Number

Place = Literal["sheets", "mouldings", "hardware", "fixings", "glue", "paint", "trim"]
"""Where it is bought, in the order of the errands."""
Counted = Literal["sheet", "stick", "each", "pair", "ml", "mm"]


class BuyLine(Model):
    """One thing to buy, in whole packs, sheets or sticks."""

    key: str
    """Unique; what a price list may call it too."""
    what: str
    size: str = ""
    """In the job's unit; empty where it has none."""
    place: Place
    counted: Counted
    need: int
    """What the work takes, spares included."""
    spare: int = 0
    """Of the need."""
    on_hand: int = 0
    """Of the need, what is there already."""
    pack: int = 1
    """What one pack holds."""
    packs: int
    """To buy; 0 where what is on hand does."""
    why: tuple[str, ...]
    """What it is for."""
    of: tuple[str, ...] = ()
    """Ids of the parts that come out of it, for sheets and sticks."""
    each: Money | None = None
    """Price of one pack."""
    amount: Amount | None = None
    """Of all to buy; None where the price is missing."""
    priced_by: Literal["job", "price list"] | None = None

    @property
    def missing(self) -> bool:
        """Whether it is to be bought and has no price."""
        return self.packs > 0 and self.amount is None

    @property
    def named(self) -> str:
        """What it is, with its size where that is not in the name."""
        return f"{self.what}, {self.size}" if self.size else self.what


class SheetUse(Model):
    """How much of the sheets of one material is used."""

    material: str
    sheets: int
    """In the plan, those on hand included."""
    need: Number
    """Area of its parts [m2]."""
    area: Number
    """Of the sheets [m2]."""
    waste: Number
    """Share of the sheets that is no part [-]."""
    by_area: Number
    """Sheets that the area alone would ask for, at the shops' average waste [-]."""


class BuyList(Model):
    """Everything to buy for an option."""

    option: str
    currency: str
    lines: tuple[BuyLine, ...]
    """In the order of the errands."""
    total: Amount
    """Of the prices that are known."""
    uses: tuple[SheetUse, ...] = ()
    """How well the sheets are used."""
    near: tuple[str, ...] = ()
    """Names of the price list that may be meant for what has no price."""
    note: str | None = None
    """The price list's own words on its prices."""

    @property
    def missing(self) -> tuple[str, ...]:
        """What has no price."""
        return tuple(line.named for line in self.lines if line.missing)

    def at(self, place: Place) -> tuple[BuyLine, ...]:
        """Lines that are bought at one place."""
        return tuple(line for line in self.lines if line.place == place)


HardwareCounted = Literal["each", "pair", "ml", "mm", "sheet"]
"""What a line counts: pieces, pairs, millilitres, millimetres, sheets of abrasive."""
BoughtAt = Literal["hardware", "fixings", "paint", "glue", "trim"]
"""Where a line is bought: cabinet hardware, screws and nails, paint shop, glue and filler,
trim."""


@dataclass(frozen=True)
class Use:
    """What a line of hardware is for.

    Attributes
    ----------
    case, what
        Name of the case, and what of it; "" where it is for the case as a whole.
    part
        Name of the boards whose ends take it, "" where it is for no ends.
    """

    case: str
    what: str = ""
    part: str = ""

    @property
    def text(self) -> str:
        """In words: `alcove: shelf ends`."""
        return f"{self.case}: {self.what}" if self.what else self.case


class HardwareLine(Model):
    """One line of hardware or consumables."""

    key: str
    """Stable: what a job file, a price list or another table knows it by."""
    kind: str
    """The same for all sizes of a kind."""
    what: str
    size: str
    """In the job's unit; empty where it has none."""
    counted: HardwareCounted
    need: Annotated[int, Field(ge=1)]
    """What the work takes, no spares."""
    spare: Annotated[int, Field(ge=0)]
    pack: Annotated[int, Field(ge=1)]
    """What one pack holds."""
    packs: Annotated[int, Field(ge=1)]
    """Whole packs for need and spares."""
    at: BoughtAt
    uses: tuple[tuple[Use, int], ...]
    """What for, and how much of the need each takes; these add up to `need`."""
    how: str
    """The arithmetic, with its numbers."""
    source: str
