"""Stock to buy: sheets by material and size, mouldings by the stick."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, model_validator

from solver.job.inventory import Positive
from solver.quantities import Length, Model, Money

Name = Annotated[str, Field(min_length=1, max_length=200)]
Grain = Literal["length", "width", "any"]
"""Which side of a part or sheet the grain runs along."""


class ThicknessBand(Model):
    """Between what a thickness is that has not been measured yet."""

    least: Positive
    """[tick]"""
    most: Positive
    """[tick]"""

    @model_validator(mode="after")
    def _ordered(self) -> ThicknessBand:
        if not self.least < self.most:
            msg = "least < most is wanted"
            raise ValueError(msg)
        return self


class SheetStock(Model):
    """One size of a sheet material."""

    name: Name
    """Name of this size in the buy list; unique."""
    material: Name
    """The material; sheets of one material differ in size and price only."""
    length: Positive
    """Along the grain [tick]."""
    width: Positive
    """Across the grain [tick]."""
    thickness: Positive
    """As measured, not nominal [tick]; not measured yet: { least = 17, most = 19 }."""
    band: ThicknessBand | None = Field(default=None, exclude_if=lambda band: band is None)
    """Between what the thickness will be, where it is not measured yet; `thickness` is then
    the most, for which the plan is drawn."""
    price: Money | None = None
    """Price of one; left out, a sheet costs its area and the total is incomplete."""
    on_hand: Annotated[int, Field(ge=0, le=10_000)] = 0
    """How many are there already, used first and at no price [-]."""
    limit: Annotated[int, Field(ge=0, le=10_000)] | None = None
    """How many can be bought at most [-]; left out, any number."""
    grain: Literal["length", "any"] = "length"
    """"length": parts keep their direction; "any": no grain (MDF, painted), parts may turn."""

    @model_validator(mode="before")
    @classmethod
    def _band_of_thickness(cls, data: Any) -> Any:
        """A thickness given as a range is a band, and the plan is drawn for its most."""
        if isinstance(data, dict) and isinstance(data.get("thickness"), dict):
            band = data["thickness"]
            return {**data, "band": band, "thickness": band.get("most")}
        return data

    @model_validator(mode="after")
    def _drawn_for_the_most(self) -> SheetStock:
        if self.band is not None and self.thickness != self.band.most:
            msg = "thickness of a sheet with a band is the band's most"
            raise ValueError(msg)
        return self


class StickLength(Model):
    """One length in which a moulding is sold."""

    length: Positive
    """[tick]"""
    price: Money | None = None
    """Price of one stick."""
    on_hand: Annotated[int, Field(ge=0, le=10_000)] = 0
    """How many are there already [-]."""
    limit: Annotated[int, Field(ge=0, le=10_000)] | None = None
    """How many can be bought at most [-]."""


class MouldingStock(Model):
    """Lip stock, casing and the like, sold by the stick."""

    name: Name
    """Name in the buy list; unique."""
    thickness: Annotated[Length, Field(ge=32)]
    """Front to back when fixed to a shelf edge; edge banding is thin, 0.1 mm at least [tick]."""
    width: Positive
    """Up and down when fixed to a shelf edge [tick]."""
    lengths: Annotated[tuple[StickLength, ...], Field(min_length=1)]
    """The lengths in which it is sold, with prices."""
